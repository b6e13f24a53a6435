"""The line skin: a lesson told line by line, without control codes, colours or hurry."""

from __future__ import annotations

from collections.abc import Callable

from player.cues.sheet import Sheet
from player.lines.page import Page
from player.lines.typing import Typing
from player.lines.words import Teller
from player.session.session import Listener, Session, Told
from player.session.words import LESSON, farewell
from player.stage.happenings import Over, Quit
from player.stage.inputs import Did, Typed
from player.stage.understand import understand
from player.world.clean import clean_line
from player.world.world import World


def play_lines(
    sheet: Sheet,
    world: World,
    open_session: Callable[[Listener], Session],
    *,
    width: int = 0,
    typing: Typing | None = None,
) -> int:
    """Play a lesson to its end, or until the learner leaves; 0.

    Lines are read from the world's input whenever the lesson waits, and printed on its output, each with
    a word before it that says who speaks. At the end of the input a lesson that is told at once has its
    questions pass and is told to the end; any other one is left, with the place kept. `typing` is who reads
    the input, where more than one lesson is played from it.
    """
    return _Playing(sheet, world, open_session, width, typing or Typing(world.stdin)).run()


class _Playing:
    def __init__(
        self,
        sheet: Sheet,
        world: World,
        open_session: Callable[[Listener], Session],
        width: int,
        typing: Typing,
    ) -> None:
        self._world = world
        self._page = Page(world, width)
        self._teller = Teller(sheet)
        self._typing = typing
        self._waiting: list[Told] = []
        self._left = False
        self._over = False
        self._printed = 0
        self._session: Session | None = None
        self._session = open_session(self._hear)

    def _hear(self, told: Told) -> None:
        if self._session is None:  # while it is being opened
            self._waiting.append(told)
            return
        self._left |= isinstance(told, Quit)
        self._over = isinstance(told, Over) or self._over
        for who, text in self._teller.lines(told, self._session.state):
            self._printed += 1
            self._page.line(who, text)

    def run(self) -> int:
        session = self._session
        assert session is not None
        try:
            self._begin(session)
            while not self._left:
                self._step(session)
            return 0
        except KeyboardInterrupt:
            self._page.end_prompt()
            self._page.line(LESSON, farewell(session.state))
            raise
        finally:
            session.close()

    def _begin(self, session: Session) -> None:
        for who, text in self._teller.opening():
            self._page.line(who, text)
        for told in self._waiting:
            self._hear(told)
        at_once = session.state.telling.at_once and not session.state.telling.by_beat
        if Did("resume") in session.first:
            self._page.line(LESSON, "It goes on where you stopped.")
        jumps = any(isinstance(one, Did) and one.verb == "go to" for one in session.first)
        if not at_once and not jumps:
            self._where(session)
        elif at_once:
            for who, text in self._teller.first_position(session.state):
                self._page.line(who, text)
        session.start()
        if not at_once and jumps:
            self._where(session)

    def _where(self, session: Session) -> None:
        for who, text in self._teller.whereabouts(session.state):
            self._page.line(who, text)

    def _step(self, session: Session) -> None:
        """Let the lesson go on as far as it does by itself, then read one line."""
        due = session.due_ms()
        if due == 0:
            session.tick()
            return
        if due is not None and not self._world.stdin_is_terminal:
            # What is typed ahead into a pipe is for the next time that the lesson waits.
            self._world.clock.sleep(due)
            session.tick()
            return
        if due is None:
            if self._ended(session):
                return
            self._page.prompt()
        try:
            line = self._typing.line(due)
        except EOFError:
            self._end_of_input(session, prompted=due is None)
            return
        if line is None:
            session.tick()
            return
        self._answer(session, line, prompted=due is None)

    def _ended(self, session: Session) -> bool:
        """Whether a lesson told at once has come to its end, so that there is nobody to wait for."""
        telling = session.state.telling
        if session.state.over and telling.at_once and not telling.by_beat:
            self._left = True
        return self._left

    def _answer(self, session: Session, line: str, *, prompted: bool) -> None:
        if prompted and not self._world.stdin_is_terminal:
            self._page.typed(line)
        if line.strip() and not clean_line(line):  # an arrow, say, which a terminal sends as a sequence
            self._page.line(LESSON, "That key does nothing here. Type a move, or a word such as help.")
            return
        where = understand(session.state, line) == Did("where")
        before, held = self._printed, session.state.top.doing == "held"
        session.feed(Typed(line))
        session.settle()
        if self._printed == before and (line.strip() or held):
            self._say_how_it_stands(session)
        if where:
            for who, text in self._teller.ways_on(session.state):
                self._page.line(who, text)

    def _say_how_it_stands(self, session: Session) -> None:
        """A line is never taken in silence: whoever only hears it could not know that it was taken."""
        state = session.state
        if self._left:
            return
        if state.top.doing == "held":
            self._page.line(LESSON, "It waits. Enter goes on.")
        elif state.top.doing == "asked" and state.asked is not None:
            self._page.line(LESSON, f"The question stands: {state.asked.ask.text or 'your move'}")
        elif state.top.doing == "wandering":
            self._page.line(LESSON, "You are beside the lesson. Say 'home' to go back to it.")

    def _end_of_input(self, session: Session, *, prompted: bool) -> None:
        if prompted:
            self._page.end_prompt()
        telling = session.state.telling
        if telling.at_once and not telling.by_beat and telling.wait:
            session.feed(Did("wait", "off"))
        else:
            session.feed(Did("quit"))
