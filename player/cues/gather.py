"""A sheet made of questions out of several lessons, each with its position, side tracks and answer."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from player.cues.keys import digest
from player.cues.sheet import Ask, Sheet, Step
from player.cues.starts import starts
from player.wording.prose import speakable


@dataclass(frozen=True)
class Picked:
    """A question of a lesson: the sheet, the index of the step that asks, a sentence told before it,
    and the lesson's path, "" for one that cannot be gone to.
    """

    sheet: Sheet
    index: int
    opening: str = ""
    lesson: str = ""


def gathered(title: str, picked: Sequence[Picked], *, farewell: str = "") -> Sheet:
    """The questions in this order, each on its own position, followed by the beat that tells its answer.

    Asides are left, and words between a question and its answer are not told. Of one question asked twice the
    steps have different keys. ValueError where nothing is picked.
    """
    if not picked:
        raise ValueError("a sheet of questions needs one question at least")
    steps: list[Step] = []
    beat = 0
    for number, one in enumerate(picked):
        beat += 1
        steps += _item(one, number, len(steps), beat)
    if farewell:
        steps.append(_told(farewell, f"{digest('farewell', title)}:program", steps[-1], beat + 1))
    first = picked[0].sheet
    lexicon = {word: said for one in picked for word, said in one.sheet.lexicon.items()}
    ideas = {name: words for one in picked for name, words in one.sheet.ideas.items()}
    return Sheet(
        title=title,
        coach=first.coach if len({one.sheet.coach for one in picked}) == 1 else "",
        side=first.side,
        language=first.language,
        steps=tuple(steps),
        parts=(),
        scopes=(),
        ideas=ideas,
        starts=starts(steps),
        lexicon=lexicon,
        origins={
            step.ask.key: (one.lesson, step.key)
            for one in picked
            if one.lesson and (step := one.sheet.steps[one.index]).ask is not None
        },
    )


def _item(one: Picked, number: int, at: int, beat: int) -> list[Step]:
    """The steps of one question, the first of them being number `at` of the new sheet."""
    source = one.sheet.steps[one.index]
    assert source.ask is not None
    key = f"{source.ask.key}-{number}"
    steps: list[Step] = []
    if one.opening:
        steps.append(_told(one.opening, f"{digest('opening', key)}:program", source, beat))
    before = one.sheet.steps[one.index - 1] if one.index else None
    if before is not None and before.ear_only and before.beat == source.beat:
        steps.append(_moved(before, f"{key}-position", beat))
    told = at + len(steps) + 1 if source.ask.told is not None else None
    steps.append(replace(_moved(source, f"{key}-ask", beat), ask=replace(source.ask, told=told)))
    steps += [
        _moved(step, f"{key}-answer-{count}", beat)
        for count, step in enumerate(_answer(one.sheet, source.ask))
    ]
    return steps


def _answer(sheet: Sheet, ask: Ask) -> list[Step]:
    """The step that tells the answer, and the rest of its beat."""
    if ask.told is None:
        return []
    first = sheet.steps[ask.told]
    out = [first]
    for step in sheet.steps[ask.told + 1 :]:
        if step.beat != first.beat or step.scopes != first.scopes or step.ask is not None:
            break
        out.append(step)
    return out


def _moved(step: Step, key: str, beat: int) -> Step:
    return replace(step, key=key, part=-1, beat=beat, scopes=(), stamp_ms=None)


def _told(text: str, key: str, like: Step, beat: int) -> Step:
    """A sentence of the program's own over the position of another step."""
    place = like.before if like.ask is not None else like.after
    return Step(
        key, like.line, -1, beat, (), "board", place, place, speakable(text), rest_ms=700, flip=like.flip
    )
