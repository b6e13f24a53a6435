"""Replies to a move that lets a mate or material go by, that gets as much, or that is told a little later."""

from __future__ import annotations

from collections.abc import Sequence

import chess

from player.facts.replies.finding import Finding
from player.facts.replies.question import Question
from player.wording.names import colour_name, man_at
from player.wording.replies_say import Way, named, opening, way, worth
from player.wording.replies_words import merits_of

_LENGTH = {1: "in one", 2: "in two"}


def missing(asked: Question, found: Finding) -> Sequence[Way]:
    """Ways to say what the move lets go, or that it does as much; () where nothing of the kind is found."""
    board = asked.board
    after = board.copy(stack=False)
    after.push(found.move)
    said, first = named(board, found.move), opening(board, found.move)
    other = colour_name(not board.turn)
    turn = found.move.from_square + found.move.to_square
    merits = [text for _, text in merits_of(board, after, found.merits, turn)]
    merit = merits[0] if merits else ""
    if found.kind == "missed mate":
        return _mate(said, first, other, merit, _LENGTH.get(found.count, ""))
    if found.kind == "mates too":
        also = "is mate as well" if found.count == 1 else "forces mate in two as well"
        return [
            way(f"{first} {also}; the lesson has another way in mind.", "mates too 1"),
            way(f"that does it too: {said} {also}. The lesson does it otherwise.", "mates too 2"),
        ]
    if found.kind == "missed win":
        return _win(asked, found, said, first, merit)
    loss = worth(found.gain)
    if found.kind == "wins too":
        return [
            way(f"{first} wins as much by captures, at least {loss}; another way is meant.", "wins too 1"),
            way(f"as good by the count of captures: {said} wins {loss} too. The lesson does it otherwise.",
                "wins too 2"),
        ]  # fmt: skip
    if found.kind == "order":
        when = "comes next" if found.count == 1 else "comes a little later"
        return [
            way(f"{first} {when} in the lesson; if {other} answers alike, it is the same position.",
                "order 1"),
            way(f"another order, that is all, if {other} answers alike: {said} {when}.",
                "order 2"),
        ]  # fmt: skip
    return ()


def _mate(said: str, first: str, other: str, merit: str, length: str) -> list[Way]:
    ways = [
        way(f"there is a mate {length} here, and {said} passes it by.", "missed mate 1"),
        way(f"{first} lets {other}'s king live: there was a mate {length}.", "missed mate 2"),
        way(f"look for more than {said}: this position holds a mate {length}.", "missed mate 3"),
    ]
    if merit:
        ways.append(way(f"{first} {merit}, but there is a mate {length} on the board.", "missed mate 4"))
    return ways


def _win(asked: Question, found: Finding, said: str, first: str, merit: str) -> list[Way]:
    loss = worth(found.gain)
    if found.square >= 0:
        where, man = chess.SQUARE_NAMES[found.square], f"the {man_at(asked.board, found.square)}"
        ways = [
            way(f"captures on {where} win at least {loss}, and {said} leaves them.", "missed 1"),
            way(f"{first} passes by {man}, and captures there win at least {loss}.", "missed 2"),
            way(f"look at {where} before {said}: captures there win at least {loss}.", "missed 3"),
        ]
        if merit:
            ways.append(
                way(f"{first} {merit}, but it leaves {man}, and captures there win {loss}.", "missed 6")
            )
        return ways
    ways = [way(f"one move here wins at least {loss}; by captures {said} does not win as much.", "missed 4")]
    if merit:
        ways += [
            way(f"{first} {merit}, but there is a move that wins at least {loss}.", "missed 5"),
            way(f"true, {said} {merit}. Yet at least {loss} can be won here by another move.", "missed 7"),
        ]
    else:
        ways.append(way(f"{first} is modest: another move wins at least {loss}.", "missed 8"))
    return ways
