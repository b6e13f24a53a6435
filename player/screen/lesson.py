"""The screen of a lesson: board, narration, ways on, prompt, and one line that says what goes on."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from typing import TypeVar

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Horizontal, Vertical
from textual.events import Resize
from textual.geometry import Size
from textual.screen import ModalScreen
from textual.widget import Widget
from textual.widgets import Input, Static

from player.cues.sheet import Sheet
from player.facts.place import Place
from player.screen.board import BoardView
from player.screen.dressed import Dressed
from player.screen.narration import Narration
from player.screen.prompt import Prompt
from player.screen.rooms import Room, divide
from player.screen.ways import captions, doing, ways, where
from player.screen.words import Scribe
from player.script.told import Shown
from player.session.session import Listener, Session, Told
from player.stage.happenings import Board, Marked, Quit
from player.stage.inputs import Did, Typed
from player.stage.registry import ACTIONS, BY_NAME
from player.stage.understand import understand
from player.world.clean import clean, clean_line
from player.world.world import World

OWN_KEYS = ("pageup", "pagedown", "ctrl+c")
"""Keys of the screen itself: reading back, and the usual way out of any program."""

Kind = TypeVar("Kind", bound=Widget)


class LessonApp(Dressed[int], inherit_bindings=False):
    """One lesson. A timer runs only while the session waits for something by itself.

    The timer is the event loop's own: Textual's leaves a short one out for good where the machine is busy
    for longer than it lasts.
    """

    BINDINGS = [  # noqa: RUF012
        *(
            Binding(one.key, f"act({one.name!r})", one.words[0], show=False, priority=True)
            for one in ACTIONS
            if one.key != "enter"
        ),
        Binding("pageup", "read(-1)", show=False, priority=True),
        Binding("pagedown", "read(1)", show=False, priority=True),
        Binding("ctrl+c", "act('quit')", show=False, priority=True),
    ]

    def __init__(self, sheet: Sheet, world: World, open_session: Callable[[Listener], Session]) -> None:
        super().__init__(world)
        self._sheet = sheet
        self.title = clean_line(sheet.title) or "A lesson"
        self._open = open_session
        self._session: Session | None = None
        self._early: list[Told] = []
        self.left: Quit | None = None
        self._due: asyncio.TimerHandle | None = None
        self._division: Room = divide(80, 24, blocks=self.blocks)
        self._room: Size | None = None
        self._place = Place()
        self._shown = Shown(())
        self._scribe = Scribe(sheet, lambda: self._part("#told", Narration))

    @property
    def session(self) -> Session | None:
        """The session, once it is open."""
        return self._session

    @property
    def waits_by_itself(self) -> bool:
        """Whether a timer runs."""
        return self._due is not None

    def compose(self) -> ComposeResult:
        coach = clean_line(self._sheet.coach)
        yield Static(f"{self.title}, by {coach}" if coach else self.title, id="title", markup=False)
        with Horizontal(id="room"):
            with Vertical(id="left"):
                yield BoardView(self.dress, blocks=self.blocks, id="board")
                yield Static(id="caption", markup=False)
            with Vertical(id="right"):
                yield Narration(self.dress, blocks=self.blocks, id="told")
                yield Static(id="ways", markup=False)
        yield Static(id="line", markup=False)
        yield Static(id="state", markup=False)
        with Horizontal(id="bar"):
            yield Static("> ", id="mark", markup=False)
            yield Prompt("a move, or a word such as help (F1)")

    def on_mount(self) -> None:
        self.screen.can_focus = False
        self.query_one("#prompt", Prompt).focus()
        self._fit(self.size)
        self._scribe.opening()
        self._session = self._open(self._hear)
        for told in self._early:
            self._hear(told)
        state = self._session.state
        self._place = state.place
        self.query_one(BoardView).show(state.place, None, state.flipped)
        if Did("resume") in self._session.first:
            self._scribe.note("It goes on where you stopped.")
        self.call_after_refresh(self._start)

    def _start(self) -> None:
        if self._session is not None:
            self._session.start()
            self._after()

    def on_resize(self, event: Resize) -> None:
        if event.size != self._room:  # A terminal tells its size once more when all has been put up.
            self._fit(event.size)

    def _fit(self, room: Size) -> None:
        """Divide the room that there is now."""
        self._room = room
        division = divide(*room, blocks=self.blocks)
        self._division = division
        for shape in ("wide", "tall", "tiny", "blind"):
            self.screen.set_class(division.shape == shape, shape)
        board = self._part("#board", BoardView)
        if board is not None and division.size is not None:
            board.fit(division.size)
            caption = self._part("#caption", Static)
            if caption is not None:
                caption.styles.width = division.size.width + 2
        self._show()

    def leave(self) -> None:
        """A signal asks for the end: as if the learner had said quit."""
        self.give(Did("quit"))

    # -- what the learner does -----------------------------------------------------------------------------

    def on_input_submitted(self, event: Input.Submitted) -> None:
        words = event.value
        session = self._session
        if session is None:
            return
        if words:
            self._scribe.typed(words)
            meant = understand(session.state, words)
            if meant.verb == "help":
                self._help(meant.with_.casefold())
                return
        self.give(Typed(words))

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Over a help page the keys are the page's."""
        return not (action in ("act", "read") and isinstance(self.screen, ModalScreen))

    def action_act(self, name: str) -> None:
        """A key: do the action, or put its words into the prompt where it needs more of them."""
        action = BY_NAME[name]
        if name == "help":
            self._help()
        elif action.object == "must":
            self.query_one("#prompt", Prompt).begin(f"{action.words[0]} ")
        else:
            self.give(Did(name))

    def action_read(self, way: int) -> None:
        """Read back, or on."""
        told = self._part("#told", Narration)
        if told is not None:
            told.read(way)

    def _help(self, page: str = "") -> None:
        """Show the help; the telling pauses for as long as it is read."""
        from player.screen.help import HelpScreen

        session = self._session
        paused = session is not None and session.state.top.doing in ("saying", "resting")
        if paused:
            self.give(Did("pause"))

        def back(_: None) -> None:
            if paused:
                self.give(Did("go on"))

        self.push_screen(HelpScreen(self.dress, page), back)

    def give(self, given: Typed | Did) -> None:
        """The learner did this."""
        if self._session is not None:
            self._session.feed(given)
            self._after()

    # -- what the session does -----------------------------------------------------------------------------

    def _rang(self) -> None:
        self._due = None
        self.tick()

    def tick(self) -> None:
        """Let the session take what has come."""
        if self._session is not None:
            self._session.tick()
            self._after()

    def _after(self) -> None:
        """Show where things stand, and wake again only where the session waits by itself."""
        session = self._session
        if session is None:
            return
        if self._due is not None:
            self._due.cancel()
            self._due = None
        self._scribe.follow(session.state)
        self._show()
        if session.state.quit:
            self.exit(0)
            return
        due = session.due_ms()
        if due is not None:
            loop = asyncio.get_running_loop()
            self._due = loop.call_later(due / 1000, self.call_later, self._rang)

    def _hear(self, told: Told) -> None:
        session = self._session
        if session is None:
            self._early.append(told)
            return
        board = self._part("#board", BoardView)
        if isinstance(told, Board):
            self._place = told.place
            if board is not None:
                board.show(told.place, told.move, told.flip)
        elif isinstance(told, Quit):
            self.left = told
        elif isinstance(told, Marked):
            self._shown = told.shown
            if board is not None:
                board.mark(told.shown)
        self._scribe.tell(told, session.state)

    def _show(self) -> None:
        """Everything in words round the board."""
        session = self._session
        if session is None:
            return
        state = session.state
        self._write("#caption", clean("\n".join(captions(self._place, self._shown))))
        self._write("#line", clean_line(" ".join(captions(self._place, self._shown, brief=True))))
        self._write("#ways", self._ways())
        self._write("#state", f"{doing(state)}  |  {where(state)}")

    def _ways(self) -> str:
        session = self._session
        lines = ways(session.state, self._division.ways) if session is not None else []
        return "\n".join(["Ways on, by name:", *(f"  {line}" for line in lines)]) if lines else ""

    def _write(self, name: str, text: str) -> None:
        """Change some words, where they still stand: news may come while the screen is being left."""
        line = self._part(name, Static)
        if line is not None and str(line.content) != text:
            line.update(text)

    def _part(self, name: str, kind: type[Kind]) -> Kind | None:
        """A widget of the lesson, under a help page too; None while there is no screen."""
        if not self._screen_stacks.get("_default"):
            return None
        return next(iter(self.screen_stack[0].query(name).results(kind)), None)
