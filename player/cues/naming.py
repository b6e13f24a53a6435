"""The same sheet with its squares named another way: letters, the names for blind play, or the alphabet."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from player.cues.sheet import Ask, Cue, Reply, Sheet, Step, Track
from player.wording.prose import speakable
from player.wording.say import Naming
from player.wording.utterance import Utterance


def renamed(sheet: Sheet, naming: Naming) -> Sheet:
    """Every utterance spoken anew, what is shown left as it was; cues stay at the same characters."""
    return replace(sheet, steps=tuple(step_renamed(step, naming, sheet.lexicon) for step in sheet.steps))


def step_renamed(step: Step, naming: Naming, lexicon: Mapping[str, str]) -> Step:
    ask = ask_renamed(step.ask, naming, lexicon) if step.ask is not None else None
    if step.say is None or not step.say.spoken:
        return replace(step, ask=ask)
    said = speakable(step.say.shown, language=step.say.language, naming=naming, lexicon=lexicon)
    cues = tuple(replace(cue, word=moved(cue, step.say, said)) for cue in step.cues)
    return replace(step, say=said, cues=cues, ask=ask)


def moved(cue: Cue, before: Utterance, after: Utterance) -> int:
    """The word at which a cue falls now."""
    if cue.word >= len(before.words):
        return len(after.words)
    return after.word_at(before.words[cue.word][0])


def ask_renamed(ask: Ask, naming: Naming, lexicon: Mapping[str, str]) -> Ask:
    def track(steps: Track) -> Track:
        return tuple(step_renamed(step, naming, lexicon) for step in steps)

    def replies(some: tuple[Reply, ...]) -> tuple[Reply, ...]:
        return tuple(replace(one, track=track(one.track)) for one in some)

    return replace(
        ask,
        also=replies(ask.also),
        replies=replies(ask.replies),
        otherwise=track(ask.otherwise),
        because=track(ask.because),
        nudges=tuple(track(one) for one in ask.nudges),
    )
