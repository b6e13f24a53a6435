"""Answers by voice, as a pure state machine: verdicts of the ear and time go in; what the lesson is fed, and
what is said, come out.

Nothing counts before it was said back: "Knight to f3. Say no if not.", and a moment to say no. What is in
doubt is asked about. Speech that was not for the lesson changes nothing. Times are milliseconds of any clock.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Literal

import chess

from player.aloud.outs import After, Feed, Out, Outs, Quiet, Tell
from player.cues.sheet import Ask
from player.stage.inputs import Did, Typed
from player.stage.state import State
from player.voice.ears.heard import Doubt, Heard, Names, Verdict, in_words
from player.wording.say import Naming, say

CANCEL_MS = 2_000
"""How long "no" is waited for after a move was said back."""

DOUBT_MS = 6_000
"""How long the answer to a question back is waited for."""

SPEAKING_MS = 4_000
"""How much longer, where somebody is just speaking."""

SAY_NO = "Say no if not."
AGAIN = "Then say it again."
HEAVY = ("quit", "tell me", "skip")
"""Commands that cannot be taken back: they are said back, too."""

Stage = Literal["idle", "back", "doubt", "confirm"]
_GOING = ("saying", "resting", "asked")


@dataclass(frozen=True, slots=True)
class Talk:
    """What stands between ear and lesson.

    `meaning` is what was said back, or may have been meant; `second` the other of two. `until_ms` is when the
    waiting ends, None while it has not begun. `going` tells whether the lesson was going on before, `hushed`
    whether speech over the narration has hushed it, `held` whether "hold" was said.
    """

    stage: Stage = "idle"
    meaning: str = ""
    second: str = ""
    until_ms: int | None = None
    going: bool = False
    hushed: bool = False
    held: bool = False
    names: Names = field(default_factory=Names)

    @property
    def busy(self) -> bool:
        """Whether something is waited for from the learner."""
        return self.stage != "idle"

    def due_ms(self, now_ms: int) -> int | None:
        """Milliseconds until `passed` is wanted; None where only an ear matters."""
        return None if self.until_ms is None else max(0, self.until_ms - now_ms)


Step = tuple[Talk, Outs]


def onset(talk: Talk, state: State) -> Step:
    """Somebody speaks over the narration: it is hushed at once."""
    if talk.busy or state.top.doing not in _GOING:
        return talk, (Quiet(),)
    return replace(talk, hushed=True, going=True), (Quiet(), Feed(Did("pause")))


def healed(talk: Talk) -> Step:
    """What hushed the narration had no words for us: the sentence starts again."""
    if not talk.hushed or talk.busy:
        return talk, ()
    return replace(talk, hushed=False, going=False), (Feed(Did("go on")),)


def heard(talk: Talk, state: State, verdict: Verdict, *, help_: str = "") -> Step:
    """The ear has judged a clip. `help_` is the answer to "what can I say?"."""
    if talk.held:
        if isinstance(verdict, Heard) and verdict.meanings == ("go on",):
            return replace(_idle(talk), held=False), (Feed(Did("go on")),)
        return talk, ()
    if talk.stage == "back":
        return _back(talk, state, verdict)
    if talk.stage in ("doubt", "confirm"):
        return _settled(talk, state, verdict)
    if isinstance(verdict, Doubt):
        return _doubted(talk, state, verdict)
    if isinstance(verdict, Heard):
        names = _noted(talk, verdict)[0]
        return _meant(replace(talk, names=names), state, verdict, help_)
    return talk, ()


def passed(talk: Talk, now_ms: int, *, speaking: bool, in_speech: bool) -> Step:
    """Time has passed; `speaking` tells whether our own words are still being said."""
    if not talk.busy or speaking:
        return talk, ()
    if talk.until_ms is None:
        wait = CANCEL_MS if talk.stage == "back" else DOUBT_MS
        return replace(talk, until_ms=now_ms + wait), ()
    if now_ms < talk.until_ms or (in_speech and now_ms < talk.until_ms + SPEAKING_MS):
        return talk, ()
    if talk.stage == "back":
        return _accepted(talk)
    return _dropped(talk)


def interrupted(talk: Talk) -> Talk:
    """The hand has taken over: what was waited for is dropped."""
    return replace(_idle(talk), held=False)


# -- what was heard ----------------------------------------------------------------------------------------


def _meant(talk: Talk, state: State, verdict: Heard, help_: str) -> Step:
    meanings = verdict.meanings
    if meanings[0] in ("yes", "no"):  # too late, or never asked for
        return _dropped(talk)
    if len(meanings) == 2:
        return _doubted(talk, state, Doubt(verdict.phrase, meanings[0], meanings[1], verdict.sure))
    if len(meanings) > 2:  # the lesson asks which
        return _idle(talk), (*_going_on(talk), Feed(Typed(verdict.phrase)))
    meaning = meanings[0]
    if meaning in HEAVY or not is_command(meaning):
        return _said_back(talk, state, meaning)
    return _commanded(talk, state, meaning, help_)


def is_command(meaning: str) -> bool:
    """Whether a meaning is a verb of the registry."""
    from player.stage.registry import BY_NAME

    return meaning in BY_NAME


def _commanded(talk: Talk, state: State, verb: str, help_: str) -> Step:
    """A command that harms nothing is done at once."""
    going = _going_on(talk)
    if verb == "hold":
        return replace(_idle(talk), held=True), (Quiet(), *going, Feed(Did("hold")))
    if verb == "help":
        stop = _stopped(talk, state)
        return _idle(talk), (*stop, Tell(help_), *_after(talk, state))
    if verb == "go on":
        return _idle(talk), (Feed(Did("go on")),)
    if verb == "pause":
        return _idle(talk), () if talk.hushed else (Feed(Did("pause")),) if _goes(state) else ()
    if verb == "repeat":
        return _idle(talk), (Feed(Did("repeat")),)
    return _idle(talk), (*going, Feed(Did(verb)))


def _said_back(talk: Talk, state: State, meaning: str) -> Step:
    text = f"{named(state, meaning)}. {SAY_NO}"
    going = talk.going or _goes(state)
    talk = replace(talk, stage="back", meaning=meaning, second="", until_ms=None, going=going)
    return talk, (*_stopped(talk, state), Tell(text))


def _doubted(talk: Talk, state: State, verdict: Doubt) -> Step:
    names, offer = _noted(talk, verdict)
    asked = [named(state, one, "fide") for one in (verdict.first, verdict.second) if one]
    text = " ".join(filter(None, (f"Did you mean {' or '.join(_inside(one) for one in asked)}?", offer)))
    talk = replace(
        talk,
        stage="doubt" if verdict.second else "confirm",
        meaning=verdict.first,
        second=verdict.second,
        until_ms=None,
        going=talk.going or _goes(state),
        names=names,
    )
    return talk, (*_stopped(talk, state), Tell(text))


def _back(talk: Talk, state: State, verdict: Verdict) -> Step:
    """After the move was said back."""
    meaning = verdict.meanings[0] if isinstance(verdict, Heard) else ""
    if meaning == "yes":
        return _accepted(talk)
    if meaning == "no":
        return _refused(talk)
    if meaning == "hold":
        return replace(_idle(talk), held=True), (Quiet(), *_going_on(talk), Feed(Did("hold")))
    return talk, ()


def _settled(talk: Talk, state: State, verdict: Verdict) -> Step:
    """After "did you mean A or B?"."""
    if not isinstance(verdict, Heard):
        return talk, ()
    meaning = verdict.meanings[0]
    if meaning == "no":
        return _refused(talk)
    if meaning == "yes" and talk.stage == "confirm":
        return _accepted(talk)
    if meaning in (talk.meaning, talk.second) and meaning:
        if is_command(meaning):
            return _accepted(replace(talk, meaning=meaning))
        return _said_back(talk, state, meaning)
    return talk, ()


def _accepted(talk: Talk) -> Step:
    """It counts."""
    meaning = talk.meaning
    given = Did(meaning) if is_command(meaning) else Typed(meaning)
    return _idle(talk), (Quiet(), *_going_on(talk), Feed(given))


def _refused(talk: Talk) -> Step:
    names = replace(talk.names)
    offer = names.refused()
    after: Outs = (After(Did("go on")),) if talk.going else ()
    return replace(_idle(talk), names=names), (Quiet(), Tell(f"{AGAIN} {offer}".strip()), *after)


def _dropped(talk: Talk) -> Step:
    """Nobody answered what was asked back: it was not for us."""
    return _idle(talk), _going_on(talk)


# -- small parts -------------------------------------------------------------------------------------------


def named(state: State, meaning: str, naming: Naming | None = None) -> str:
    """A meaning as it is said: a move, a command, or an answer in its own words."""
    board = board_of(state)
    if naming is None and (move := next((m for m in board.legal_moves if m.uci() == meaning), None)):
        text = say(board, move, naming=state.telling.naming).words
    else:
        text = in_words(board, meaning, naming or state.telling.naming).strip('"')
    return f"{text[:1].upper()}{text[1:]}"


def board_of(state: State) -> chess.Board:
    """The board on which a spoken move is meant."""
    ask = ask_of(state)
    return ask.place.board() if ask is not None else state.place.board()


def ask_of(state: State) -> Ask | None:
    """The question that can be answered now: the one that stands, or the one that is being asked."""
    top = state.top
    if any(frame.why == "what-if" for frame in state.frames):
        return None
    if state.asked is not None:
        return None if state.asked.wants else state.asked.ask
    being_asked = top.step is not None and top.why in ("lesson", "aside") and top.doing != "over"
    return top.step.ask if being_asked and top.step is not None else None


def _inside(text: str) -> str:
    return f"{text[:1].lower()}{text[1:]}"


def _noted(talk: Talk, verdict: Verdict) -> tuple[Names, str]:
    names = replace(talk.names)
    return names, names.note(verdict)


def _idle(talk: Talk) -> Talk:
    return Talk(names=talk.names, held=talk.held)


def _goes(state: State) -> bool:
    return state.top.doing in _GOING


def _stopped(talk: Talk, state: State) -> tuple[Out, ...]:
    return (Quiet(), Feed(Did("pause"))) if _goes(state) else (Quiet(),)


def _going_on(talk: Talk) -> tuple[Out, ...]:
    """Let go of what was stopped for our own words, or by speech over the narration."""
    return (Feed(Did("go on")),) if talk.going else ()


def _after(talk: Talk, state: State) -> tuple[Out, ...]:
    return (After(Did("go on")),) if talk.going or _goes(state) else ()
