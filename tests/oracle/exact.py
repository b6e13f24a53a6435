"""Each kind of claim judged straight from its definition, as slowly and plainly as can be.

Every function takes a board and plain slots (colours, squares, moves that are legal there) and says whether
the claim is true. Moves come checked: a move that is not legal makes any claim about it false.
"""

from __future__ import annotations

import chess

from tests.oracle.kpk import pawn_wins
from tests.oracle.material import balance, counts, move_keeps, wins_against_all, worth_at

SLIDERS = (chess.BISHOP, chess.ROOK, chess.QUEEN)


def hitting(board: chess.Board, side: chess.Color, square: int) -> int:
    """How many men of `side` attack or guard the square directly, pinned or not."""
    return sum(square in board.attacks(at) for at, man in board.piece_map().items() if man.color == side)


def colour_at(board: chess.Board, square: int) -> chess.Color:
    colour = board.color_at(square)
    assert colour is not None
    return colour


def attacked(board: chess.Board, square: int) -> bool:
    return hitting(board, not colour_at(board, square), square) > 0


def guards(board: chess.Board, square: int) -> int:
    return hitting(board, colour_at(board, square), square)


# --- lines ---------------------------------------------------------------------------------------


def direction(one: int, other: int) -> tuple[int, int] | None:
    """The step that leads from one square to the other along a file, rank or diagonal."""
    across = chess.square_file(other) - chess.square_file(one)
    up = chess.square_rank(other) - chess.square_rank(one)
    if (across, up) == (0, 0) or not (across == 0 or up == 0 or abs(across) == abs(up)):
        return None
    return ((across > 0) - (across < 0), (up > 0) - (up < 0))


def walk(square: int, step: tuple[int, int]) -> list[int]:
    """The squares met from `square` on, one step after the other, to the edge."""
    met = []
    file, rank = chess.square_file(square) + step[0], chess.square_rank(square) + step[1]
    while 0 <= file < 8 and 0 <= rank < 8:
        met.append(chess.square(file, rank))
        file, rank = file + step[0], rank + step[1]
    return met


def first_man(board: chess.Board, square: int, step: tuple[int, int]) -> int | None:
    return next((to for to in walk(square, step) if board.piece_at(to)), None)


def slides(board: chess.Board, square: int, step: tuple[int, int]) -> bool:
    """Whether the man on the square can run along that direction."""
    kind = board.piece_type_at(square)
    straight = 0 in step
    return kind == chess.QUEEN or kind == (chess.ROOK if straight else chess.BISHOP)


STEPS = [(a, b) for a in (-1, 0, 1) for b in (-1, 0, 1) if (a, b) != (0, 0)]


def line_state(board: chess.Board, one: int, other: int) -> str | None:
    """ "open", "closed", or nothing where the squares share no line."""
    step = direction(one, other)
    if step is None:
        return None
    path = walk(one, step)
    between = path[: path.index(other)]
    return "closed" if any(board.piece_at(square) for square in between) else "open"


def pinned_to(board: chess.Board, square: int) -> set[int]:
    """Where the men stand to which the man on `square` is pinned; empty when it is not pinned."""
    side = colour_at(board, square)
    found: set[int] = set()
    if board.piece_type_at(square) == chess.KING:
        return found
    for step in STEPS:
        behind = first_man(board, square, step)
        slider = first_man(board, square, (-step[0], -step[1]))
        if behind is None or slider is None:
            continue
        if (
            board.color_at(behind) != side
            or board.color_at(slider) == side
            or not slides(board, slider, step)
        ):
            continue
        if board.piece_type_at(behind) == chess.KING:
            found.add(behind)
            continue
        front, back = worth_at(board, square), worth_at(board, behind)
        bare = guards(board, behind) == 0
        if not (back > front or (back >= 3 and back >= front and bare)):
            continue
        gone = board.copy(stack=False)
        gone.remove_piece_at(square)
        gone.turn = not side
        gone.ep_square = None
        take = chess.Move(slider, behind)
        if take in gone.legal_moves and move_keeps(gone, take) > 0:
            found.add(behind)
    return found


