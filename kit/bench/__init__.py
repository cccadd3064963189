"""Simulated runs with a hidden truth, from the documented vessel model."""
