"""Hearing spoken answers."""
