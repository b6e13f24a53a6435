"""Key lines that are not spoken: boards, marks, games, sides and cues."""

from __future__ import annotations

from collections.abc import Sequence

from player.script.boards import MarkMade, NoBoard, board_of, is_reserved, mark_key
from player.script.braces import Braces
from player.script.examples import EXAMPLES
from player.script.found import Found
from player.script.games import game_names
from player.script.header import SIDES
from player.script.here import Game, Here
from player.script.marks import Unshown, near_show, shown_of, shown_value
from player.script.model import Beat, Block, Brace, Element, Line, QuestionBlock
from player.script.times import pause_ms
from player.script.told import (
    Told,
    ToldBoard,
    ToldClaim,
    ToldFine,
    ToldGame,
    ToldPause,
    ToldShow,
    ToldSides,
)


class KeyLines:
    """Tells the key lines of one lesson; `marks` has the marks made so far, by their `mark_key`."""

    def __init__(self, found: Found, braces: Braces, language: str) -> None:
        self.found = found
        self._braces = braces
        self.language = language
        self.marks: dict[str, MarkMade] = {}

    def told(self, line: Line, here: Here, rest: Sequence[Element]) -> list[Told]:
        """What a line tells here; `rest` is what comes after it at its depth."""
        if line.key == "board":
            return self._board(line, here)
        if line.key == "mark":
            self._mark(line, here)
            return []
        if line.key == "game":
            return self._game(line, here, rest)
        if line.key in ("side", "view"):
            return self._sides(line, here)
        if line.key == "fine":
            return [ToldFine(line.value, line.spot)]
        if line.key == "claim":
            return (
                [] if here.lost or here.excused else [ToldClaim(line.value, here.place, here.last, line.spot)]
            )
        if line.key == "pause":
            ms = pause_ms(line.value)
            if ms is None:
                self.found.fault(
                    line.spot, "bad-length", "A pause is a breath or a number of seconds.", "pause: 2s"
                )
                return []
            return [ToldPause(ms, here.place, line.spot)]
        shown = shown_of(line.value)
        if isinstance(shown, Unshown):
            near = near_show(line.value)
            fix = f"show: {near}" if near else EXAMPLES["show"]
            self.found.fault(self.found.where(shown.text, line.spot), "bad-show", shown.message, fix)
            return []
        self._braces.doubt_hits(shown, here, line.spot)
        return [ToldShow(shown, here.place, line.stamp_ms, line.spot)]

    def _board(self, line: Line, here: Here) -> list[Told]:
        """Another game or fragment from here on."""
        arrived = board_of(line.value, here, self.marks, self.language)
        if isinstance(arrived, NoBoard):
            if not here.lost:
                self.found.fault(
                    self.found.where(arrived.text, line.spot), arrived.code, arrived.message, arrived.fix
                )
            here.lost = True
            return []
        if arrived.doubt:
            self.found.query(line.spot, "board-doubt", arrived.doubt)
        before = here.place
        if arrived.begins_game and here.game.moves:
            here.game = Game()
        if arrived.mark is not None:
            here.game = arrived.mark.game
        named = bool(here.game.named and not here.game.moves)
        here.set(arrived.place, in_game=arrived.in_game or named)
        return [ToldBoard(line.value, before, here.place, line.stamp_ms, line.spot)]

    def _mark(self, line: Line, here: Here) -> None:
        """A name for this place."""
        key = mark_key(line.value)
        if is_reserved(line.value):
            self.found.fault(
                line.spot,
                "bad-mark",
                "board: would not take this for the name of a mark. Choose another.",
                EXAMPLES["mark"],
            )
        elif key in self.marks:
            self.found.fault(
                line.spot,
                "mark-twice",
                f"There is already a mark {self.marks[key].name} above.",
                EXAMPLES["mark"],
            )
        elif not here.lost:
            self.marks[key] = MarkMade(line.value, here.place, here.line, here.game, here.in_game)

    def _game(self, line: Line, here: Here, rest: Sequence[Element]) -> list[Told]:
        """The names of the game whose moves come next."""
        names = game_names(line.value)
        if names is None:
            self.found.fault(
                line.spot,
                "bad-game",
                "A game is given as White - Black, place and year, result.",
                EXAMPLES["game"],
            )
            return []
        if here.line.end != here.line.begin and not _board_comes_first(rest):
            self.found.fault(
                line.spot,
                "game-late",
                "This game is named after moves of it have been told. Put the line before them, "
                "or begin another game with board: start.",
                EXAMPLES["game"],
            )
        elif here.game.moves or here.game.named:
            here.game = Game(named=True)
        else:
            here.game.named = True
        return [
            ToldGame(names.white, names.black, names.site, names.year, names.result, here.place, line.spot)
        ]

    def _sides(self, line: Line, here: Here) -> list[Told]:
        side = line.value.lower()
        known = SIDES if line.key == "side" else SIDES[:2]
        if side not in known:
            self.found.fault(
                line.spot, "bad-side", f"The {line.key} is {' or '.join(known)}.", EXAMPLES[line.key]
            )
            return []
        if line.key == "side":
            return [ToldSides(side, "", here.place, line.spot)]  # type: ignore[arg-type]
        return [ToldSides("", side, here.place, line.spot)]  # type: ignore[arg-type]


def _board_comes_first(rest: Sequence[Element]) -> bool:
    """Whether a board: line comes before the next told move."""
    for element in rest:
        if isinstance(element, Line) and element.key == "board":
            return True
        if isinstance(element, Beat) and any(
            isinstance(bit, Brace) and shown_value(bit.deed) is None for bit in element.bits
        ):
            return False
        if isinstance(element, Block | QuestionBlock):
            return False
    return True
