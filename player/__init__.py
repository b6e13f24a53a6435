"""Moveteller: narrated chess lessons, told and asked in a terminal."""

__version__ = "0.1.0"
