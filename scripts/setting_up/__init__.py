"""What play.py and test.py share: the .venv of a checkout, made once from a lock file and reused.

Only the standard library, since nothing else is there yet.
"""
