"""The answer to a question about the board, and what an answer is made from."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

import chess

from player.facts.claim import Claim, Last
from player.facts.exchange import Nodes
from player.facts.prove import prove
from player.wording.asked.forms import Query
from player.wording.asked.words import Man
from player.wording.names import colour_name, listed, man_at, name

BUDGET = 3_000


@dataclass(frozen=True, slots=True)
class BoardReply:
    """An answer in words, and its facts as data.

    `standing` is "board" where every word is proved, "search" where a short look at all replies says so, and
    "unknown" where the board does not tell. `squares`,
    `number`, `yes` and `moves` have the facts that the kind of question asks for; `kind` is that kind, and
    `about` the words to put to `learn` where a question needs a longer look at a move ("why not").
    """

    text: str
    standing: Literal["board", "search", "unknown"] = "board"
    squares: tuple[chess.Square, ...] = ()
    number: int | None = None
    yes: bool | None = None
    moves: tuple[chess.Move, ...] = ()
    kind: str = ""
    about: str = ""


@dataclass(slots=True)
class Scene:
    """What a question is asked of: the board with its moves, and who asks."""

    board: chess.Board
    query: Query
    me: chess.Color
    before: chess.Board | None = None
    language: str = "en"
    nodes: Nodes = field(default_factory=lambda: Nodes(BUDGET))

    def colour(self, side: str) -> chess.Color | None:
        """The side a word names; None for no word."""
        named = {"white": chess.WHITE, "black": chess.BLACK, "me": self.me, "you": not self.me}
        return named.get(side)

    @property
    def side(self) -> chess.Color | None:
        """The side the question names by itself."""
        return self.colour(self.query.side)

    @property
    def last(self) -> Last | None:
        """The move just made, where one was."""
        if not self.board.move_stack or not self.board.peek():
            return None
        before = self.board.copy()
        return Last(before, before.pop())

    def men(self, man: Man | None = None) -> list[chess.Square]:
        """Where the men stand that a question means by a man: on its square, or all of that kind.

        With no side said it is either side's man.
        """
        if man is None:
            if not self.query.men:
                return []
            man = self.query.men[0]
        colour = self.colour(man.side)
        if man.square is not None:
            found = [man.square] if self.board.piece_at(man.square) else []
        else:
            found = list(chess.SquareSet(self.board.occupied))
        return [
            square
            for square in found
            if (man.kind is None or self.board.piece_type_at(square) == man.kind)
            and (colour is None or self.board.color_at(square) == colour)
            and (man.file is None or square & 7 == man.file)
        ]

    def absent(self, man: Man | None = None) -> str:
        """That the man a question means is not there, and who is."""
        man = man or self.query.men[0]
        colour = self.colour(man.side)
        side = "" if colour is None else "white " if colour else "black "
        kind = "man" if man.kind is None else name(man.kind)
        if man.square is not None:
            here = chess.SQUARE_NAMES[man.square]
            return f"There is no {side}{kind} on {here}: {self.stands(man.square)}"
        where = "" if man.file is None else f" on the {'abcdefgh'[man.file]}-file"
        who = "Nobody" if colour is None else colour_name(colour)
        return f"{who} has {'a' if colour is None else 'no'} {kind}{where}."

    def stands(self, square: chess.Square) -> str:
        """ "on f3 stands a white knight." """
        piece = self.board.piece_at(square)
        here = chess.SQUARE_NAMES[square]
        if piece is None:
            return f"{here} is empty."
        return f"on {here} stands a {'white' if piece.color else 'black'} {name(piece.piece_type)}."

    def the(
        self, squares: chess.SquareSet | list[chess.Square] | tuple[chess.Square, ...], *, sides: bool = False
    ) -> str:
        """ "the knight on f3 and the pawn on g2", with their sides where `sides` is set."""
        return listed(
            [
                f"the {self.side_word(square) if sides else ''}{man_at(self.board, square)}"
                for square in squares
            ]
        )

    def side_word(self, square: chess.Square) -> str:
        colour = self.board.color_at(square)
        return "" if colour is None else "white " if colour else "black "

    def proved(self, claim: Claim) -> BoardReply:
        """Yes or no and the reason, by a claim's own definition."""
        found = prove(claim, self.board, self.last, budget=BUDGET)
        if found.kind in ("true", "false"):
            yes = found.kind == "true"
            return BoardReply(f"{'Yes' if yes else 'No'}. {found.because}".strip(), yes=yes)
        return unknown(found.because)


def unknown(why: str) -> BoardReply:
    """That the board does not tell."""
    return BoardReply(why, "unknown")


def yes_no(yes: bool) -> str:
    return "Yes" if yes else "No"


def capital(text: str) -> str:
    """The text with a capital at its start, unless it starts with a square's name."""
    return text if text[:2] in chess.SQUARE_NAMES else text[:1].upper() + text[1:]


def names(squares: list[chess.Square] | tuple[chess.Square, ...] | chess.SquareSet) -> str:
    """ "e4, f3 and g2"."""
    return listed([chess.SQUARE_NAMES[square] for square in squares])


def count(number: int, one: str, several: str = "") -> str:
    """ "no men", "one man", "3 moves"."""
    if number == 1:
        return f"one {one}"
    many = several or ("men" if one == "man" else f"{one}s")
    return f"{number or 'no'} {many}"
