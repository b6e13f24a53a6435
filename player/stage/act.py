"""One advance of the stage under way: the state as it changes, and the happenings so far.

Everything that tells steps lives here; questions, what-ifs and commands are built on it.
"""

from __future__ import annotations

from typing import Literal

from player.cues.sheet import Step, Track
from player.cues.starts import think_ms
from player.facts.place import Place
from player.script.told import Turn
from player.stage.copying import NOTHING, BoardWhy, Copy
from player.stage.happenings import (
    Board,
    Marked,
    Note,
    Noted,
    Over,
    Put,
    Quit,
    Reached,
    Role,
    Say,
    Scoped,
    Standing,
)
from player.stage.state import Asked, Frame, Why

TONE_MS = 2_000

WANTED = {
    "why": "Why is it right? A few words, or Enter.",
    "agreed": "Was that your reason? Yes, partly, or no; Enter goes on.",
    "effort": "Was it at once, with effort, or a guess? Enter leaves it open.",
}
"""What is asked of the learner once the answer has been told."""


class Act(Copy):
    """One advance under way: tells steps, opens and closes levels, and lets questions stand."""

    def note(self, text: str, standing: Standing = "program") -> None:
        """An answer to a command: read, or in ear mode said before the telling goes on."""
        if not self.state.telling.ear:
            self.emit(Note(text, standing))
            return
        self.push("note", (self.sentence(text, "note"),), self.top.place)

    # -- frames --------------------------------------------------------------------------------------------

    def push(
        self,
        why: Why,
        track: Track,
        place: Place,
        *,
        at: int = 0,
        until: int | None = None,
        then: Literal["resume", "ask", "go on"] = "resume",
        board_why: BoardWhy = "reply",
        move: str | None = None,
        left: tuple[int, ...] = (),
    ) -> None:
        """Open a level above what is being told, and begin telling it."""
        self.hush()
        before = self.top.place
        shown = self.top.shown
        if shown is not None and place != before:
            self.emit(Marked(NOTHING))
        end = len(track) if until is None else until
        frame = Frame(
            why,
            track,
            at,
            end,
            place,
            doing="wandering" if why == "what-if" else "saying",
            then=then,
            left=left,
            shown=shown if place == before else None,
        )
        self.set(frames=(*self.state.frames, frame))
        if place != before or move:
            self.emit(Board(place, move, board_why, self.flip))
        if why != "what-if":
            self.enter()

    def pop(self) -> None:
        """Close the top level and show the board below; nothing is told yet."""
        if self.top.why == "aside":
            self.rescope((), self.top.place)
        gone = self.top
        self.hush()
        self.set(frames=self.state.frames[:-1], which=None, pending=None)
        below = self.top
        if gone.why == "aside":
            self.set(scopes=gone.left)
        if below.place != gone.place:
            if gone.shown is not None:
                self.emit(Marked(NOTHING))
            self.emit(Board(below.place, None, "return", self.flip))
            if below.shown is not None:
                self.emit(Marked(below.shown))
        elif gone.shown != below.shown:
            self.emit(Marked(below.shown or NOTHING))

    def end_frame(self) -> None:
        """The top level has been told to its end."""
        then = self.top.then
        if len(self.state.frames) == 1:
            self.edit(doing="over", at=len(self.top.track), saying=0)
            self.rescope((), self.top.place)
            self.emit(Over())
            return
        self.pop()
        asked = self.top.asked
        if then == "go on" and asked is not None and asked.wants in ("why", "agreed", "effort"):
            self.edit(doing="asked")
            self.note(WANTED[asked.wants])
        elif then == "go on":
            self.edit(asked=None)
            self.next_step()
        else:
            self.take_up()

    def take_up(self) -> None:
        """Go on with what the top frame was doing when it was left."""
        doing = self.top.doing
        if doing == "saying" and self.state.telling.ear:
            # Whoever only listens has lost the thread: the sentence from its start.
            self.edit(ms=None, word=0)
            self.say_step()
        elif doing == "saying":
            self.say_step(from_word=max(0, self.top.word - 1) if self.top.ms is None else self.top.word)
        elif doing == "asked":
            self.think()
        elif doing == "resting":
            self.next_step()

    # -- steps ---------------------------------------------------------------------------------------------

    def enter(self) -> None:
        """Begin the step at `at`, passing over what is not said here; ends the frame past its last step."""
        while True:
            frame = self.top
            if frame.at >= frame.until:
                self.end_frame()
                return
            step = frame.track[frame.at]
            if self.pass_over(step):
                self.edit(at=frame.at + 1)
                continue
            if self.state.enough and frame.why == "lesson" and (step.ask or step.kind in ("part", "board")):
                self.edit(word=0, ms=None, landed=0, saying=0, doing="saying")
                self.set(quit=True, enough=False)
                self.emit(Quit())
                return
            self.edit(word=0, ms=None, landed=0, saying=0, doing="saying")
            if frame.why in ("lesson", "aside"):
                self.arrive(step)
            if step.say is not None and step.say.spoken and (self.state.telling.ear or not step.ear_only):
                self.say_step()
                return
            self.land(None)
            if self.finish(step):
                return
            self.edit(at=self.top.at + 1)

    def pass_over(self, step: Step) -> bool:
        """Whether this step is left out: a key question again, or telling in a session of questions."""
        if step.extra and (not self.state.telling.key_again or self.state.telling.questions_only):
            return True
        if not self.state.telling.questions_only or self.top.why != "lesson":
            return False
        return step.ask is None

    def arrive(self, step: Step) -> None:
        """Enter a step of the sheet cold: scopes, board, flip, notebook, resume point."""
        frame = self.top
        if step.flip != self.state.flip:
            before = self.flip
            self.set(flip=step.flip)
            if self.flip != before:
                self.emit(Board(frame.place, None, "seek", self.flip))
        self.rescope(step.scopes, step.before)
        ahead = frame.ahead is not None and frame.at <= frame.ahead_till
        if not ahead:
            if frame.ahead is not None:
                self.edit(ahead=None)
            if self.top.place != step.before:
                why: BoardWhy = (
                    "return" if step.kind == "return" else "board" if step.kind == "board" else "seek"
                )
                self.board(step.before, why)
        if frame.why == "lesson":
            starts = self.state.sheet.starts
            self.emit(Reached(step.key, starts[frame.at] if frame.at < len(starts) else 0))
        if step.kind == "board" and self.top.place != step.after:
            self.board(step.after, "board")
        if step.idea and step.idea not in self.state.notebook:
            self.set(notebook=(*self.state.notebook, step.idea))
            self.emit(Noted(step.idea, self.state.sheet.ideas.get(step.idea, "")))

    def rescope(self, scopes: tuple[int, ...], before: Place) -> None:
        """Close and open asides and imagined positions until exactly these are open."""
        was = self.state.scopes
        same = 0
        while same < min(len(was), len(scopes)) and was[same] == scopes[same]:
            same += 1
        for scope in reversed(was[same:]):
            self.unmark()
            self.emit(Scoped(scope, False))
        for scope in scopes[same:]:
            self.unmark()
            self.emit(Scoped(scope, True))
            kind = self.state.sheet.scopes[scope].kind
            if scope == scopes[-1] and self.top.place != before:
                self.board(before, "imagined" if kind == "imagine" else "aside")
        self.set(scopes=scopes)

    def say_step(self, from_word: int = 0) -> None:
        """Say the top frame's step, from a word or from where it was hushed."""
        frame = self.top
        step = frame.step
        if step is None:
            self.end_frame()
            return
        if step.say is None or not step.say.spoken:
            self.land(None)
            if not self.finish(step):
                self.next_step()
            return
        number = self.state.sayings + 1
        self.set(sayings=number)
        self.edit(saying=number, doing="saying")
        self.emit(
            Say(
                number,
                step.say,
                self.role(step),
                self.standing(step),
                step.key,
                step.line,
                len(self.state.scopes),
                min(from_word, len(step.say.words) - 1),
                frame.ms,
            )
        )

    def role(self, step: Step) -> Role:
        why = self.top.why
        if why in ("lesson", "aside"):
            if step.kind == "ask":
                return "question"
            if step.kind in ("part", "enter", "return"):
                return step.kind
            return "announce" if step.ear_only else "tell"
        return "note" if why == "note" else "nudge" if why == "nudge" else "reply"

    def standing(self, step: Step) -> Standing:
        """Whose word it is: a step of the script is the coach's, unless the program announces it."""
        marked = step.key.partition(":")[2]
        if marked in ("board", "engine", "search", "unknown", "program"):
            return marked  # type: ignore[return-value]
        if self.top.why == "note" or step.ear_only:
            return "program"
        return "coach"

    def land(self, words: int | None) -> None:
        """Let the cues happen whose word has begun; all that are left where `words` is None."""
        step = self.top.step
        if step is None:
            return
        while self.top.landed < len(step.cues):
            cue = step.cues[self.top.landed]
            if words is not None and cue.word >= words:
                return
            self.edit(landed=self.top.landed + 1)
            if isinstance(cue.do, Turn):
                self.land_turn(cue.do)
            else:
                self.edit(shown=cue.do if cue.do.marks else None)
                self.emit(Marked(cue.do))

    def land_turn(self, turn: Turn) -> None:
        self.unmark()
        if self.top.place != turn.after:
            self.board(turn.after, "told", turn.uci)
        if self.top.ahead is not None and self.top.at >= self.top.ahead_till:
            self.edit(ahead=None)
        told = {
            s.ask.key
            for s in self.state.sheet.steps
            if s.ask is not None and not s.extra and s.ask.answer == turn
        }
        if told - self.state.seen:
            self.set(seen=self.state.seen | told)

    def finish(self, step: Step) -> bool:
        """A step has been told: True where something now waits, False where the next one follows at once."""
        telling = self.state.telling
        if step.ask is not None and self.top.why in ("lesson", "aside"):
            self.put(step)
            return True
        frame = self.top
        if telling.by_beat and frame.why in ("lesson", "aside") and self.beat_ends(frame, step):
            self.edit(doing="paced", saying=0)
            return True
        if frame.at + 1 >= frame.until and frame.why == "lesson":
            return False
        rest = 0 if telling.at_once else round(step.rest_ms * telling.silence)
        said = step.say is not None and (telling.ear or not step.ear_only)
        if rest <= 0 or not (said or step.kind == "rest"):
            return False
        self.edit(doing="resting", saying=0)
        self.wake_in(rest)
        return True

    def beat_ends(self, frame: Frame, step: Step) -> bool:
        """Whether something was told in this beat and the next audible step belongs to another one."""
        if step.say is None or (step.ear_only and not self.state.telling.ear):
            return False
        for later in frame.track[frame.at + 1 : frame.until]:
            if later.ear_only and not self.state.telling.ear:
                continue
            if later.ask is not None:
                return False
            if later.say is not None:
                return later.beat != step.beat
        return True

    def next_step(self) -> None:
        self.edit(at=self.top.at + 1)
        self.enter()

    # -- questions stand -----------------------------------------------------------------------------------

    def put(self, step: Step) -> None:
        """The question has been asked: it stands until answered, told or passed."""
        assert step.ask is not None
        asked = self.top.asked
        if asked is None or asked.ask.key != step.ask.key:
            first = "reason first" in step.ask.manner and self.state.telling.wait
            asked = Asked(step.ask, wants="reason" if first else "")
        self.edit(doing="asked", saying=0, asked=asked)
        self.emit(Put(step.ask, self.think_ms()))
        self.think()
        if asked.wants == "reason":
            self.note(
                "First your reason, in a few words; then the answer. Enter goes straight to the answer."
            )

    def think_ms(self) -> int | None:
        telling = self.state.telling
        asked = self.top.asked
        if telling.wait or asked is None:
            return None
        if telling.at_once:
            return 0
        return round(think_ms(asked.ask) * telling.think * telling.silence)

    def think(self) -> None:
        """Let the thinking silence run, where there is one."""
        self.edit(doing="asked")
        ms = self.think_ms()
        if ms is not None:
            self.wake_in(ms, TONE_MS if ms > TONE_MS else None)

    def hold(self) -> None:
        """Stop until the learner goes on; what was going on is kept."""
        self.hush()
        if self.top.doing != "held":
            self.edit(was=self.top.doing, doing="held")

    def let_go(self) -> None:
        """Go on with what was held."""
        self.edit(doing=self.top.was)
        self.take_up()
