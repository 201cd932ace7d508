"""Electrical quantities from plain numbers: cables, fuses, networks. Knows nothing of jobs."""
