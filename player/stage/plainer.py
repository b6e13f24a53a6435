"""Saying it plainer, in three depths; and choices that outlive the lesson."""

from __future__ import annotations

import chess

from player.facts.place import Place
from player.stage.act import Act
from player.stage.happenings import Tuned
from player.stage.state import PlainDepth
from player.wording.announce import state_of
from player.wording.names import colour_name, name
from player.wording.say import Naming

DEPTHS: tuple[PlainDepth, ...] = ("move", "gist", "pieces")
"""The last move in whole words; the position in twenty words; every man."""


def plainer(act: Act, words: str) -> None:
    """Say where things stand in plainer words: each time at the same place one depth further, then anew."""
    place = act.top.place
    asked = words.casefold().strip()
    if asked and asked not in DEPTHS:
        act.note("Say 'plainer' alone, or with move, gist or pieces.")
        return
    before = act.state.plain
    if asked:
        at = next(n for n, depth in enumerate(DEPTHS) if depth == asked)
    elif before is not None and before[0] == place:
        at = (before[1] + 1) % len(DEPTHS)
    else:
        at = DEPTHS.index(act.state.telling.depth)
    act.set(plain=(place, at))
    act.note(in_plain_words(place, DEPTHS[at], act.state.telling.naming), "board")


def in_plain_words(place: Place, depth: PlainDepth, naming: Naming = "letters") -> str:
    """The last move, or the position, in plain words."""
    board = place.board()
    if depth != "move":
        from player.wording.describe import describe  # The first frame must not wait for it.

        return describe(board, depth, naming=naming)
    if place.last is None:
        return f"No move has been made here. {_stands(board)}"
    if place.last == "0000":
        return f"{colour_name(not board.turn)} passed. {_stands(board)}"
    before = Place(place.root, place.moves[:-1]).board()
    return f"{_gone(before, chess.Move.from_uci(place.last))} {_stands(board)}"


def _stands(board: chess.Board) -> str:
    state = state_of(board)
    return f"{state[:1].upper()}{state[1:]}."


def _gone(board: chess.Board, move: chess.Move) -> str:
    """Who went whence and whither: "White's pawn went from g2 to g3."."""
    side = colour_name(board.turn)
    if board.is_castling(move):
        wing = "kingside" if board.is_kingside_castling(move) else "queenside"
        return f"{side} castled {wing}: the king stands on {chess.square_name(move.to_square)}."
    man = name(board.piece_type_at(move.from_square) or chess.PAWN)
    whence, where = chess.square_name(move.from_square), chess.square_name(move.to_square)
    victim = board.piece_type_at(move.to_square) or (chess.PAWN if board.is_en_passant(move) else None)
    taken = f" and took the {name(victim)}" if victim else ""
    passed = " in passing" if board.is_en_passant(move) else ""
    becomes = f", and became a {name(move.promotion)}" if move.promotion else ""
    return f"{side}'s {man} went from {whence} to {where}{taken}{passed}{becomes}."


def remember(act: Act, _: str) -> None:
    """Have the pace, the silences and the ways of saying that hold now hold in every lesson."""
    telling = act.state.telling
    squares = {"letters": "letters", "fide": "names", "alphabet": "alphabet"}[telling.naming]
    act.emit(
        Tuned(
            "remembered",
            f"speed {telling.speed:g}, silences {telling.silence:g}, squares by {squares}, "
            f"ear mode {'on' if telling.ear else 'off'}",
        )
    )


def set_(act: Act, words: str) -> None:
    """A setting by its name and value, which whoever keeps the settings holds against their rules."""
    name, _, value = words.strip().partition(" ")
    if not name or not value.strip():
        act.note("Say which setting and its value, such as: set volume 0.5")
        return
    act.emit(Tuned("set", f"{name} {value.strip()}"))