# --- moves ---------------------------------------------------------------------------------------


def after(board: chess.Board, move: chess.Move) -> chess.Board:
    next_board = board.copy(stack=False)
    next_board.push(move)
    return next_board


def checks(board: chess.Board, move: chess.Move, kind: str) -> bool:
    """Kind is check, mate, double check or discovered check."""
    next_board = after(board, move)
    checkers = list(next_board.checkers())
    if kind == "mate":
        return next_board.is_checkmate()
    if kind == "double check":
        return len(checkers) == 2
    if kind == "discovered check":
        moved = {move.to_square}
        if board.is_castling(move):
            moved |= castled_rook(board, move)
        return len(checkers) == 1 and checkers[0] not in moved
    return bool(checkers)


def castled_rook(board: chess.Board, move: chess.Move) -> set[int]:
    """Where the rook stands after castling, for it moved too."""
    rank = chess.square_rank(move.from_square)
    return {chess.square(5 if chess.square_file(move.to_square) == 6 else 3, rank)}


def forks(board: chess.Board, move: chess.Move, one: int, other: int) -> bool:
    if board.piece_type_at(move.from_square) == chess.KING or one == other:
        return False
    side = board.turn
    next_board = after(board, move)
    own = worth_at(next_board, move.to_square)
    for square in (one, other):
        if next_board.color_at(square) != (not side) or square not in next_board.attacks(move.to_square):
            return False
        if worth_at(next_board, square) <= own and guards(next_board, square) > 0:
            return False
    return True


def discovers(board: chess.Board, move: chess.Move, square: int) -> bool:
    side = board.turn
    next_board = after(board, move)
    if next_board.color_at(square) != (not side):
        return False
    moved = {move.to_square} | (castled_rook(board, move) if board.is_castling(move) else set())
    for at, man in next_board.piece_map().items():
        if man.color != side or man.piece_type not in SLIDERS or at in moved:
            continue
        if square in next_board.attacks(at) and square not in board.attacks(at):
            return True
    return False


def skewers(board: chess.Board, move: chess.Move, front: int, behind: int) -> bool:
    """A slider hits `front`, with a man worth no more next behind it, and the move then wins that man.

    It is won when taking it would pay with the front man gone, and against every reply captures keep more
    than the move itself took.
    """
    side = board.turn
    next_board = after(board, move)
    step = direction(front, behind)
    if step is None or next_board.color_at(front) != (not side) or next_board.color_at(behind) != (not side):
        return False
    if first_man(next_board, front, step) != behind:
        return False
    slider = first_man(next_board, front, (-step[0], -step[1]))
    if slider is None or next_board.color_at(slider) != side or not slides(next_board, slider, step):
        return False
    if worth_at(next_board, front) < worth_at(next_board, behind):
        return False
    if not taking_pays(next_board, front, slider, behind):
        return False
    return wins_against_all(board, move, balance(next_board, side) - balance(board, side) + 1)


def taking_pays(board: chess.Board, front: int, slider: int, behind: int) -> bool:
    """Whether the slider could legally take the man behind, were the one in front gone, and win by it."""
    gone = board.copy(stack=False)
    gone.turn = bool(board.color_at(slider))
    gone.ep_square = None
    take = chess.Move(slider, behind)
    if board.piece_type_at(front) != chess.KING:
        gone.remove_piece_at(front)
        return take in gone.legal_moves and move_keeps(gone, take) > 0
    # A king in front is not taken off but steps off the line wherever it may.
    line = [front, *walk(front, step_to(slider, front)), *walk(front, step_to(front, slider))]
    steps = [move for move in board.legal_moves if move.from_square == front and move.to_square not in line]
    if chess.Move(front, slider) in board.legal_moves:
        return False
    return all(
        take in after(board, step).legal_moves and move_keeps(after(board, step), take) > 0 for step in steps
    )


