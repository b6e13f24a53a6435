"""A model game that fades: its last move is asked, then its last three, then the whole plan."""

from __future__ import annotations

from dataclasses import replace

import chess

from player.cues.insert import inserted
from player.cues.keys import ask_key
from player.cues.sheet import Ask, Sheet, Step
from player.facts.place import Place
from player.script.told import Turn
from player.wording.prose import speakable

LEVELS = (0, 1, 3, None)
"""How many of the learner's moves are asked when the game is heard for the first time, the second, and so on;
None for all of them."""


def faded(sheet: Sheet, count: int | None) -> Sheet:
    """The sheet with the last `count` askable moves of its side's longest game asked, all for None.

    A move can be asked where it is the first of its sentence and no question stands for it already.
    """
    asked = _askable(sheet)
    chosen = asked if count is None else asked[max(0, len(asked) - count) :]
    return inserted(sheet, {index: [_ask(sheet.steps[index], index, turn)] for index, turn in chosen})


def askable(sheet: Sheet) -> int:
    """How many moves of the game can be asked."""
    return len(_askable(sheet))


def _askable(sheet: Sheet) -> list[tuple[int, Turn]]:
    game = _longest_game(sheet)
    known = {step.ask.place for step in sheet.steps if step.ask is not None}
    out = []
    for index, step in enumerate(sheet.steps):
        turn = next((cue.do for cue in step.cues if isinstance(cue.do, Turn)), None)
        if turn is None or step.scopes or step.kind != "tell" or turn.before in known:
            continue
        if turn.before == step.before and turn.after in game and _is_ours(sheet.side, turn):
            out.append((index, turn))
    return out


def _longest_game(sheet: Sheet) -> frozenset[Place]:
    """All places of the longest line told on the lesson's own depth."""
    ends = [step.after for step in sheet.steps if not step.scopes]
    end = max(ends, key=lambda place: len(place.moves), default=Place())
    return frozenset(Place(end.root, end.moves[:count]) for count in range(len(end.moves) + 1))


def _is_ours(side: str, turn: Turn) -> bool:
    mover = turn.before.board().turn
    return side not in ("white", "black") or mover == (side == "white")


def _ask(step: Step, index: int, turn: Turn) -> Step:
    mover = "White" if turn.before.board().turn == chess.WHITE else "Black"
    text = f"What does {mover} play here?"
    key = ask_key(turn.before, "move", [turn.uci])
    ask = Ask(
        key=key,
        kind="move",
        place=turn.before,
        text=text,
        answer=turn,
        told=index,
        answers=(turn.uci,),
        choices=(),
        also=(),
        replies=(),
        otherwise=(),
        because=(),
        because_given=False,
        nudges=(),
        about=(),
        think_ms=None,
        again=False,
    )
    return replace(
        step,
        key=f"{key}-faded:program",
        kind="ask",
        after=step.before,
        say=speakable(text),
        cues=(),
        rest_ms=450,
        stamp_ms=None,
        ask=ask,
    )
