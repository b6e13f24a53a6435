"""The hands-free skin: a lesson that runs untouched, and is led by taps of one key or by voice."""

from __future__ import annotations

from collections import deque
from collections.abc import Callable
from typing import Protocol

from player.aloud import hand as hands
from player.aloud import hearing, opening, talk
from player.aloud.ears import Ears
from player.aloud.keys import Keys, NoKeys
from player.aloud.outs import After, Feed, Outs, Quiet, Show, Tell
from player.cues.sheet import Sheet
from player.session.session import Listener, Session, Told
from player.session.words import LESSON, YOU, Words, ended, farewell
from player.stage.happenings import Attempt, Note, Over, Quit, Say, Tuned
from player.stage.inputs import Did, Typed
from player.voice.ears.ear import Clip, Healed, Onset
from player.voice.speaker import Notice
from player.wording.prose import speakable
from player.world.clock import Clock

LOOK_MS = 10
"""How often the ear is asked, so that speech hushes within 150 ms of its beginning."""

TONE_MS = 300
"""The ear opens so long after its tone, not to hear that."""

PATIENCE_MS = 6_000
"""So long at most a question that would pass waits for somebody who is just speaking."""


class Page(Protocol):
    """What prints a line: who speaks, and what."""

    def line(self, who: str, text: str) -> None: ...


def play_aloud(
    sheet: Sheet,
    clock: Clock,
    page: Page,
    open_session: Callable[[Listener], Session],
    keys: Keys,
    ears: Ears | None = None,
    *,
    headphones: bool = False,
    notes: tuple[str, ...] = (),
    warned: bool = False,
) -> int:
    """Play a lesson to its end and leave, or until the learner leaves; 0.

    `notes` are said before it begins; the cautions too, unless the learner was `warned` before. What is said
    is printed, a line each. `ears` are closed at the end.
    """
    return _Playing(sheet, clock, page, open_session, keys, ears, headphones, notes, warned).run()