def step_to(one: int, other: int) -> tuple[int, int]:
    step = direction(one, other)
    assert step is not None
    return step


def passed_turn(board: chess.Board, in_check: bool = False) -> chess.Board | None:
    """The board with the move given to the other side; nothing when the side to move is in check.

    `in_check` lets it pass all the same, as one does when asking what a move threatens.
    """
    if board.is_check() and not in_check:
        return None
    next_board = board.copy(stack=False)
    next_board.turn = not board.turn
    next_board.ep_square = None
    return next_board


def over(board: chess.Board) -> bool:
    """Whether nobody can move any more."""
    return not any(board.legal_moves)


def threatens(board: chess.Board, move: chess.Move, second: chess.Move) -> bool:
    free = passed_turn(after(board, move), in_check=True)
    if free is None or over(after(board, move)) or second not in free.legal_moves:
        return False
    return after(free, second).is_checkmate() or move_keeps(free, second) > 0


def threatens_mate(board: chess.Board, move: chess.Move) -> bool:
    free = passed_turn(after(board, move), in_check=True)
    if over(after(board, move)):
        return False
    return free is not None and any(after(free, second).is_checkmate() for second in free.legal_moves)


def mate_in(board: chess.Board, moves: int) -> bool:
    """Whether the side to move mates in at most so many of its own moves, whatever the replies."""
    for move in list(board.legal_moves):
        next_board = after(board, move)
        if next_board.is_checkmate():
            return True
        if moves > 1:
            replies = list(next_board.legal_moves)
            if replies and all(mate_in(after(next_board, reply), moves - 1) for reply in replies):
                return True
    return False


WINS = {"a pawn": 1, "the exchange": 2, "a piece": 3, "a rook": 5, "the queen": 9}


def wins(board: chess.Board, move: chess.Move, what: str) -> bool:
    return wins_against_all(board, move, WINS[what])


def moves_of(board: chess.Board, square: int) -> int:
    return sum(move.from_square == square for move in board.legal_moves)


# --- pawns and files -----------------------------------------------------------------------------


def pawns(board: chess.Board, side: chess.Color) -> list[tuple[int, int]]:
    """(file, rank seen from `side`'s own side, 1 to 8) of each pawn of `side`."""
    return [(chess.square_file(square), _rank(square, side)) for square in board.pieces(chess.PAWN, side)]


def _rank(square: int, side: chess.Color) -> int:
    rank = chess.square_rank(square) + 1
    return rank if side else 9 - rank


def file_state(board: chess.Board, file: int, state: str, side: chess.Color | None = None) -> bool:
    white = any(at == file for at, _ in pawns(board, chess.WHITE))
    black = any(at == file for at, _ in pawns(board, chess.BLACK))
    if state == "open":
        return not white and not black
    if state == "closed":
        return white and black
    own, other = (white, black) if side else (black, white)
    return not own and other


def outpost(board: chess.Board, square: int, side: chess.Color) -> bool:
    file, rank = chess.square_file(square), _rank(square, side)
    if rank not in (4, 5, 6):
        return False
    if not any(abs(at - file) == 1 and up == rank - 1 for at, up in pawns(board, side)):
        return False
    enemy = [(at, 9 - up) for at, up in pawns(board, not side)]
    return not any(abs(at - file) == 1 and up > rank for at, up in enemy)


