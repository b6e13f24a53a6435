"""King and pawn against king, worked out backwards from promotion, one file of the pawn at a time."""

from __future__ import annotations

from functools import cache

import chess

State = tuple[int, int, int, bool]  # White's king, Black's king, White's pawn, White to move


def _near(one: int, other: int) -> bool:
    return chess.square_distance(one, other) <= 1


def _promotes_and_wins(king: int, enemy: int, square: int) -> bool:
    """Whether a queen or a rook made on `square`, Black to move, is neither taken nor stalemate."""
    for kind in (chess.QUEEN, chess.ROOK):
        board = chess.Board(None)
        board.set_piece_at(king, chess.Piece(chess.KING, chess.WHITE))
        board.set_piece_at(enemy, chess.Piece(chess.KING, chess.BLACK))
        board.set_piece_at(square, chess.Piece(kind, chess.WHITE))
        board.turn = chess.BLACK
        if not board.is_stalemate() and not any(board.is_capture(move) for move in board.legal_moves):
            return True
    return False


@cache
def _won_on(file: int) -> frozenset[State]:
    """Every state with the pawn on `file` in which White forces mate."""
    steps = {
        square: [to for to in chess.SQUARES if to != square and _near(square, to)] for square in chess.SQUARES
    }
    won: set[State] = set()
    for rank in range(6, 0, -1):
        pawn = chess.square(file, rank)
        ahead = pawn + 8
        hits = set(chess.SquareSet(chess.BB_PAWN_ATTACKS[chess.WHITE][pawn]))
        places = [
            (king, enemy)
            for king in chess.SQUARES
            for enemy in chess.SQUARES
            if pawn not in (king, enemy) and not _near(king, enemy)
        ]
        # Pushing the pawn leaves this rank, so it is settled before the kings' moves are.
        pushes: set[tuple[int, int]] = set()
        for king, enemy in places:
            if ahead in (king, enemy) or enemy in hits:
                continue
            if rank == 6:
                if _promotes_and_wins(king, enemy, ahead):
                    pushes.add((king, enemy))
            elif (king, enemy, ahead, False) in won or (
                rank == 1 and ahead + 8 not in (king, enemy) and (king, enemy, ahead + 8, False) in won
            ):
                pushes.add((king, enemy))
        grew = True
        while grew:
            grew = False
            for king, enemy in places:
                if (king, enemy, pawn, True) not in won and enemy not in hits:
                    good = (king, enemy) in pushes or any(
                        (to, enemy, pawn, False) in won
                        for to in steps[king]
                        if to != pawn and not _near(to, enemy)
                    )
                    if good:
                        won.add((king, enemy, pawn, True))
                        grew = True
                if (king, enemy, pawn, False) not in won:
                    moves = [to for to in steps[enemy] if not _near(to, king) and to not in hits]
                    takes = any(to == pawn for to in moves)
                    if moves and not takes and all((king, to, pawn, True) in won for to in moves):
                        won.add((king, enemy, pawn, False))
                        grew = True
    return frozenset(won)


def pawn_wins(board: chess.Board) -> bool:
    """Whether the side with the pawn wins. The board holds two kings and one pawn."""
    pawn = next(iter(board.pieces(chess.PAWN, chess.WHITE) | board.pieces(chess.PAWN, chess.BLACK)))
    side = board.color_at(pawn) is chess.WHITE
    flip = 0 if side else 56
    king, enemy = board.king(side), board.king(not side)
    assert king is not None and enemy is not None
    pawn, king, enemy = pawn ^ flip, king ^ flip, enemy ^ flip
    return (king, enemy, pawn, board.turn == side) in _won_on(chess.square_file(pawn))