class _Playing:
    def __init__(
        self,
        sheet: Sheet,
        clock: Clock,
        page: Page,
        open_session: Callable[[Listener], Session],
        keys: Keys,
        ears: Ears | None,
        headphones: bool,
        notes: tuple[str, ...],
        warned: bool,
    ) -> None:
        self._warned = warned
        self._clock = clock
        self._page = page
        self._keys = keys
        self._ears = ears
        self._headphones = headphones
        self._notes = notes
        self._words = Words(sheet)
        self._hand = hands.Hand()
        self._talk = talk.Talk()
        self._answers: list[str] = []
        self._feeding = False
        self._after: deque[Did | Typed] = deque()
        self._printed = ""
        self._left = False
        self._farewell = ""
        self._end: int | None = None
        self._told = False
        self._late: int | None = None
        self._mode = ""
        self._key: object = None
        self._narrating: bool | None = None
        self._open_at: int | None = None
        self._before: list[Told] = []
        self._session: Session | None = None
        self._session = open_session(self._hear)

    # -- the lesson ----------------------------------------------------------------------------------------

    def _hear(self, told: Told) -> None:
        if self._session is None:  # while it is being opened
            self._before.append(told)
        elif isinstance(told, Say):
            self._print(self._words.who(told.standing), told.what.shown)
        elif isinstance(told, Attempt) and told.given:
            self._print(YOU, ended(self._words.understood(told.ask, told.meant)))
        elif isinstance(told, Note):
            for line in filter(str.strip, told.text.splitlines()):
                self._print(self._words.who(told.standing), line)
        elif isinstance(told, Quit):
            self._left = True
            self._farewell = "" if told.to else farewell(self._session.state)
        elif not isinstance(told, Over):
            text = self._words.own(told, self._session.state)
            if text and self._feeding and isinstance(told, Tuned | Notice):
                self._answers.append(text)
            elif text:
                self._print(LESSON, text)

    def _print(self, who: str, text: str) -> None:
        if text != self._printed:
            self._page.line(who, text)
        self._printed = text

    # -- running -------------------------------------------------------------------------------------------

    def run(self) -> int:
        session = self._session
        assert session is not None
        try:
            self._open(session)
            while not self._left:
                self._step(session)
            if self._farewell:
                self._say_through(session, self._farewell)
            return 0
        except KeyboardInterrupt:
            self._page.line(LESSON, farewell(session.state))
            raise
        finally:
            if self._ears is not None:
                self._ears.close()
            session.close()

    def _open(self, session: Session) -> None:
        """Cautions, what taps do, and the length; a tap goes on to the lesson at once."""
        for told in self._before:
            self._hear(told)
        listening = self._ears is not None
        first = opening.before(session, listening=listening, warned=self._warned)
        for text in (*first, *self._notes):
            if self._say_through(session, text):
                break
        session.start()

    def _say_through(self, session: Session, text: str) -> bool:
        """Say this and wait for its end; True where a tap cut it short."""
        self._tell(session, text)
        while session.speaking_own:
            if self._taps(session.due_ms() or 0):
                session.quiet()
                return True
            session.tick()
        return False

    def _taps(self, wait_ms: int | None) -> int:
        if self._session is not None and self._session.state.telling.at_once:
            return 0
        try:
            return self._keys.taps(wait_ms)
        except EOFError:
            self._keys = NoKeys(self._clock)
            return 0

    def _step(self, session: Session) -> None:
        """Wait for whatever comes first, and see to it."""
        wait = self._wait_ms(session)
        if wait is None and isinstance(self._keys, NoKeys) and self._ears is None:
            session.feed(Did("quit"))  # nobody can come any more
            return
        for _ in range(self._taps(wait)):
            self._talk = talk.interrupted(self._talk)
            self._hand, outs = hands.tapped(self._hand, session.state, self._clock.now_ms())
            self._perform(session, outs)
        self._listen(session)
        if not self._waits_for_speech(session):
            session.tick()
        self._pass(session)
        self._see_to_the_end(session)

    def _wait_ms(self, session: Session) -> int | None:
        now = self._clock.now_ms()
        lesson = LOOK_MS if self._late is not None and now < self._late else session.due_ms()
        due = [lesson, self._hand.due_ms(now), self._talk.due_ms(now)]
        if self._ears is not None:
            due.append(LOOK_MS)
        if self._after or self._undecided(session):
            due.append(LOOK_MS)
        if self._end is not None:
            due.append(max(0, self._end - now))
        return min((ms for ms in due if ms is not None), default=None)

    def _undecided(self, session: Session) -> bool:
        """Whether the end of our own words is still to be noted, by a menu, by the ear, or at the end."""
        if session.speaking_own:
            return False
        offer = self._hand.offer
        offered = offer is not None and offer.said_ms is None
        return offered or (self._talk.busy and self._talk.until_ms is None) or session.state.over

    def _pass(self, session: Session) -> None:
        now = self._clock.now_ms()
        speaking = session.speaking_own
        self._hand, outs = hands.passed(self._hand, session.state, now, speaking=speaking)
        self._perform(session, outs)
        in_speech = self._ears is not None and self._ears.in_speech
        speaking = session.speaking_own
        self._talk, outs = talk.passed(self._talk, now, speaking=speaking, in_speech=in_speech)
        self._perform(session, outs)
        if self._after and not session.speaking_own and not self._hand.busy:
            self._feed(session, self._after.popleft())

    def _see_to_the_end(self, session: Session) -> None:
        """A told lesson says so and leaves; the next of a series is offered for a moment."""
        if not session.state.over or self._left:
            self._end, self._told = None, False
            return
        if self._hand.busy or self._talk.busy or session.speaking:
            return
        now = self._clock.now_ms()
        sheet = session.state.sheet
        if not self._told:
            self._told = True
            self._tell(session, opening.at_the_end(sheet))
        elif self._end is None:
            waits = sheet.following is not None and not session.state.telling.at_once
            self._end = now + (opening.NEXT_MS if waits else 0)
        elif now >= self._end:
            session.feed(Did("quit"))

    # -- doing what hand and ear want ----------------------------------------------------------------------

    def _perform(self, session: Session, outs: Outs) -> None:
        for out in outs:
            if isinstance(out, Feed):
                self._feed(session, out.what)
            elif isinstance(out, After):
                self._after.append(out.what)
            elif isinstance(out, Tell):
                self._tell(session, out.text)
            elif isinstance(out, Show):
                self._print(LESSON, out.text)
            elif isinstance(out, Quiet):
                session.quiet()

    def _feed(self, session: Session, what: Did | Typed) -> None:
        """Feed the lesson; what it answers beside the telling is said."""
        self._feeding = True
        try:
            session.feed(what)
        finally:
            self._feeding = False
        answers, self._answers = self._answers, []
        if answers and not self._left:
            self._tell(session, " ".join(answers))

    def _tell(self, session: Session, text: str) -> None:
        self._print(LESSON, text)
        session.speak(speakable(text, language="en", naming=session.state.telling.naming))

    # -- listening -----------------------------------------------------------------------------------------

    def _listen(self, session: Session) -> None:
        ears = self._ears
        if ears is None:
            return
        trouble = ears.trouble()
        if trouble is not None:
            self._print(LESSON, trouble)
            ears.close()
            self._ears = None
            return
        while (report := ears.report()) is not None:
            self._reported(session, report)
        self._set(session, ears)

    def _reported(self, session: Session, report: object) -> None:
        if self._hand.busy and not isinstance(report, Onset):
            return  # the hand is asked first
        if isinstance(report, Onset):
            step = talk.onset(self._talk, session.state)
        elif isinstance(report, Healed):
            step = talk.healed(self._talk)
        elif isinstance(report, Clip):
            return
        else:
            help_ = hearing.can_be_said(self._talk, session.state)
            step = talk.heard(self._talk, session.state, report, help_=help_)  # type: ignore[arg-type]
        self._talk, outs = step
        self._perform(session, outs)

    def _set(self, session: Session, ears: Ears) -> None:
        """Have the ear listen for what can be said now, and open or shut."""
        state, now = session.state, self._clock.now_ms()
        key = (self._talk.stage, self._talk.meaning, self._talk.second, self._talk.held, state.top.doing,
               state.top.why, state.place, talk.ask_of(state))  # fmt: skip
        if key != self._key:
            self._key = key
            ears.listen_for(hearing.wanted(self._talk, state))
        narrating = session.speaking
        if narrating != self._narrating:
            self._narrating = narrating
            ears.narrates(narrating)
        mode = "held" if self._talk.held else "open" if self._headphones else "shut"
        if mode == "shut" and not narrating and hearing.is_open(self._talk, state):
            if self._open_at is None:
                wait = state.top.doing == "asked" and not self._talk.busy
                self._open_at = now + (TONE_MS if wait else 0)
                if wait:
                    session.tone()
            mode = "open" if now >= self._open_at else "shut"
        elif mode == "shut":
            self._open_at = None
        if mode != self._mode:
            self._mode = mode
            ears.mode(mode)

    def _waits_for_speech(self, session: Session) -> bool:
        """Whether a thinking silence must not end just now, since somebody is answering."""
        if self._ears is None or not self._ears.in_speech or session.state.top.doing != "asked":
            self._late = None
            return False
        now = self._clock.now_ms()
        if self._late is None and session.due_ms() == 0:
            self._late = now + PATIENCE_MS
        return self._late is not None and now < self._late
