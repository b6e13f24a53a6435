"""A running lesson in the world: performs what the stage asks for, for every skin alike."""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Sequence
from typing import Protocol

from player.facts.place import Place
from player.session.ahead import coming
from player.session.later import Later
from player.session.learn import Learn, learn_or_own
from player.session.nudged import Apart
from player.session.speakers import Voices
from player.stage.advance import advance
from player.stage.happenings import Asleep, Happening, Hush, Need, Say, Tuned, Wake
from player.stage.inputs import Did, Finished, Heard, Input, Learnt, Typed, Woke
from player.stage.state import State
from player.voice.speaker import Notice
from player.wording.utterance import Utterance
from player.world.clock import Clock
from player.world.trouble import Trouble, in_words

Told = Happening | Notice
"""What a listener is told: a happening of the lesson, or a sentence about the voice or the place kept."""

Listener = Callable[[Told], None]


class Scribe(Protocol):
    """Keeps what moves the lesson, so that it can be taken up again; raises OSError where it cannot."""

    def input(self, given: Input) -> None: ...

    def happened(self, happening: Happening) -> None: ...

    def close(self) -> None: ...


class Keeper(Scribe, Protocol):
    """Keeps what the learner did beyond this lesson.

    `input` and `happened` raise OSError or Trouble where it cannot; `begin` and `catch_up` never do.
    """

    def begin(self, run: str) -> None:
        """What follows belongs to this run through a lesson, which begins now."""

    def catch_up(self, run: str, told: Sequence[Input | Happening]) -> None:
        """This is all that was told in a run so far; some of it may be kept already. It may go on."""


