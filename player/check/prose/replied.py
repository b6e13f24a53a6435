"""The coach's words about a learner's move against what a search shows of it."""

from __future__ import annotations

import re
from collections.abc import Iterator

import chess

from player.check.prose.counting import balance
from player.check.prose.doubt import Doubt
from player.check.prose.passages import Boards, Passage
from player.check.prose.words import denied, supposed
from player.facts.exchange import best_gain, gain_of
from player.facts.place import Place, is_playable
from player.facts.replies.choose import find
from player.facts.replies.question import Question
from player.facts.results import result_known

_LOSES = re.compile(
    r"\b(?:loses|drops|gives away|costs(?: you| us| him)?|throws away|hangs|sheds) (?P<what>a pawn|a piece|a"
    r" knight|a bishop|a rook|the exchange|the queen|a queen|material|(?:the|your|our)"
    r" (?:pawn|knight|bishop|rook|queen))\b",
    re.IGNORECASE,
)
_WINS = re.compile(
    r"\bwins (?P<what>a pawn|a piece|a knight|a bishop|a rook|the exchange|the queen|material)\b",
    re.IGNORECASE,
)
_DRAW = re.compile(
    r"(?:^|[.:,;] )(?:a draw|it is a draw|(?:it is )?only a draw|that draws|and it is a draw|and draws)\b",
    re.IGNORECASE,
)
_WON = re.compile(
    r"(?:^|[.:,;] )(?:also winning|that wins too|it wins too|it wins|also wins)\b", re.IGNORECASE
)
_HARMFUL = ("mate", "stalemate", "wins", "fork", "pin", "skewer", "attack", "win lost", "draw lost")
_FEW = 1_200


def reply_doubts(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """Doubts about what a reply says a move loses, wins or draws."""
    question = passage.question
    if (
        passage.role not in ("reply", "also")
        or question is None
        or question.kind != "move"
        or not passage.replied
    ):
        return
    text = passage.text
    for found in _LOSES.finditer(text):
        if denied(text, found.start()) or supposed(text, *found.span()):
            continue
        if not any(_loses(passage, place, boards) for place in passage.replied):
            yield Doubt(
                found.start(),
                found.end(),
                "prose-reply",
                f"You say that it loses {found['what']}; by captures nothing is lost.",
            )
    for found in _WINS.finditer(text):
        if denied(text, found.start()) or supposed(text, *found.span()):
            continue
        if not any(_wins(passage, place, boards) for place in passage.replied):
            yield Doubt(
                found.start(),
                found.end(),
                "prose-reply",
                f"You say that it wins {found['what']}; by captures nothing is won.",
            )
    for pattern, wanted in ((_DRAW, 0), (_WON, 1)):
        for found in pattern.finditer(text):
            for place in passage.replied:
                known = _known(place, boards)
                if known is not None and known != wanted:
                    name = {0: "a draw", 1: "won for the one who moved", -1: "lost for the one who moved"}[
                        known
                    ]
                    yield Doubt(found.start(), found.end(), "prose-reply", f"With best play this is {name}.")
                    break


def _loses(passage: Passage, place: Place, boards: Boards) -> bool:
    """Whether captures, a fork or the line told lose something; where nothing settles it, it may."""
    before = boards.of(Place(place.root, place.moves[:-1]))
    after = boards.of(place)
    if not is_playable(before) or not is_playable(after):
        return True
    move = chess.Move.from_uci(place.moves[-1])
    gain = best_gain(after.copy(stack=False), _FEW)
    if gain is None or gain > gain_of(before, move):
        return True
    ends = [turn.after for _, turn in passage.turns]
    sign = 1 if before.turn else -1
    if any(sign * (balance(boards.of(end)) - balance(before)) < 0 for end in ends):
        return True
    return find(Question(before.copy(stack=False)), move).kind in _HARMFUL


def _wins(passage: Passage, place: Place, boards: Boards) -> bool:
    before = boards.of(Place(place.root, place.moves[:-1]))
    after = boards.of(place)
    if not is_playable(before) or not is_playable(after):
        return True
    move = chess.Move.from_uci(place.moves[-1])
    if before.is_capture(move) or move.promotion or after.is_check():
        return True
    passed = after.copy(stack=False)
    passed.push(chess.Move.null())
    gain = best_gain(passed, _FEW)
    sign = 1 if before.turn else -1
    told = any(sign * (balance(boards.of(turn.after)) - balance(before)) > 0 for _, turn in passage.turns)
    return gain is None or gain > 0 or told


def _known(place: Place, boards: Boards) -> int | None:
    """What the exact tables say of a place, for the one who has just moved."""
    board = boards.of(place)
    if not is_playable(board) or chess.popcount(board.occupied) > 3:
        return None
    known = result_known(board)
    return None if known is None else -known if board.turn else known
