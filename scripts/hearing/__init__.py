"""What scripts/ears.py is made of: clips of synthetic speech, the learning of confidence, and the measure."""