class Session:
    """Feeds the stage and performs its happenings through a speaker, a clock and a journal.

    Nothing runs by itself: whoever owns the session calls `tick` when `due_ms` says so, and `feed` with what
    the learner does. Listeners get everything in order, and may look at `state`; they may feed, too.
    """

    def __init__(
        self,
        state: State,
        voices: Voices,
        clock: Clock,
        journal: Scribe | None = None,
        learn: Learn | Later | None = None,
        *,
        first: Sequence[Input] = (Did("start"),),
        listener: Listener | None = None,
        keeper: Keeper | None = None,
    ) -> None:
        self.state = state
        self._voices = voices
        self._clock = clock
        self._journal = journal
        self._keeper = keeper
        self._learn = learn
        self._nudges = Apart(clock)
        self._first = tuple(first)
        self._started = False
        self._listeners: list[Listener] = [listener] if listener else []
        self._queue: deque[Input] = deque()
        self._feeding = False
        self._saying: Say | None = None
        self._wake: tuple[int, int, int | None] | None = None
        self._own = 0
        self._owns = False

    def listen(self, listener: Listener) -> None:
        """Hand everything from now on to this listener too."""
        self._listeners.append(listener)

    @property
    def first(self) -> tuple[Input, ...]:
        """The inputs with which it starts."""
        return self._first

    def tell(self, notice: Notice) -> None:
        """Hand a sentence to the listeners."""
        for listener in self._listeners:
            listener(notice)

    def start(self) -> None:
        """Begin, or take up where the journal stopped; only the first call does anything."""
        if self._started:
            return
        self._started = True
        if isinstance(self._learn, Later):
            self._learn.start()
        pending = self.state.pending
        for given in self._first:
            self._put(given)
        if pending is not None and self.state.pending == pending and self.state.asked is not None:
            # It stopped before the truth about a try had come.
            place = self.state.asked.ask.place
            for given in self._needed(pending.need, place, pending.move):
                self._put(given)

    def feed(self, given: Input) -> None:
        """Something happened, mostly the learner's doing; all that follows from it at once is performed."""
        if not self._started:
            self.start()
            if given in (Did("start"), Did("resume")):
                return
        if isinstance(given, Typed | Did):
            self._hear()
        self._put(self._nudges.marked(self.state, given))

    def speak(self, what: Utterance) -> None:
        """Say something that is the skin's own and no part of the lesson, hushing what is said.

        The lesson should be held. Nothing of it is kept; `speaking` tells when it has been said.
        """
        self.quiet()
        self._own -= 1
        self._owns = True
        self._voices.say(self.state.telling, self._own, what)

    def quiet(self) -> None:
        """End what `speak` began, in mid-word."""
        if self._owns:
            self._owns = False
            self._voices.hush()

    def tone(self) -> None:
        """A soft tone."""
        self._voices.tone()

    @property
    def speaking(self) -> bool:
        """Whether something is being said, of the lesson or of the skin's own."""
        return self._owns or self.state.top.doing == "saying"

    @property
    def speaking_own(self) -> bool:
        """Whether what `speak` began is still being said."""
        return self._owns

    def tick(self) -> None:
        """Take what voice and clock have brought; what the skin said before the start is heard out first."""
        if not self._owns:
            self.start()
        self._hear()
        if self._wake is None:
            return
        number, due, tone = self._wake
        now = self._clock.now_ms()
        if tone is not None and tone <= now:
            self._wake = (number, due, None)
            self._voices.tone()
        if due <= now:
            self._wake = None
            self._put(Woke(number))

    def due_ms(self) -> int | None:
        """Milliseconds until `tick` is wanted next; None while only the learner is waited for."""
        if not self._started and not self._owns:
            return 0
        due = [self._voices.due_ms()]
        if isinstance(self._learn, Later):
            due.append(self._learn.due_ms())
        if self._wake is not None:
            _, at, tone = self._wake
            due.append(max(0, (at if tone is None else tone) - self._clock.now_ms()))
        return min((ms for ms in due if ms is not None), default=None)

    def settle(self) -> None:
        """Tick for as long as something is due at once."""
        while self.due_ms() == 0:
            self.tick()

    def close(self) -> None:
        """Let go of the voice and the journal; the place is kept."""
        self.quiet()
        heard = self._voices.hush()
        if heard is not None and not self._feeding:
            self._put(heard)
        self._voices.close()
        if isinstance(self._learn, Later):
            self._learn.close()
        for record in (self._journal, self._keeper):
            if record is not None:
                record.close()

    # -- performing ----------------------------------------------------------------------------------------

    def _hear(self) -> None:
        slow = self._learn.poll() if isinstance(self._learn, Later) else ()
        for event in (*self._voices.poll(), *slow):
            if isinstance(event, Notice):
                self.tell(event)
            elif isinstance(event, Heard | Finished) and event.saying < 0:
                self._owns = self._owns and not (isinstance(event, Finished) and event.saying == self._own)
            else:
                self._put(event)

    def _put(self, given: Input) -> None:
        self._queue.append(given)
        if self._feeding:
            return
        self._feeding = True
        try:
            while self._queue:
                self._advance(self._queue.popleft())
        finally:
            self._feeding = False

    def _advance(self, given: Input) -> None:
        self._keep(given)
        self.state, happenings = advance(self.state, given)
        answers: list[Input] = []
        for happening in happenings:
            self._keep(happening)
            answers += self._perform(happening)
            for listener in self._listeners:
                listener(happening)
        self._queue.extendleft(reversed(answers))

    def _perform(self, happening: Happening) -> list[Input]:
        """Do what the world must do; what comes back at once is the next input."""
        if isinstance(happening, Say):
            self._say(happening)
        elif isinstance(happening, Hush):
            return self._hush()
        elif isinstance(happening, Wake):
            now = self._clock.now_ms()
            due = now + happening.after_ms
            tone = None if happening.tone_ms is None else max(now, due - happening.tone_ms)
            self._wake = (happening.wake, due, tone)
        elif isinstance(happening, Asleep):
            self._wake = None
        elif isinstance(happening, Need):
            return self._needed(happening.need, happening.place, happening.move)
        elif isinstance(happening, Tuned) and happening.name in ("voice", "at_once", "by_beat"):
            return self._change_voice()
        return []

    def _say(self, say: Say) -> None:
        self.quiet()
        self._saying = say
        telling = self.state.telling
        self._voices.say(telling, say.saying, say.what, from_word=say.from_word, from_ms=say.from_ms)
        self._voices.ahead(coming(self.state), speed=telling.speed)

    def _hush(self) -> list[Input]:
        self.quiet()
        heard = self._voices.hush()
        self._saying = None
        return [] if heard is None else [heard]

    def _change_voice(self) -> list[Input]:
        """Another voice takes over in mid-sentence, from the word under way."""
        self.quiet()
        say = self._saying
        heard = self._voices.hush()
        if say is None or heard is None:
            return []
        word = max(0, heard.word - 1)
        self._voices.say(self.state.telling, say.saying, say.what, from_word=word)
        return [Heard(heard.saying, heard.ms, heard.word)]

    def _needed(self, need: int, place: Place, move: str) -> list[Input]:
        """The truth about a move, if it is to be had at once; else it comes when it is found."""
        if isinstance(self._learn, Later):
            self._learn.ask(need, place, move)
            return []
        sentence, standing = learn_or_own(self._learn, place, move)
        return [Learnt(need, sentence, standing)]

    def _keep(self, what: Input | Happening) -> None:
        """Write to journal and record; a disk that fails costs what would be kept, never the lesson."""
        if self._journal is not None:
            try:
                _write(self._journal, what)
            except OSError:
                journal, self._journal = self._journal, None
                journal.close()
                self.tell(
                    Notice("Your place in this lesson can no longer be kept, since the disk refuses it.")
                )
        if self._keeper is not None:
            try:
                _write(self._keeper, what)
            except (OSError, Trouble) as error:
                keeper, self._keeper = self._keeper, None
                keeper.close()
                self.tell(Notice(f"Your answers are not kept from here on. {_why(error)}"))


def _why(error: OSError | Trouble) -> str:
    return in_words(error) if isinstance(error, OSError) else str(error)


def _write(scribe: Scribe, what: Input | Happening) -> None:
    if isinstance(what, Input):
        scribe.input(what)
    else:
        scribe.happened(what)