def pawn_is(board: chess.Board, square: int, trait: str) -> bool:
    if board.piece_type_at(square) != chess.PAWN:
        return False
    side = colour_at(board, square)
    file, rank = chess.square_file(square), _rank(square, side)
    own = pawns(board, side)
    enemy = [(at, 9 - up) for at, up in pawns(board, not side)]
    near = [up for at, up in own if abs(at - file) == 1]
    if trait == "passed":
        return not any(abs(at - file) <= 1 and up > rank for at, up in enemy)
    if trait == "isolated":
        return not near
    if trait == "doubled":
        return sum(at == file for at, _ in own) > 1
    ahead = chess.square(file, chess.square_rank(square) + (1 if side else -1))
    return (
        bool(near)
        and min(near) > rank
        and board.piece_at(ahead) is None
        and any(abs(at - file) == 1 and up == rank + 2 for at, up in enemy)
        and not any(at == file and up > rank for at, up in enemy)
    )


# --- material, kings, rights ---------------------------------------------------------------------


def up_exactly(board: chess.Board, side: chess.Color, **wanted: int) -> bool:
    """`side`'s lead in pawn, piece, rook and queen is exactly this, nought where not named."""
    sign = 1 if side else -1
    return all(sign * have == wanted.get(kind, 0) for kind, have in counts(board).items())


def bishop_shades(board: chess.Board, side: chess.Color) -> list[bool]:
    """For each bishop of `side`, whether its square is light."""
    return [
        (chess.square_file(square) + chess.square_rank(square)) % 2 == 1
        for square in board.pieces(chess.BISHOP, side)
    ]


def bishop_pair(board: chess.Board, side: chess.Color) -> bool:
    return set(bishop_shades(board, side)) == {True, False} and len(bishop_shades(board, not side)) <= 1


def opposite_bishops(board: chess.Board) -> bool:
    white, black = bishop_shades(board, chess.WHITE), bishop_shades(board, chess.BLACK)
    return len(white) == len(black) == 1 and white != black


def may_castle(board: chess.Board, side: chess.Color, wing: str | None) -> bool:
    if board.turn != side:
        return False
    for move in board.legal_moves:
        if board.is_castling(move):
            kingside = chess.square_file(move.to_square) == 6
            if wing is None or kingside == (wing == "kingside"):
                return True
    return False


def lost_castling(board: chess.Board, side: chess.Color) -> bool:
    letters = board.fen().split()[2]
    return not any(letter in letters for letter in ("KQ" if side else "kq"))


def rooks_connected(board: chess.Board, side: chess.Color) -> bool:
    rooks = list(board.pieces(chess.ROOK, side))
    if len(rooks) != 2:
        return False
    step = direction(*rooks)
    return step is not None and 0 in step and line_state(board, *rooks) == "open"


def opposition(board: chess.Board, side: chess.Color) -> bool:
    if any(man.piece_type not in (chess.KING, chess.PAWN) for man in board.piece_map().values()):
        return False
    white, black = board.king(chess.WHITE), board.king(chess.BLACK)
    assert white is not None and black is not None
    step = direction(white, black)
    if board.turn == side or step is None or 0 not in step or chess.square_distance(white, black) != 2:
        return False
    return line_state(board, white, black) == "open"


def in_square(board: chess.Board, square: int, side: chess.Color | None = None) -> bool:
    """Whether the enemy king is inside the square of the pawn; `side` is the colour named for the king."""
    if board.piece_type_at(square) != chess.PAWN:
        return False
    pawn_side = colour_at(board, square)
    if side == pawn_side:
        return False
    goal = chess.square(chess.square_file(square), 7 if pawn_side else 0)
    king = board.king(not pawn_side)
    assert king is not None
    return chess.square_distance(king, goal) <= chess.square_distance(square, goal)


def best_play(board: chess.Board) -> str | None:
    """ "white", "black" or "drawn": king and pawn against king, and ends the rules settle; else nothing."""
    if board.is_checkmate():
        return "black" if board.turn else "white"
    if board.is_stalemate() or board.is_insufficient_material():
        return "drawn"
    men = [man for man in board.piece_map().values() if man.piece_type != chess.KING]
    if len(men) == 1 and men[0].piece_type == chess.PAWN:
        if pawn_wins(board):
            return "white" if men[0].color else "black"
        return "drawn"
    return None
