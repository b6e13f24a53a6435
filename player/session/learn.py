"""Slow truths about a move: whatever answers `Need`."""

from __future__ import annotations

from collections.abc import Callable
from typing import get_args

import chess

from player.facts.place import Place
from player.stage.happenings import Standing
from player.wording.say import say

Learn = Callable[[Place, str], tuple[str, str]]
"""Given a place and a legal move in UCI: a sentence about that move, and whose word it is."""


def learn_or_own(learn: Learn | None, place: Place, move: str) -> tuple[str, str]:
    """What `learn` says, or, where it fails or there is none, the plain sentence that nobody knows."""
    if learn is not None:
        try:
            sentence, standing = learn(place, move)
        except Exception:
            return unknown(place, move)
        if sentence.strip() and standing in get_args(Standing):
            return sentence, standing
    return unknown(place, move)


def unknown(place: Place, move: str) -> tuple[str, str]:
    """Nobody has said what is wrong with this move here."""
    try:
        shown = say(place.board(), chess.Move.from_uci(move)).shown
    except ValueError:
        shown = "that move"
    return f"It is not {shown} here; what there is against it, nobody has said.", "unknown"
