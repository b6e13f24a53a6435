"""What a claim is judged on: the board, the move just told, the marks, and the budget."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

import chess

from player.facts.claim import Claim, Last, Verdict, false
from player.facts.exchange import Nodes


@dataclass(slots=True)
class Scene:
    """The board with its move stack (each prover leaves it as it was), and what else a claim may refer to."""

    board: chess.Board
    last: Last | None = None
    labels: Mapping[str, chess.Board] = field(default_factory=dict)
    nodes: Nodes = field(default_factory=Nodes)


Prover = Callable[[Claim, Scene], Verdict]


@dataclass(frozen=True, slots=True)
class Played:
    """A move that a claim names, on the board it is made on (a copy), with the board after it."""

    before: chess.Board
    move: chess.Move
    after: chess.Board
    san: str

    @property
    def mover(self) -> chess.Color:
        return self.before.turn

    @property
    def square(self) -> chess.Square:
        """Where the moved man stands then; the king's square for castling."""
        if self.before.is_castling(self.move):
            king = self.after.king(self.mover)
            return self.move.to_square if king is None else king
        return self.move.to_square


def white_or_black(colour: chess.Color) -> str:
    return "White" if colour else "Black"


def man_on(board: chess.Board, square: chess.Square) -> str:
    """ "knight on f3"; "nobody on f3" where the square is empty."""
    kind = board.piece_type_at(square)
    return f"{'nobody' if kind is None else chess.piece_name(kind)} on {chess.SQUARE_NAMES[square]}"


def men_on(board: chess.Board, squares: chess.SquareSet) -> str:
    """ "the knight on f3 and the pawn on g2"; "no man" for none."""
    names = [f"the {man_on(board, square)}" for square in squares]
    if not names:
        return "no man"
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def stands(squares: chess.SquareSet, verb: str = "stand") -> str:
    """The verb for these men: "stands" for one, "stand" for more."""
    return f"{verb}s" if len(squares) == 1 else verb


def counted(number: int, one: str) -> str:
    """ "1 man", "2 men", "3 moves"."""
    several = "men" if one == "man" else f"{one}s"
    return f"{number} {one if number == 1 else several}"


def the_man(claim: Claim, board: chess.Board) -> chess.Piece | Verdict:
    """The man a claim names, or the verdict that it does not stand there."""
    square = claim.square
    assert square is not None
    piece = board.piece_at(square)
    name = chess.SQUARE_NAMES[square]
    if piece is None:
        return false(f"Nobody stands on {name}.")
    right_kind = claim.man is None or piece.piece_type == claim.man
    right_side = claim.man_colour is None or piece.color == claim.man_colour
    if right_kind and right_side:
        return piece
    side = "white" if piece.color else "black"
    return false(f"On {name} stands a {side} {chess.piece_name(piece.piece_type)}.")


def wrong_man(claim: Claim, board: chess.Board) -> Verdict | None:
    """The verdict that a man said to stand on one of the claim's squares does not; None where all do."""
    for man, square in zip(claim.men, claim.squares, strict=False):
        if man is not None and board.piece_type_at(square) != man:
            return false(f"On {chess.SQUARE_NAMES[square]} there is {_nobody_or_man(board, square)}.")
    return None


def _nobody_or_man(board: chess.Board, square: chess.Square) -> str:
    kind = board.piece_type_at(square)
    return "nobody" if kind is None else f"a {chess.piece_name(kind)}"


def not_to_move(claim: Claim, board: chess.Board) -> Verdict | None:
    """The verdict that a claim about the side to move names the other side; None where it does not."""
    if claim.colour is None or claim.colour == board.turn:
        return None
    return false(f"It is {white_or_black(board.turn)}'s move.")


def the_move(text: str, scene: Scene) -> Played | Verdict:
    """The move a claim names: the one just told where it is that (or ""), else a legal one."""
    last = scene.last
    if not text:
        if last is None:
            return false("No move has just been told here.")
        return _played(last.before, last.move)
    if last is not None and bare(last.before.san(last.move)) == bare(text):
        return _played(last.before, last.move)
    found = named(scene.board, text)
    if isinstance(found, chess.Move):
        return _played(scene.board, found)
    if last is not None and named(last.before, text) == last.move:
        return _played(last.before, last.move)
    return found


def _played(board: chess.Board, move: chess.Move) -> Played:
    before = board.copy(stack=2)
    after = before.copy()
    after.push(move)
    return Played(before, move, after, before.san(move))


_MARKS = re.compile(r"(?:\s*e\.?p\.?)?[+#!?]*$")


def bare(text: str) -> str:
    """Notation without its number and its marks, castling with the letter O."""
    text = re.sub(r"^\d+\.+\s*", "", text.strip())
    text = _MARKS.sub("", text)
    if re.fullmatch(r"[oO0]-[oO0](?:-[oO0])?", text):
        return text.upper().replace("0", "O")
    return text


def named(board: chess.Board, text: str) -> chess.Move | Verdict:
    """The one legal move that notation names, or why there is none. Exact capitals win over other case."""
    plain = bare(text)
    ways = [plain, plain[:1].upper() + plain[1:]]
    if plain.isupper():
        ways += [plain.lower(), plain[:1] + plain[1:].lower()]
    if plain[:1] != "B":
        ways.append(plain.lower())
    for way in dict.fromkeys(ways):
        try:
            move = board.parse_uci(way) if re.fullmatch(r"[a-h][1-8][a-h][1-8][nbrq]?", way) else None
            move = move or board.parse_san(way)
        except chess.AmbiguousMoveError:
            return Verdict("not-understood", f"More than one move is {text} here.")
        except ValueError:
            continue
        if not move:
            continue
        if "x" in way and not board.is_capture(move):
            return false(f"{text} takes nothing: {chess.SQUARE_NAMES[move.to_square]} is empty.")
        return move
    return false(f"{text} is not legal here.")
