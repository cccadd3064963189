"""Runs, windows, files of every kind, and where a learner's marks and answers are kept."""
