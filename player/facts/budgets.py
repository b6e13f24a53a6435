"""How many positions may be looked at for one claim; reading it loads no prover."""

BUDGET = 12_000
"""Positions looked at before a claim is left unproved."""
DEEP = 1_500_000
"""The same, where there is time."""
