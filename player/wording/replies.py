"""A reply to every legal move that is not the answer: one sentence about that move in that position."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

import chess

from player.facts.place import Place
from player.facts.replies.choose import find
from player.facts.replies.finding import Finding, FindingKind
from player.facts.replies.question import Question, question
from player.wording.replies_differ import differing
from player.wording.replies_harm import harmful
from player.wording.replies_missed import missing
from player.wording.replies_say import Way

_WORDS = 25

ReplyStanding = Literal["board", "unknown"]


@dataclass(frozen=True, slots=True)
class Answered:
    """What is said to a move, and whose word it is: "board" where every part of it is proved.

    "unknown" where no harm was found and that is all that is known. `forms` says how it was put, so that the
    next one can be put another way.
    """

    sentence: str
    standing: ReplyStanding
    kind: FindingKind
    forms: frozenset[str] = frozenset()


def replies(
    place: Place, answer: str | None = None, also: Iterable[str] = (), told: Sequence[str] = ()
) -> dict[str, Answered]:
    """A reply to every legal move (UCI) but the answer and those accepted too.

    `told` are the moves told from the answer on (UCI, the answer first).
    """
    board = place.board()
    leave = {answer, *also}
    asked = _question(place, answer, tuple(told))
    return {
        move.uci(): _answered(asked, move, frozenset())
        for move in list(board.legal_moves)
        if move.uci() not in leave
    }


def reply(
    place: Place,
    move: str,
    answer: str | None = None,
    told: Sequence[str] = (),
    earlier: Sequence[str] = (),
) -> Answered:
    """The reply to one legal move; `earlier` are the wrong moves tried before, which it does not sound like.

    ValueError where a move is not legal.
    """
    asked = _question(place, answer, tuple(told))
    used: frozenset[str] = frozenset()
    for uci in (*earlier[-3:], move):
        found = _answered(asked, chess.Move.from_uci(uci), used)
        used |= found.forms
    return found


@lru_cache(maxsize=8)
def _question(place: Place, answer: str | None, told: tuple[str, ...]) -> Question:
    moves = tuple(chess.Move.from_uci(uci) for uci in told)
    return question(place.board(), chess.Move.from_uci(answer) if answer else None, moves)


def _answered(asked: Question, move: chess.Move, used: frozenset[str]) -> Answered:
    found = find(asked, move)
    ways = harmful(asked, found) or missing(asked, found) or differing(asked, found)
    way = _least_like(ways, used, _turn(move))
    return Answered(_capital(way.words), _standing(found), found.kind, way.forms)


def _standing(found: Finding) -> ReplyStanding:
    return "unknown" if found.kind == "sound" else "board"


def _least_like(ways: Sequence[Way], used: frozenset[str], turn: int) -> Way:
    """The way that has least in common with what was said before; among equals one that the move decides.

    Ways further down are less telling: each place costs a little.
    """
    best = min(
        range(len(ways)),
        key=lambda index: (
            len(ways[index].forms & used),
            len(ways[index].words.split()) > _WORDS,
            ways[index].rank,
            (index + turn) % len(ways),
        ),
    )
    return ways[best]


def _turn(move: chess.Move) -> int:
    return move.from_square * 7 + move.to_square * 3


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
