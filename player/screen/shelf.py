"""The shelf: the lessons at hand, to choose one by number, by word, or with arrows and Enter."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from rich.text import Text
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Horizontal
from textual.screen import ModalScreen
from textual.widgets import Input, OptionList, Static
from textual.widgets.option_list import Option

from player.screen.dressed import Dressed
from player.screen.help import HelpScreen
from player.screen.prompt import Prompt
from player.session.shelf import Row, meant, named, read_row, waits_words
from player.world.world import World

REVISIT = "revisit"
"""The word, and the answer, for the questions that wait for today."""
_LEAVE = {"quit", "q", "leave", "exit", "bye", "goodbye"}


class ShelfApp(Dressed[str], inherit_bindings=False):
    """Answers with the path of the lesson chosen, with REVISIT, or with None.

    `waiting` is how many questions wait for today.
    """

    BINDINGS = [  # noqa: RUF012
        *(Binding(key, "leave", show=False, priority=True) for key in ("escape", "ctrl+q", "ctrl+c")),
        Binding("up", "move(-1)", show=False, priority=True),
        Binding("down", "move(1)", show=False, priority=True),
        Binding("f1", "help", show=False, priority=True),
    ]

    def __init__(self, world: World, lessons: Sequence[Path], waiting: int = 0) -> None:
        super().__init__(world)
        self._waiting = waiting
        self._rows: list[Row] = [named(path) for path in lessons]
        self._pointed: int | None = 0
        self.title = "The reading room"
        self._unread = list(range(len(self._rows)))

    @property
    def rows(self) -> tuple[Row, ...]:
        """What is known of the lessons by now."""
        return tuple(self._rows)

    def compose(self) -> ComposeResult:
        yield Static("The reading room", id="title", markup=False)
        yield Static(self._intro(), id="intro", markup=False)
        yield OptionList(*(Option(self._text(n), id=str(n)) for n in range(len(self._rows))), id="lessons")
        yield Static("Enter opens, Escape leaves  |  F1 help", id="state", markup=False)
        with Horizontal(id="bar"):
            yield Static("> ", id="mark", markup=False)
            yield Prompt("a number, or a word of its title")

    def on_mount(self) -> None:
        lessons = self.query_one("#lessons", OptionList)
        lessons.can_focus = False
        if self._rows:
            lessons.highlighted = 0
        self.query_one("#prompt", Prompt).focus()
        self.call_after_refresh(self._read_on)

    def _intro(self) -> str:
        if not self._rows:
            return "There is no lesson here. 'moveteller new NAME' writes one."
        if self._waiting:
            return f"Which lesson shall it be? {waits_words(self._waiting)} 'revisit' asks them."
        return "Which lesson shall it be?"

    def _read_on(self) -> None:
        """Read one script more, and let the screen be drawn before the next."""
        if not self._unread:
            return
        number = self._unread.pop(0)
        self._rows[number] = read_row(self.world, self._rows[number].path)
        lessons = next(iter(self.query("#lessons").results(OptionList)), None)
        if lessons is not None:
            lessons.replace_option_prompt_at_index(number, self._text(number))
            self.call_after_refresh(self._read_on)

    def _text(self, number: int) -> Text:
        row = self._rows[number]
        sign = ">" if number == self._pointed else " "
        text = Text.assemble(
            (f"{sign} {number + 1:>2}  ", self.dress.lamp), (row.title, f"bold {self.dress.text}")
        )
        text.append(f"\n      {row.about}" if row.about else "\n", self.dress.quiet)
        return text

    def on_input_submitted(self, event: Input.Submitted) -> None:
        words = event.value
        lessons = self.query_one("#lessons", OptionList)
        if not words:
            self._choose(lessons.highlighted)
        elif words.casefold() in _LEAVE:
            self.exit(None)
        elif words.casefold() == REVISIT:
            self.exit(REVISIT)
        elif words.casefold() in ("help", "?"):
            self.action_help()
        else:
            number = meant(self._rows, words)
            if number is None:
                self.query_one("#intro", Static).update(f"No lesson here is called '{words}'.")
            else:
                self._choose(number)

    def on_option_list_option_highlighted(self, event: OptionList.OptionHighlighted) -> None:
        before, self._pointed = self._pointed, event.option_index
        for number in {event.option_index} | ({before} if before is not None else set()):
            event.option_list.replace_option_prompt_at_index(number, self._text(number))

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        self._choose(event.option_index)

    def _choose(self, number: int | None) -> None:
        if number is not None and number < len(self._rows):
            self.exit(str(self._rows[number].path))

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Over a help page the keys are the page's."""
        return not isinstance(self.screen, ModalScreen)

    def action_move(self, way: int) -> None:
        lessons = self.query_one("#lessons", OptionList)
        lessons.action_cursor_down() if way > 0 else lessons.action_cursor_up()

    def action_help(self) -> None:
        self.push_screen(HelpScreen(self.dress))

    def action_leave(self) -> None:
        self.leave()
