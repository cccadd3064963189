"""Noise, intervals, trends, rises and pooling: arrays in, numbers with uncertainty out. Knows nothing of runs."""
