"""How many positions may be looked at for one claim; apart from the prover, so that reading it costs nothing."""

BUDGET = 12_000
"""Positions looked at before a claim is left unproved."""
DEEP = 1_500_000
"""The same, where there is time."""
