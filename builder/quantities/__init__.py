"""Exact lengths, times, masses, angles: read, reckon, show."""
