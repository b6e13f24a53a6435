"""Slow truths about a move: whatever answers `Need`."""

from __future__ import annotations

import contextlib
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, get_args

import chess

from player.cues.sheet import Ask, Sheet
from player.facts.material import value
from player.facts.place import Place
from player.script.told import Turn
from player.session.judge import Judge, View
from player.stage.happenings import Standing
from player.wording.say import say

if TYPE_CHECKING:
    from player.wording.replies import Answered
    from player.wording.replies_engine import Opinion, Thinker

Learn = Callable[[Place, str], tuple[str, str]]
"""Given a place and a legal move in UCI: a sentence about that move, and whose word it is."""

_LOOK_AHEAD = 8
_LITTLE = ("sound", "differs")
"""Findings that prove little: an engine or a search may know more."""
_BESIDE = ("missed win", "wins too", "order")
"""Findings beside which something may still fall, deeper than they look."""


@dataclass(slots=True)
class Replying:
    """Answers wrong moves at the questions of one lesson: `replying(place, move)`.

    What is proved comes first; where that is only that nothing was found, or a difference, an engine may add
    its opinion, or, where there is none or it fails, a short search. It remembers the moves tried at the same
    place, so that two replies do not sound alike.
    """

    sheet: Sheet
    judge: Judge | None = None
    search: Judge | None = None
    _tried: dict[Place, list[str]] = field(default_factory=dict)

    def __call__(self, place: Place, move: str) -> tuple[str, str]:
        """A sentence about a legal move (UCI), and whose word it is. ValueError where it is not legal."""
        known = asked_at(self.sheet, place)
        answer = known.answer.uci if known is not None and known.answer is not None else None
        told = told_from(self.sheet, known) if known is not None else ()
        earlier = self._tried.setdefault(place, [])
        # Imported when it is needed: the first frame must not wait for it.
        from player.wording.replies import reply

        found = reply(place, move, answer, told, [one for one in earlier if one != move])
        if move in earlier:
            earlier.remove(move)
        earlier.append(move)
        return self._judged(place, move, answer, found)

    def _judged(self, place: Place, move: str, answer: str | None, found: Answered) -> tuple[str, str]:
        """The proved sentence, or an engine's or a search's where that says more."""
        if found.kind not in (*_LITTLE, *_BESIDE):
            return found.sentence, found.standing
        moves = [move] if answer is None else [move, answer]
        views, thinker = self._views(place, moves)
        from player.wording.replies_engine import opinion

        mine, own = _opinion(views.get(move)), _opinion(views.get(answer or ""))
        if found.kind in _BESIDE and not _loses(place, mine):
            return found.sentence, found.standing
        said = opinion(place, move, mine, own, found.kind == "sound", thinker)
        return (said, thinker) if said else (found.sentence, found.standing)

    def _views(self, place: Place, moves: list[str]) -> tuple[Mapping[str, View], Thinker]:
        if self.judge is not None:
            with contextlib.suppress(Exception):
                return self.judge.judge(place, moves), "engine"
        return (self.search.judge(place, moves) if self.search is not None else {}), "search"


def _loses(place: Place, mine: Opinion | None) -> bool:
    """Whether a view has the mover mated, or left with two pawns' worth less than there is on the board."""
    if mine is None:
        return False
    board = place.board()
    return mine.mate < 0 or mine.pawns <= value(board, board.turn) - value(board, not board.turn) - 2


def _opinion(view: View | None) -> Opinion | None:
    from player.wording.replies_engine import Opinion

    return None if view is None else Opinion(view.pawns, view.mate, view.line)


def asked_at(sheet: Sheet, place: Place) -> Ask | None:
    """The first question about a move that stands at this place."""
    asks = (step.ask for step in sheet.steps if step.ask is not None)
    return next((ask for ask in asks if ask.kind == "move" and ask.place == place), None)


def told_from(sheet: Sheet, ask: Ask) -> tuple[str, ...]:
    """The moves told from the answer on, at the question's depth, the answer first; () where none is told."""
    if ask.told is None:
        return ()
    place, scopes = ask.place, sheet.steps[ask.told].scopes
    found: list[str] = []
    for step in sheet.steps[ask.told :]:
        if step.scopes != scopes:
            continue
        for cue in step.cues:
            if isinstance(cue.do, Turn) and cue.do.before == place and len(found) < _LOOK_AHEAD:
                found.append(cue.do.uci)
                place = cue.do.after
    return tuple(found)


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
