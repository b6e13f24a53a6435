"""Where the telling stands at one depth: a live board, and what has been told there."""

from __future__ import annotations

from dataclasses import dataclass, field

import chess

from player.facts.place import Place, is_playable
from player.script.told import Turn


@dataclass(frozen=True, slots=True)
class Numbered:
    """A told move with its number in the game: (7, black) is 7...Nf6."""

    number: int
    color: chess.Color
    turn: Turn


@dataclass(slots=True)
class Game:
    """The moves told in one game at the depth where it was begun; `named` once it has a `game:` line."""

    moves: list[Numbered] = field(default_factory=list)
    named: bool = False


@dataclass(slots=True)
class Line:
    """How far one unbroken run of moves has come, from where the board was set."""

    begin: Place = field(default_factory=Place)
    end: Place = field(default_factory=Place)


@dataclass(slots=True)
class Here:
    """One depth of the telling. `board` is always the position of `place`, and is changed move by move.

    `last` is the move just told in this game. `floor` is how many of the place's moves were there when this
    depth began; the ones above it were told at this depth. `lost` says that a move could not be followed, so
    that the moves after it are only words; `excused`, that the board is not the one the script means, which
    has been told already: a move lost then is not told again. `line` is new whenever the board is set.
    """

    place: Place
    board: chess.Board
    game: Game
    last: Turn | None = None
    floor: int = 0
    lost: bool = False
    excused: bool = False
    in_game: bool = True
    playable: bool = True
    line: Line = field(default_factory=Line)

    def play(self, move: chess.Move) -> Turn:
        """Makes a legal move."""
        before = self.place
        number, color = self.board.fullmove_number, self.board.turn
        san = self.board.san_and_push(move)
        self.place = before.then(move.uci())
        turn = Turn(move.uci(), san, before, self.place)
        self.last = turn
        self.line.end = self.place
        if self.in_game:
            self.game.moves.append(Numbered(number, color, turn))
        return turn

    def fork(self) -> Here:
        """The same place one depth further down: what is told there leaves this depth as it is."""
        return Here(
            place=self.place,
            board=self.board.copy(),
            game=self.game,
            last=self.last,
            floor=len(self.place.moves),
            lost=self.lost,
            excused=self.excused,
            in_game=False,
            playable=self.playable,
            line=Line(self.place, self.place),
        )

    def fork_before_last(self) -> Here | None:
        """A fork that stands before the last move told at this depth, or None where none was told."""
        if len(self.place.moves) <= self.floor:
            return None
        down = self.fork()
        down.board.pop()
        down.place = Place(self.place.root, self.place.moves[:-1])
        down.last = None
        down.floor = len(down.place.moves)
        down.line = Line(down.place, down.place)
        return down

    def set(self, place: Place, in_game: bool = False) -> None:
        """Begins another game or fragment at this depth."""
        self.place = place
        self.board = place.board()
        self.playable = is_playable(self.board)
        self.last = None
        self.floor = 0
        self.lost = self.excused = False
        self.in_game = in_game
        self.line = Line(place, place)


def beginning() -> Here:
    """The start of a lesson: the starting position, and a game that has no moves yet."""
    return Here(place=Place(), board=chess.Board(), game=Game())


def why_impossible(board: chess.Board) -> str:
    """What keeps moves from being made on a board, in a sentence; "" where nothing does."""
    status = board.status()
    if status & (chess.STATUS_NO_WHITE_KING | chess.STATUS_NO_BLACK_KING):
        return f"{'White' if status & chess.STATUS_NO_WHITE_KING else 'Black'} has no king here."
    if status & chess.STATUS_TOO_MANY_KINGS:
        return "One side has two kings here."
    if status & chess.STATUS_PAWNS_ON_BACKRANK:
        return "A pawn stands on a last rank here."
    if status & chess.STATUS_OPPOSITE_CHECK:
        return f"{'Black' if board.turn else 'White'} is in check and not to move here."
    return ""
