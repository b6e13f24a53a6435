"""What a move is: legal, check, mate, the only one; and how many moves there are."""

from __future__ import annotations

import chess

from player.facts.claim import Claim, Verdict, false, verdict
from player.facts.scene import Played, Scene, counted, men_on, not_to_move, the_man, the_move, white_or_black


def legal(claim: Claim, scene: Scene) -> Verdict:
    """The move is legal now, or is the one just told."""
    played = the_move(claim.move, scene)
    if isinstance(played, Verdict):
        return played
    return not_to_move(claim, played.before) or verdict(True, f"{played.san} is legal.")


def check(claim: Claim, scene: Scene) -> Verdict:
    """The move gives check; double: by two men; discovered: the one checker is not the man that moved."""
    played = the_move(claim.move, scene)
    if isinstance(played, Verdict):
        return played
    checkers = played.after.checkers()
    by = f"After {played.san} {men_on(played.after, checkers)} gives check."
    if len(checkers) > 1:
        by = by.replace("gives", "give")
    if claim.word == "double":
        return verdict(len(checkers) == 2, by, move=played.move)
    if claim.word == "discovered":
        return verdict(len(checkers) == 1 and not checkers & moved(played), by, move=played.move)
    return verdict(bool(checkers), by, move=played.move)


def moved(played: Played) -> chess.SquareSet:
    """The squares of the men that moved: one, or king and rook."""
    out = chess.SquareSet([played.square])
    if played.before.is_castling(played.move):
        short = played.before.is_kingside_castling(played.move)
        out.add(played.square + (-1 if short else 1))
    return out


def mate(claim: Claim, scene: Scene) -> Verdict:
    """The move is checkmate."""
    played = the_move(claim.move, scene)
    if isinstance(played, Verdict):
        return played
    if played.after.is_checkmate():
        return verdict(True, f"{played.san} is mate.", move=played.move)
    if not played.after.is_check():
        return false(f"{played.san} gives no check.")
    out = next(iter(played.after.legal_moves))
    return false(f"After {played.san} there is {played.after.san(out)}.", move=out)


def only_move(claim: Claim, scene: Scene) -> Verdict:
    """Nothing else is legal."""
    played = the_move(claim.move, scene)
    if isinstance(played, Verdict):
        return played
    elsewhere = not_to_move(claim, played.before)
    if elsewhere is not None:
        return elsewhere
    other = next((move for move in played.before.legal_moves if move != played.move), None)
    if other is None:
        return verdict(True, f"{played.san} is the only legal move.")
    return false(f"{played.before.san(other)} is legal too.", move=other)


def moves_of_side(claim: Claim, scene: Scene) -> Verdict:
    """The side to move has exactly N legal moves."""
    other = not_to_move(claim, scene.board)
    if other is not None:
        return other
    number = scene.board.legal_moves.count()
    side = white_or_black(scene.board.turn)
    return verdict(number == claim.number, f"{side} has {counted(number, 'move')}.")


_LISTED = 8
"""Of a man's moves so many are named."""


def moves_of_man(claim: Claim, scene: Scene) -> Verdict:
    """A man of the side to move has exactly N legal moves."""
    man = the_man(claim, scene.board)
    if isinstance(man, Verdict):
        return man
    assert claim.square is not None
    if scene.board.turn != man.color:
        return false(f"It is {white_or_black(scene.board.turn)}'s move.")
    found = list(scene.board.generate_legal_moves(chess.BB_SQUARES[claim.square]))
    names = ", ".join(scene.board.san(move) for move in found[:_LISTED])
    names += f" and {len(found) - _LISTED} more" * (len(found) > _LISTED)
    return verdict(len(found) == claim.number, f"It has {counted(len(found), 'move')}: {names or 'none'}.")


def in_check(claim: Claim, scene: Scene) -> Verdict:
    """The king of a side is attacked."""
    side = scene.board.turn if claim.colour is None else claim.colour
    king = scene.board.king(side)
    if king is None:
        return false(f"{white_or_black(side)} has no king here.")
    by = scene.board.attackers(not side, king)
    return verdict(
        bool(by), f"The king on {chess.SQUARE_NAMES[king]} is attacked by {men_on(scene.board, by)}."
    )


def stalemate(claim: Claim, scene: Scene) -> Verdict:
    """The side to move, or the other side after the move named, is not in check and has no legal move."""
    if not claim.move:
        return _ended(claim, scene, in_check=False)
    played = the_move(claim.move, scene)
    if isinstance(played, Verdict):
        return played
    if played.after.is_stalemate():
        return verdict(True, f"{played.san} is stalemate.", move=played.move)
    if played.after.is_check():
        return false(f"{played.san} is {'mate' if played.after.is_checkmate() else 'check'}.")
    out = next(iter(played.after.legal_moves))
    return false(f"After {played.san} there is {played.after.san(out)}.", move=out)


def checkmate(claim: Claim, scene: Scene) -> Verdict:
    """The side to move is in check and has no legal move."""
    return _ended(claim, scene, in_check=True)


def _ended(claim: Claim, scene: Scene, *, in_check: bool) -> Verdict:
    """Whether the side to move has no legal move, in check or not as wanted."""
    board = scene.board
    other = not_to_move(claim, board)
    if other is not None:
        return other
    side = white_or_black(board.turn)
    move = next(iter(board.legal_moves), None)
    if move is not None:
        return false(f"{side} can play {board.san(move)}.", move=move)
    checked = board.is_check()
    return verdict(checked == in_check, f"{side} has no move and is {'' if checked else 'not '}in check.")
