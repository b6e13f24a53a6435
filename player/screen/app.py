"""The screen: a lesson on a board with its narration and a prompt, and the shelf of lessons."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

from rich.text import Text
from textual.app import App, ComposeResult
from textual.binding import Binding
from textual.containers import Horizontal, Vertical
from textual.timer import Timer
from textual.widgets import Input, OptionList, RichLog, Static
from textual.widgets.option_list import Option

from player.cues.sheet import Sheet
from player.screen.board import BoardView
from player.screen.dress import dress_for
from player.session.session import Listener, Session, Told
from player.stage.happenings import Board, Marked, Note, Noted, Over, Put, Quit, Say, Scoped
from player.stage.inputs import Did, Typed
from player.stage.registry import ACTIONS
from player.stage.state import State, Telling
from player.voice.speaker import Notice
from player.world.clean import clean, clean_line
from player.world.settings import load_settings, settings_path
from player.world.world import World

NARROW = 60


class LessonApp(App[int]):
    """One lesson. Timers run only while the session waits for something by itself."""

    ENABLE_COMMAND_PALETTE = False
    CSS = """
    #room { height: 1fr; }
    #left { width: auto; height: 100%; padding: 0 1; }
    #told { height: 1fr; scrollbar-size-vertical: 1; }
    #now { height: auto; max-height: 5; text-style: none; }
    #state { height: 1; color: $text; }
    #caption { height: auto; }
    Input { border: none; height: 1; padding: 0; }
    """

    def __init__(self, sheet: Sheet, world: World, open_session: Callable[[Listener], Session]) -> None:
        super().__init__()
        self._sheet = sheet
        self._world = world
        self._open = open_session
        self._session: Session | None = None
        self._early: list[Told] = []
        self._timer: Timer | None = None
        self._saying: Say | None = None
        settings = load_settings(settings_path(world.folders.config)).settings
        self._board = BoardView(dress_for(settings.dress), figures=world.can_show("♔♚"))
        for action in ACTIONS:
            if action.key != "enter":
                self._bindings.bind(
                    action.key, f"act('{action.name}')", action.words[0], show=False, priority=True
                )

    def compose(self) -> ComposeResult:
        with Horizontal(id="room"):
            with Vertical(id="left"):
                yield self._board
                yield Static(id="caption")
            with Vertical():
                yield RichLog(id="told", wrap=True, min_width=10, auto_scroll=True)
                yield Static(id="now")
        yield Static(id="state")
        yield Input(placeholder="a move, or what you can say: help", id="prompt")

    def on_mount(self) -> None:
        self.fit()
        self.query_one("#told", RichLog).can_focus = False
        self.query_one("#prompt", Input).focus()
        self._write(f"{self._sheet.title}, by {self._sheet.coach or 'its coach'}", "bold")
        self._session = self._open(self._hear)
        for told in self._early:
            self._hear(told)
        self._board.show(self._session.state.place, None, self._session.state.flip)
        self._session.start()
        self._after()

    def on_resize(self) -> None:
        self.fit()

    def fit(self) -> None:
        """Give the board the largest size that leaves room to read."""
        width, height = self.size
        share = width - 18 if width < NARROW else width - 34
        self._board.fit(share, height - 4)

    # -- what the learner does -----------------------------------------------------------------------------

    def on_input_submitted(self, event: Input.Submitted) -> None:
        event.input.clear()
        words = event.value.strip()
        if words:
            self._write(f"You: {clean_line(words)}", "italic")
        self._feed(Typed(words))

    def action_act(self, name: str) -> None:
        """A key: do the action, or put its words into the prompt where it needs an object."""
        action = next(one for one in ACTIONS if one.name == name)
        if action.object == "must":
            prompt = self.query_one("#prompt", Input)
            prompt.value = f"{action.words[0]} "
            prompt.cursor_position = len(prompt.value)
            return
        self._feed(Did(name))

    def _feed(self, given: Typed | Did) -> None:
        if self._session is not None:
            self._session.feed(given)
            self._after()

    def _tick(self) -> None:
        self._timer = None
        if self._session is not None:
            self._session.tick()
            self._after()

    def _after(self) -> None:
        """Show where things stand, and wake again only where the session waits by itself."""
        session = self._session
        if session is None:
            return
        if self._timer is not None:
            self._timer.stop()
            self._timer = None
        self._state(session.state)
        self._now(session.state)
        if session.state.quit:
            self.exit(0)
            return
        due = session.due_ms()
        if due is not None:
            self._timer = self.set_timer(max(due, 1) / 1000, self._tick)

    # -- what happens --------------------------------------------------------------------------------------

    def _hear(self, told: Told) -> None:
        if self._session is None:
            self._early.append(told)
        elif isinstance(told, Board):
            self._board.show(told.place, told.move, told.flip)
            self._caption(told)
        elif isinstance(told, Marked):
            self._board.mark(told.shown)
        elif isinstance(told, Say):
            if self._saying is not None and self._saying.step != told.step:
                self._write(self._saying.what.shown, "")
            self._saying = told
        elif isinstance(told, Note):
            self._write(told.text, "dim" if told.standing == "program" else "")
        elif isinstance(told, Notice):
            self._write(told.sentence, "dim")
        elif isinstance(told, Noted):
            self._write(f"In your notebook: {told.idea}", "dim")
        elif isinstance(told, Scoped) and self._sheet.scopes[told.scope].title:
            title = self._sheet.scopes[told.scope].title
            self._write(f"{'Aside' if told.opened else 'Back from'}: {title}", "bold")
        elif isinstance(told, Over):
            self._write("The lesson is told. 'quit' leaves; 'go to start' tells it again.", "bold")
        elif isinstance(told, Quit | Put):
            pass

    def _write(self, text: str, style: str) -> None:
        for log in self.query("#told").results(RichLog):
            log.write(Text(clean(text), style=style))

    def _update(self, name: str, text: str | Text) -> None:
        """Change a line, where it still stands: news may come while the screen is being left."""
        for line in self.query(name).results(Static):
            line.update(text)

    def _caption(self, told: Board) -> None:
        board = told.place.board()
        said = f"{'White' if board.turn else 'Black'} to move"
        if told.place.playable and board.is_checkmate():
            said = "mate"
        elif told.place.playable and board.is_check():
            said += ", check"
        self._update("#caption", said)

    def _now(self, state: State) -> None:
        """The sentence being said, with the words said so far underlined."""
        if self._saying is None:
            return
        what = self._saying.what
        text = Text(clean(what.shown), style="bold")
        frame = state.top
        if (
            frame.step is not None
            and frame.step.key == self._saying.step
            and 0 < frame.word <= len(what.words)
        ):
            text.stylize("underline", 0, what.words[frame.word - 1][1])
        self._update("#now", text)

    def _state(self, state: State) -> None:
        doing = {
            "saying": "telling",
            "resting": "telling",
            "asked": "your answer?",
            "held": "paused: Enter goes on",
            "paced": "Enter goes on",
            "wandering": "trying moves: 'home' goes back",
            "over": "told",
        }[state.top.doing]
        at = min(state.lesson.at, len(self._sheet.steps) - 1)
        part = self._sheet.steps[at].part
        where = f"{self._sheet.parts[part].title}  " if part >= 0 else ""
        self._update("#state", clean_line(f"{doing}  x{state.telling.speed:g}  {where}F1 help"))


class ShelfApp(App[str]):
    """The shelf: choose a lesson with arrows and Enter, or leave with Escape."""

    ENABLE_COMMAND_PALETTE = False
    BINDINGS = [Binding("escape", "leave", "leave"), Binding("q", "leave", "leave")]  # noqa: RUF012

    def __init__(self, titles: Sequence[str]) -> None:
        super().__init__()
        self._titles = titles

    def compose(self) -> ComposeResult:
        yield Static("The shelf. Choose a lesson with the arrows and Enter; Escape leaves.")
        yield OptionList(*(Option(title, id=str(n)) for n, title in enumerate(self._titles)))

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        self.exit(event.option.id)

    def action_leave(self) -> None:
        self.exit(None)


def play_lesson(
    sheet: Sheet, telling: Telling, world: World, open_session: Callable[[Listener], Session]
) -> int:
    """Play a lesson on the screen until it is left; 0."""
    app = LessonApp(sheet, world, open_session)
    try:
        return app.run() or 0
    finally:
        if app._session is not None:
            app._session.close()


def shelf(world: World, lessons: Sequence[Path]) -> Path | None:
    """Let the learner choose one of these scripts; None where none was chosen."""
    chosen = ShelfApp([clean_line(path.stem.replace("-", " ")) for path in lessons]).run()
    return lessons[int(chosen)] if chosen is not None else None
