"""Answers about captures, checks, mates, forks and threats."""

from __future__ import annotations

import chess

from player.facts.exchange import OutOfNodes
from player.facts.mates import forced_mate
from player.facts.seen_moves import forks, mates, threats
from player.wording.asked.moves import given_to, movers
from player.wording.asked.reply import BoardReply, Scene, capital, count, unknown
from player.wording.names import colour_name, listed, man_at

_TOO_LONG = "It would take more looking than there is time for; it is not known."
_SHOWN = 12


def captures(scene: Scene) -> BoardReply:
    return _list(scene, lambda board: list(board.generate_legal_captures()), "capture")


def captures_of(scene: Scene) -> BoardReply:
    found = movers(scene)
    if isinstance(found, BoardReply):
        return found
    given = given_to(scene, bool(scene.board.color_at(found[0])))
    if isinstance(given, BoardReply):
        return given
    moves = [m for m in given.generate_legal_captures() if m.from_square in found]
    who = scene.the(found, sides=True)
    if not moves:
        return BoardReply(f"{capital(who)} can take nothing.", yes=False)
    to = list(dict.fromkeys(m.to_square for m in moves))
    return BoardReply(
        f"{capital(who)} can take {scene.the(to)}.", squares=tuple(to), yes=True, moves=tuple(moves)
    )


def checks(scene: Scene) -> BoardReply:
    return _list(scene, lambda board: [m for m in board.legal_moves if board.gives_check(m)], "check")


def _list(scene: Scene, find: object, word: str) -> BoardReply:
    side = scene.board.turn if scene.side is None else scene.side
    given = given_to(scene, side)
    if isinstance(given, BoardReply):
        return given
    moves: list[chess.Move] = find(given)  # type: ignore[operator]
    return _moves_said(given, moves, word, side == scene.board.turn)


def _moves_said(board: chess.Board, moves: list[chess.Move], word: str, mine: bool) -> BoardReply:
    who, has = colour_name(board.turn), "has" if mine else "would have, with the move,"
    if not moves:
        return BoardReply(f"{who} {has} no {word}.", yes=False, number=0)
    said = [plainly(board, move) for move in moves[:_SHOWN]]
    more = f", and {len(moves) - _SHOWN} more" if len(moves) > _SHOWN else ""
    return BoardReply(
        f"{who} {has} {count(len(moves), word)}: {listed(said)}{more}.",
        moves=tuple(moves),
        number=len(moves),
        yes=True,
    )


def plainly(board: chess.Board, move: chess.Move) -> str:
    """A move in words a listener can place: "the knight on f6 takes e4"."""
    if board.is_castling(move):
        return f"castling {'kingside' if board.is_kingside_castling(move) else 'queenside'}"
    verb = "takes on" if board.is_capture(move) else "to"
    became = f", becoming a {chess.piece_name(move.promotion)}" if move.promotion else ""
    return f"the {man_at(board, move.from_square)} {verb} {chess.SQUARE_NAMES[move.to_square]}{became}"


def mate_moves(scene: Scene) -> BoardReply:
    """Whether there is a mate in one, or in as many moves as were said (at most three are looked at)."""
    if scene.board.is_checkmate():
        return BoardReply(f"It is mate already; {colour_name(not scene.board.turn)} has won.", yes=True)
    side = scene.board.turn if scene.side is None else scene.side
    given = given_to(scene, side)
    if isinstance(given, BoardReply):
        return given
    number = scene.query.number or 1
    found = mates(given)
    if found:
        return _moves_said(given, found, "mate in one", side == scene.board.turn)
    if number > 1:
        try:
            key = forced_mate(given, min(number, 3), scene.nodes)
        except OutOfNodes:
            return unknown(_TOO_LONG)
        if key is not None:
            return BoardReply(
                f"Yes: it begins with {plainly(given, key)}.", moves=(key,), number=number, yes=True
            )
        if number > 3:
            return unknown("There is no mate in three; further than that is not looked.")
        return BoardReply(f"No, {colour_name(side)} cannot force mate in {number}.", yes=False, number=0)
    return BoardReply(f"No, {colour_name(side)} has no mate in one.", yes=False, number=0)


def fork_moves(scene: Scene) -> BoardReply:
    side = scene.board.turn if scene.side is None else scene.side
    given = given_to(scene, side)
    if isinstance(given, BoardReply):
        return given
    found = forks(given)
    if not found:
        return BoardReply(f"{colour_name(side)} has no move that forks two men.", yes=False, number=0)
    said = [
        f"{plainly(given, m)}, which hits {listed([f'the {man_at(given, s)}' for s in hit])}"
        for m, hit in found[:4]
    ]
    return BoardReply(
        capital("; ".join(said)) + ".", moves=tuple(m for m, _ in found), number=len(found), yes=True
    )


def threatened(scene: Scene) -> BoardReply:
    """What a side would mate with or win by captures alone, had it the move; the side not to move if
    none is said.
    """
    side = (not scene.board.turn) if scene.side is None else scene.side
    if side != scene.board.turn and scene.board.is_check():
        by = scene.the(scene.board.checkers())
        return BoardReply(
            f"{colour_name(scene.board.turn)} is in check from {by}; that comes first.", yes=True
        )
    given = given_to(scene, side)
    if isinstance(given, BoardReply):
        return given
    found, whole = threats(given, scene.nodes)
    who = colour_name(side)
    if not found:
        if not whole:
            return unknown(_TOO_LONG)
        return BoardReply(
            f"By captures and mates in one, {who} threatens nothing; more than that is not looked at.",
            yes=False,
        )
    said = [
        f"{plainly(given, t.move)}, {'mate' if t.gain is None else 'winning material'}" for t in found[:3]
    ]
    verb = "can play" if side == scene.board.turn else "threatens"
    more = f"; and {len(found) - 3} more" if len(found) > 3 else ""
    return BoardReply(
        f"{who} {verb} {'; '.join(said)}{more}.",
        moves=tuple(t.move for t in found),
        number=len(found),
        yes=True,
    )
