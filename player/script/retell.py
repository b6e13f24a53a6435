"""A retelling: the moves from a mark once more, as beats in notation."""

from __future__ import annotations

import chess

from player.facts.place import Place
from player.script.boards import MarkMade
from player.script.here import Here
from player.script.model import Spot
from player.script.told import Deed, Text, ToldBeat, Turn

MOVES_A_BEAT = 4
"""Full moves told in one breath."""


def retelling(mark: MarkMade, here: Here, spot: Spot) -> tuple[ToldBeat, ...]:
    """Beats from the mark's place to here, or to where the mark's line has come; () if no move led on."""
    for end in (here.place, mark.line.end):
        count = len(mark.place.moves)
        if end.root == mark.place.root and end.moves[:count] == mark.place.moves and len(end.moves) > count:
            return tuple(_beats(mark.place, end.moves[count:], spot))
    return ()


def _beats(start: Place, ucis: tuple[str, ...], spot: Spot) -> list[ToldBeat]:
    board = start.board()
    place = start
    beats: list[ToldBeat] = []
    deeds: list[Deed] = []
    words, begun, count = "", place, 0
    for uci in ucis:
        if board.turn == chess.WHITE and count >= 2 * MOVES_A_BEAT - 1:
            beats.append(ToldBeat(Text(words, tuple(deeds)), begun, place, None, spot))
            words, deeds, begun, count = "", [], place, 0
        number = f"{board.fullmove_number}." if board.turn == chess.WHITE else ""
        if not number and not words:
            number = f"{board.fullmove_number}..."
        words += f"{' ' if words else ''}{number}{' ' if number else ''}"
        san = board.san_and_push(chess.Move.from_uci(uci))
        after = place.then(uci)
        deeds.append(Deed(len(words), Turn(uci, san, place, after), spot))
        words += san
        place = after
        count += 1
    beats.append(ToldBeat(Text(words, tuple(deeds)), begun, place, None, spot))
    return beats
