"""Castling, en passant, the opposition, the square of a pawn, repetition, and positions that are the same."""

from __future__ import annotations

import chess

from player.facts.claim import Claim, Verdict, false, verdict
from player.facts.scene import Scene, counted, man_on, not_to_move, the_man, white_or_black


def may_castle(claim: Claim, scene: Scene) -> Verdict:
    """Castling to that side (to either where none is named) is a legal move now, for the side to move."""
    assert claim.colour is not None
    board = scene.board
    if board.turn != claim.colour:
        return false(f"It is {white_or_black(board.turn)}'s move.")
    ways = [
        move
        for move in board.legal_moves
        if board.is_castling(move)
        and claim.word in ("", "kingside" if board.is_kingside_castling(move) else "queenside")
    ]
    if ways:
        return verdict(True, f"{board.san(ways[0])} is legal.", move=ways[0])
    if not board.has_castling_rights(claim.colour):
        return false(f"{white_or_black(claim.colour)} has no right to castle left.")
    return false(f"{white_or_black(claim.colour)} cannot castle {claim.word} now.".replace("  ", " "))


def lost_castling(claim: Claim, scene: Scene) -> Verdict:
    """No castling letters of that side are left in the position; with a wing, not that wing's."""
    left, because = _rights_left(claim, scene.board)
    return verdict(not left, because)


def castling_right(claim: Claim, scene: Scene) -> Verdict:
    """A castling letter of that side is in the position; with a wing, that wing's; legal now or not."""
    left, because = _rights_left(claim, scene.board)
    return verdict(left, because)


def _rights_left(claim: Claim, board: chess.Board) -> tuple[bool, str]:
    assert claim.colour is not None
    wings = [
        wing
        for wing, has in (
            ("kingside", board.has_kingside_castling_rights(claim.colour)),
            ("queenside", board.has_queenside_castling_rights(claim.colour)),
        )
        if has
    ]
    side = white_or_black(claim.colour)
    if not wings:
        return False, f"{side} has no right to castle left."
    holds = claim.word in wings if claim.word else True
    return holds, f"{side} has the right to castle {' and '.join(wings)}."


def has_move(claim: Claim, scene: Scene) -> Verdict:
    """The side is to move."""
    return verdict(scene.board.turn == claim.colour, f"It is {white_or_black(scene.board.turn)}'s move.")


def en_passant(claim: Claim, scene: Scene) -> Verdict:
    """A capture en passant is legal now."""
    board = scene.board
    other = not_to_move(claim, board)
    if other is not None:
        return other
    move = next((move for move in board.generate_legal_ep()), None)
    if move is None:
        return false("No pawn can take en passant here.")
    return verdict(True, f"{board.san(move)} takes en passant.", move=move)


def opposition(claim: Claim, scene: Scene) -> Verdict:
    """Only kings and pawns; the kings on one line with one empty square between; who need not move has it."""
    assert claim.colour is not None
    board = scene.board
    white, black = board.king(chess.WHITE), board.king(chess.BLACK)
    others = board.occupied & ~board.kings & ~board.pawns
    if white is None or black is None:
        return false("There are not two kings here.")
    if others:
        return false(f"Besides kings and pawns there is the {man_on(board, chess.lsb(others))}.")
    one_line = white & 7 == black & 7 or white >> 3 == black >> 3
    if not one_line or chess.square_distance(white, black) != 2:
        where = f"{chess.SQUARE_NAMES[white]} and {chess.SQUARE_NAMES[black]}"
        return false(f"The kings on {where} do not stand on one file or rank with one square between.")
    between = chess.between(white, black)
    if between & board.occupied:
        return false(f"Between the kings stands the {man_on(board, chess.lsb(between))}.")
    return verdict(
        board.turn != claim.colour, f"It is {white_or_black(board.turn)}'s move, so the other side has it."
    )


def in_square(claim: Claim, scene: Scene) -> Verdict:
    """The enemy king is no further from the promotion square than the pawn, in squares."""
    man = the_man(claim, scene.board)
    if isinstance(man, Verdict):
        return man
    assert claim.square is not None
    if claim.colour is not None and claim.colour == man.color:
        return false(f"The pawn is {white_or_black(man.color)}'s own.")
    king = scene.board.king(not man.color)
    if king is None:
        return false("There is no enemy king here.")
    if claim.squares and claim.squares[0] != king:
        return false(f"The enemy king stands on {chess.SQUARE_NAMES[king]}.")
    goal = chess.square(claim.square & 7, 7 if man.color else 0)
    pawn = chess.square_distance(claim.square, goal)
    far = chess.square_distance(king, goal)
    name = chess.SQUARE_NAMES[goal]
    because = (
        f"From {chess.SQUARE_NAMES[king]} the king has {counted(far, 'step')} to {name}, the pawn has {pawn}."
    )
    # On its first rank the pawn has a double step: the king that needs as many steps comes too late.
    doubt = "The pawn may step two squares first, and then comes before the king." if far == pawn == 6 else ""
    return Verdict("true" if far <= pawn else "false", because, doubt)


def repetition(claim: Claim, scene: Scene) -> Verdict:
    """The position, with the same side to move and the same rights, has stood on the board before.

    `number` says how often at least it has stood there, now included.
    """
    number = claim.number or 2
    stood = times_stood(scene.board)
    return verdict(
        stood >= number, f"This position has stood on the board {counted(stood, 'time')}, now included."
    )


def times_stood(board: chess.Board) -> int:
    """How often this position has stood there in the moves played, now included."""
    board = board.copy()
    key = board._transposition_key()
    stood = 1
    while board.move_stack:
        move = board.pop()
        stood += board._transposition_key() == key
        if board.is_irreversible(move):
            break
    return stood


def fifty(claim: Claim, scene: Scene) -> Verdict:
    """So many moves of both sides have been completed without a capture or a pawn's move."""
    done = scene.board.halfmove_clock // 2
    return verdict(
        done == claim.number,
        f"{counted(done, 'such move')} {'has' if done == 1 else 'have'} been completed by both sides.",
    )


def same_as(claim: Claim, scene: Scene) -> Verdict:
    """Same men, same side to move, same rights as at a mark (Laws of Chess 9.2)."""
    other = scene.labels.get(claim.word)
    if other is None:
        return Verdict("not-understood", f"There is no mark '{claim.word}'.")
    board = scene.board
    for square in chess.SQUARES:
        if board.piece_at(square) != other.piece_at(square):
            return false(f"Here it is {man_on(board, square)}, there {man_on(other, square)}.")
    if board.turn != other.turn:
        return false(f"Here {white_or_black(board.turn)} is to move, there {white_or_black(other.turn)}.")
    same = board._transposition_key() == other._transposition_key()
    return verdict(
        same,
        "The men and the move are the same."
        if same
        else "The rights to castle or to take en passant differ.",
    )
