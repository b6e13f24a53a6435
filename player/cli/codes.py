"""How a run ends, for the shell."""

from __future__ import annotations

from enum import IntEnum


class Code(IntEnum):
    """`FINE`: as asked. `FAULTS`: a lesson has faults. `UNUSABLE`: it could not be done at all.

    `UNPROVED`: a claim is neither proved true nor proved false. `STOPPED` is the shells' own number for
    Ctrl-C (128 and the number of SIGINT).
    """

    FINE = 0
    FAULTS = 1
    UNUSABLE = 2
    UNPROVED = 3
    STOPPED = 130
