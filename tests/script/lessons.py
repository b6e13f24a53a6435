"""Hypothesis strategies for whole lessons: legal moves in nested blocks, with all that a script may hold.

`lessons()` draws a `Drawn`: the lesson as a model and as a script, and the moves it tells. All of it follows
from hypothesis draws. Nothing in it is a fault; a query may come up.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any, Literal, TypeVar

import chess
from hypothesis import strategies as st

from player.script.model import (
    Beat,
    Bit,
    Bits,
    Block,
    Brace,
    Element,
    Header,
    IdeaLine,
    Lesson,
    Line,
    Part,
    QuestionBlock,
    ReplyLine,
    Spot,
    Words,
)
from player.script.write import script_text

HERE = Spot(1)
T = TypeVar("T")

SET_UPS = (
    "r3k2r/p1ppqpb1/bn2pnp1/3PN3/1p2P3/2N2Q1p/PPPBBPPP/R3K2R w KQkq - 0 1",
    "8/2p5/3p4/KP5r/1R3p1k/8/4P1P1/8 w - - 0 1",
    "rnbq1k1r/pp1Pbppp/2p5/8/2B5/8/PPP1NnPP/RNBQK2R w KQ - 1 8",
    "8/1P4k1/8/8/8/8/1p4K1/8 b - - 0 40",
    "4k3/3p1p2/8/4P3/4p3/8/3P1P2/4K3 w - - 0 1",
    "r3k2r/8/8/8/8/8/8/R3K2R w KQkq - 0 1",
    "4k3/8/8/8/3pP3/8/8/4K3 b - e3 0 1",
    "rnbqkbnr/1pp1pppp/p7/3pP3/8/8/PPPP1PPP/RNBQKBNR w KQkq d6 0 3",
    "r3k2r/1P4p1/8/5pP1/8/8/1p6/R3K2R w KQkq f6 0 20",
)
"""Positions in which castling, promotion and en passant are near."""

IN_WORDS = (
    "White Kd5 Ra7 pe5; Black Ke8 Rb6; White to move",
    "White Kg1 Pf2 pg2; Black Kg8 pb2 Nc3; Black to move",
    "Black Ke8 Ra8; White Ke1 Qd1; White to move",
)
WORDS = (
    *("the", "quiet", "lamp", "in", "reading", "room", "waits", "and", "so", "do", "we", "tonight", "slowly"),
    *("a", "long", "breath", "everyone", "leans", "closer", "kettle", "is", "on", "old", "board", "shines"),
)
NAMES = ("the door", "the lamp", "the corner", "the window", "the shelf", "the stair")


@dataclass(frozen=True)
class Drawn:
    """A drawn lesson. `told` has `(scope, SAN)` for each told move; a scope is "main" or "aside/instead"."""

    lesson: Lesson
    script: str
    told: tuple[tuple[str, str], ...]


@st.composite
def lessons(draw: st.DrawFn, size: int = 7, depth: int = 3, stamps: bool | None = None) -> Drawn:
    """A whole lesson of about `size` elements on the main line, with blocks nested `depth` deep.

    `stamps` says whether its beats are stamped; None leaves it to the draw.
    """
    with_stamps = draw(st.booleans()) if stamps is None else stamps
    drawer = _Drawer(draw, with_stamps)
    header = Header(
        title=drawer.phrase(),
        coach="Ines Calder",
        side=drawer.pick(("white", "black", "both")),
        series=drawer.pick((None, ("The Reading Room", 2, 5))),
        level=drawer.pick(("", "club")),
        pronounce=drawer.pick(({}, {"Calder": "KAWL-der"})),
    )
    body = drawer.body(chess.Board(), (), size, depth, opening=True)
    lesson = Lesson(header, tuple(body))
    script = script_text(lesson)
    return Drawn(Lesson(header, tuple(body), script), script, tuple(drawer.told))


@dataclass
class _Depth:
    """One depth of a drawn lesson: its board, and what may be referred to from it."""

    board: chess.Board
    floor: int = 0
    ask_next: bool = False
    marks_here: list[tuple[str, chess.Board]] = field(default_factory=list)


class _Drawer:
    """Draws the parts of a lesson one after another, making each told move on a board."""

    def __init__(self, draw: st.DrawFn, stamps: bool) -> None:
        self._draw = draw
        self._stamps = stamps
        self._ms = 0
        self._names = list(NAMES)
        self._ideas: list[str] = []
        self.told: list[tuple[str, str]] = []

    def pick(self, choices: Sequence[T]) -> T:
        return choices[self._draw(st.integers(0, len(choices) - 1))]

    def phrase(self, least: int = 1) -> str:
        count = self._draw(st.integers(least, least + 5))
        start = self._draw(st.integers(0, len(WORDS) - 1))
        step = self._draw(st.sampled_from((1, 3, 7)))
        said = " ".join(WORDS[(start + step * number) % len(WORDS)] for number in range(count))
        return said[0].upper() + said[1:]

    def stamp(self) -> int | None:
        if not self._stamps:
            return None
        self._ms += self._draw(st.sampled_from((700, 1000, 4321, 60_000)))
        return self._ms

    def body(
        self, board: chess.Board, scope: tuple[str, ...], size: int, depth: int, opening: bool = False
    ) -> list[Element]:
        """The elements of one depth; the board is left where they end."""
        here = _Depth(board, 0 if opening else len(board.move_stack))
        made: list[Element] = [self.beat(here, scope)] if opening else []
        if self.pick((False, False, True)):
            made += self.another_board(here)
        for _ in range(self._draw(st.integers(1, size))):
            made += self.element(here, scope, size, depth)
        return made

    def element(self, here: _Depth, scope: tuple[str, ...], size: int, depth: int) -> list[Element]:
        kinds = ["beat"] * 4 + ["cue", "question", "question", "board", "board", "mark", "retell", "part"]
        kinds += ["aside", "instead", "instead", "instead", "imagine"] * (1 if depth else 0)
        kind = self.pick(kinds)
        smaller = max(1, size // 3)
        if kind == "cue":
            return [self.cue()]
        if kind == "part" and not scope:
            return [Part(self.words(), self.stamp(), HERE)]
        if kind == "question" and here.board.legal_moves.count() > 3:
            return [self.question(here), self.beat(here, scope, at_least=1)]
        if kind == "board":
            return self.another_board(here)
        if kind == "mark" and self._names:
            name = self._names.pop()
            here.marks_here.append((name, here.board.copy()))
            return [Line("mark", name, HERE)]
        if kind == "retell":
            return self.retell(here, scope)
        if kind in ("aside", "instead", "imagine"):
            return self.block(kind, here, scope, smaller, depth - 1)
        return [self.beat(here, scope)]

    def beat(self, here: _Depth, scope: tuple[str, ...], at_least: int = 0) -> Beat:
        """Some words with some moves in them."""
        stamp = self.stamp()
        bits: list[Bit] = [Words(self.phrase() + " ", HERE)]
        for _ in range(self._draw(st.integers(at_least, 3))):
            brace = self.brace(here.board, scope)
            if brace is None:
                break
            bits += [brace, Words(f" {self.phrase().lower()} ", HERE)]
        if self._draw(st.booleans()):
            bits += [Brace("show e4, d5 as plan", self.phrase().lower(), None, HERE), Words(" ", HERE)]
        bits.append(Words("now.", HERE))
        return Beat(_merged(bits), stamp, HERE)

    def brace(self, board: chess.Board, scope: tuple[str, ...]) -> Brace | None:
        """One or more moves, made on the board and noted as told; None where the game is over."""
        sans: list[str] = []
        for _ in range(self.pick((1, 1, 1, 2, 3))):
            move = self.move(board)
            if move is None:
                break
            san = board.san(move)
            board.push(move)
            self.told.append(("/".join(scope) or "main", san))
            sans.append(san)
        if not sans:
            return None
        words = self.pick((None, "", "stars", "plain"))
        if words == "stars":
            words = " and ".join(f"{self.phrase().lower()} *" for _ in sans)
        elif words == "plain":
            words = self.phrase().lower()
        return Brace(" ".join(sans), words, None, HERE)

    def move(self, board: chess.Board) -> chess.Move | None:
        """A legal move; castling, promotion and en passant are drawn more often than they come up."""
        legal = sorted(board.legal_moves, key=chess.Move.uci)
        if not legal:
            return None
        promotions = [move for move in legal if move.promotion]
        castlings = [move for move in legal if board.is_castling(move)]
        passings = [move for move in legal if board.is_en_passant(move)]
        doubles = [move for move in legal if _may_be_passed(board, move)]
        rare = [moves for moves in (passings, castlings, promotions, doubles) if moves]
        return self.pick(self.pick((legal, *rare)))

    def cue(self) -> Element:
        kind = self.pick(("show", "idea", "pause", "side", "view"))
        if kind == "idea":
            name = f"idea {len(self._ideas) + 1}" if self._ideas else "the long diagonal"
            self._ideas.append(name)
            return IdeaLine(name, self.words(), self.stamp(), HERE)
        value = {
            "show": self.pick(("e4", "g2-b7 as line", "d5 to c4, e4", "a1, h8")),
            "pause": self.pick(("a breath", "2s", "1.5s")),
            "side": self.pick(("white", "black", "both")),
            "view": self.pick(("white", "black")),
        }[kind]
        return Line(kind, value, HERE)

    def another_board(self, here: _Depth) -> list[Element]:
        """Another position, a mark of this depth, or moves taken back."""
        told = len(here.board.move_stack) - here.floor
        kind = self.pick(("start", "fen", "fen", "words", "mark", "back"))
        board = chess.Board()
        value = "start"
        if kind == "fen":
            value = self.pick(SET_UPS)
            board = chess.Board(value)
        elif kind == "words":
            value = self.pick(IN_WORDS)
            board = _board_in_words(value)
        elif kind == "mark" and here.marks_here:
            value, board = self.pick(here.marks_here)
            board = board.copy()
        elif kind == "back" and told > 0:
            count = self._draw(st.integers(1, told))
            value = f"back {count} moves"
            board = here.board.copy()
            for _ in range(count):
                board.pop()
            here.board, here.floor = board, 0 if here.floor == 0 else here.floor
            return [Line("board", value, HERE, self.stamp())]
        here.board, here.floor = board, 0
        return [Line("board", value, HERE, self.stamp())]

    def retell(self, here: _Depth, scope: tuple[str, ...]) -> list[Element]:
        """A retelling from a mark that lies on the way here; where there is none, one is made first."""
        made: list[Element] = []
        if not here.marks_here and self._names:
            name = self._names.pop()
            here.marks_here.append((name, here.board.copy()))
            made = [Line("mark", name, HERE), self.beat(here, scope, at_least=1)]
        for name, board in here.marks_here:
            way = here.board.move_stack[: len(board.move_stack)]
            if (
                way == board.move_stack
                and here.board.root() == board.root()
                and len(way) < len(here.board.move_stack)
            ):
                self._tell_again(board, here.board.move_stack[len(way) :], scope)
                return [*made, Block("retell", (), name, (), self.back(), self.stamp(), HERE)]
        return [*made, self.beat(here, scope)]

    def _tell_again(self, board: chess.Board, moves: Sequence[chess.Move], scope: tuple[str, ...]) -> None:
        again = board.copy()
        for move in moves:
            self.told.append(("/".join((*scope, "retell")), again.san_and_push(move)))

    def block(
        self,
        kind: Literal["aside", "instead", "imagine"] | str,
        here: _Depth,
        scope: tuple[str, ...],
        size: int,
        depth: int,
    ) -> list[Element]:
        """A block told on a board of its own."""
        board = here.board.copy()
        value = ""
        if kind == "instead":
            if len(board.move_stack) <= here.floor:
                kind = "aside"
            else:
                board.pop()
        if kind == "imagine":
            changed = self.imagined(board)
            if changed is None:
                kind = "aside"
            else:
                value, board = changed
        stamp = self.stamp()
        title = self.words() if kind != "imagine" else ()
        body = tuple(self.body(board, (*scope, kind), size, depth))
        return [Block(kind, title, value, body, self.back(), stamp, HERE)]  # type: ignore[arg-type]

    def imagined(self, board: chess.Board) -> tuple[str, chess.Board] | None:
        """A change that leaves a position in which moves can be made."""
        men = [square for square, man in board.piece_map().items() if man.piece_type != chess.KING]
        change = self.pick(("remove", "pass", "turn", "put", "lift"))
        made = board.copy(stack=False)
        made.ep_square = None
        square = self.pick(sorted(men)) if men else chess.E4
        value = ""
        if change == "remove" and men:
            made.remove_piece_at(square)
            value = f"remove {chess.square_name(square)}"
        elif change == "put" and men:
            made.set_piece_at(square, chess.Piece(chess.KNIGHT, chess.WHITE))
            value = f"white knight on {chess.square_name(square)}"
        elif change == "lift" and men:
            free = [end for end in range(16, 48) if made.piece_at(end) is None]
            end = self.pick(free)
            made.set_piece_at(end, made.remove_piece_at(square))
            value = f"{chess.square_name(square)} to {chess.square_name(end)}"
        elif change == "turn":
            made.turn = not made.turn
            value = f"{'White' if made.turn else 'Black'} to move"
        else:
            made.fullmove_number += not made.turn
            made.turn = not made.turn
            value = "pass"
        made.castling_rights = made.clean_castling_rights()
        fatal = chess.STATUS_OPPOSITE_CHECK | chess.STATUS_PAWNS_ON_BACKRANK
        return None if made.status() & fatal else (value, made)

    def question(self, here: _Depth) -> QuestionBlock:
        """A question; the beat after it tells its answer unless it asks for something else."""
        kind = self.pick(("move", "move", "move", "square", "count", "choice", "words"))
        given: dict[str, Any] = {}
        if kind != "move":
            given["ask"] = Line("ask", kind, HERE)
            answer = {"square": "e4 d5", "count": "3", "choice": "the lamp", "words": "a pin, the pin"}[kind]
            given["answers"] = (Line("answer", answer, HERE),)
            if kind == "choice":
                given["choices"] = (Line("choice", "the lamp", HERE), Line("choice", "the kettle", HERE))
        else:
            legal = sorted(here.board.legal_moves, key=chess.Move.uci)
            first = self._draw(st.integers(0, len(legal) - 2))
            also, reply = (here.board.san(move) for move in legal[first : first + 2])
            given["also"] = (ReplyLine(also, self.words(), HERE),)
            given["replies"] = (ReplyLine(reply, self.words(), HERE),)
        if self._draw(st.booleans()):
            given["because"] = self.words()
            given["otherwise"] = self.words()
            given["nudges"] = (
                self.words(),
                (Brace("show e4", "here", None, HERE), Words(" and there.", HERE)),
            )
            given["think"] = Line("think", "20s", HERE)
            given["key"] = Line("key", self.pick(("yes", "no")), HERE)
        if self._ideas:
            given["about"] = (Line("about", self._ideas[0], HERE),)
        return QuestionBlock(self.words(), self.stamp(), HERE, **given)

    def words(self) -> Bits:
        return (Words(self.phrase() + ".", HERE),)

    def back(self) -> Bits | None:
        return self.words() if self._draw(st.booleans()) else None


def _may_be_passed(board: chess.Board, move: chess.Move) -> bool:
    """Whether en passant may follow this move."""
    if board.piece_type_at(move.from_square) != chess.PAWN or abs(move.from_square - move.to_square) != 16:
        return False
    after = board.copy(stack=False)
    after.push(move)
    return after.has_legal_en_passant()


def _merged(bits: list[Bit]) -> Bits:
    """Words that stand together as one."""
    made: list[Bit] = []
    for bit in bits:
        if made and isinstance(bit, Words) and isinstance(made[-1], Words):
            made[-1] = Words(" ".join(f"{made[-1].text}{bit.text}".split(" ")), bit.spot)
        else:
            made.append(bit)
    tidy = [
        Words(" ".join(f"|{bit.text}|".split())[1:-1], HERE) if isinstance(bit, Words) else bit
        for bit in made
    ]
    return tuple(tidy)


def _board_in_words(value: str) -> chess.Board:
    board = chess.Board(None)
    for part in value.split("; "):
        color, *men = part.split()
        if men[0] == "to":
            board.turn = color == "White"
            continue
        for man in men:
            piece = chess.Piece.from_symbol(man[0])
            piece.color = color == "White"
            board.set_piece_at(chess.parse_square(man[1:]), piece)
    return board
