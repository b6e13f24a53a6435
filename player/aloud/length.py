"""How long a lesson takes when it is only listened to: what is announced, and silences to think in, count."""

from __future__ import annotations

import re
from dataclasses import replace

from player.cues.sheet import Sheet, Step
from player.cues.starts import think_ms
from player.stage.state import Telling
from player.wording.pace import word_times
from player.wording.utterance import Utterance

ANSWER_MS = 1_800
"""What "The answer is knight to d2." takes to say, about."""

_LENGTH = re.compile(r"about \d+ minutes?")


def timed(sheet: Sheet, telling: Telling) -> Sheet:
    """The sheet whose opening says how long the lesson takes told this way, untouched."""
    if not sheet.steps:
        return sheet
    first = sheet.steps[0]
    if first.say is None or not first.ear_only:
        return sheet
    minutes = max(1, round(length_ms(sheet, telling) / 60_000))
    words = f"about {minutes} {'minute' if minutes == 1 else 'minutes'}"
    return replace(sheet, steps=(replace(first, say=_saying(first.say, words)), *sheet.steps[1:]))


def length_ms(sheet: Sheet, telling: Telling) -> int:
    """The estimated length told this way, when every question passes."""
    return round(sum(_step_ms(at, step, telling) for at, step in enumerate(sheet.steps)))


def _step_ms(at: int, step: Step, telling: Telling) -> float:
    if (step.extra and not telling.key_again) or (telling.questions_only and step.ask is None):
        return 0.0
    if step.ear_only and not telling.ear:
        return 0.0
    said, rest = _said_ms(step, telling), float(step.rest_ms)
    ask = step.ask
    if ask is not None and not telling.wait:
        rest += think_ms(ask) * telling.think
        if ask.because_given or ask.told != at + 1:
            because = ask.because if ask.because_given else ()
            said += ANSWER_MS / telling.speed + sum(_said_ms(one, telling) for one in because)
            rest += sum(one.rest_ms for one in because)
    return said + rest * telling.silence


def _said_ms(step: Step, telling: Telling) -> float:
    return word_times(step.say.spoken, telling.speed)[1] if step.say is not None and step.say.spoken else 0.0


def _saying(say: Utterance, words: str) -> Utterance:
    """The opening with another length; every word still stands for its own characters."""
    found = _LENGTH.search(say.shown)
    if found is None:
        return say
    longer = len(words) - (found.end() - found.start())
    inner = iter(
        (found.start() + one.start(), found.start() + one.end()) for one in re.finditer(r"\S+", words)
    )
    spans = tuple(
        (start, end)
        if start < found.start()
        else next(inner, (start, end))
        if start < found.end()
        else (start + longer, end + longer)
        for start, end in say.words
    )
    shown = say.shown[: found.start()] + words + say.shown[found.end() :]
    return replace(say, shown=shown, spoken=_LENGTH.sub(words, say.spoken, count=1), words=spans)
