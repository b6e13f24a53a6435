"""A model game that fades: its last move is asked, then its last three, then the whole plan."""

from __future__ import annotations

from dataclasses import replace

import chess

from player.cues.insert import inserted
from player.cues.keys import ask_key
from player.cues.sheet import Ask, Sheet, Step
from player.facts.place import Place
from player.script.told import Turn
from player.wording.announce import lesson_opening
from player.wording.prose import speakable
from player.wording.utterance import Utterance

LEVELS = (0, 1, 3, None)
"""How many of the learner's moves are asked when the game is heard for the first time, the second, and so on;
None for all of them."""


def faded(sheet: Sheet, count: int | None) -> Sheet:
    """The sheet with the last `count` moves of its side's longest game asked, all for None.

    A sentence in whose middle such a move stands is told in pieces. A move that a question asks already, or
    that is said by the same word as the one before, is not asked.
    """
    found = _askable(sheet)
    chosen = found if count is None else found[max(0, len(found) - count) :]
    by_step: dict[int, list[int]] = {}
    for index, cue in chosen:
        by_step.setdefault(index, []).append(cue)
    steps = list(sheet.steps)
    put: dict[int, list[Step]] = {}
    for index, cues in by_step.items():
        pieces: list[Step] = []
        rest = steps[index]
        taken = 0
        for number in cues:
            head, rest = _split(rest, number - taken)
            taken = number if head else taken
            turn = rest.cues[number - taken].do
            assert isinstance(turn, Turn)
            pieces += [*head, _ask(rest, turn)]
        put[index] = pieces
        steps[index] = rest
    made = inserted(replace(sheet, steps=tuple(steps)), put)
    told = [_answered(made.steps, number) for number in range(len(made.steps))]
    if told and told[0].ear_only:
        text = lesson_opening(made.title, made.coach, made.starts[-1], len(made.questions))
        told[0] = replace(told[0], say=speakable(text, lexicon=made.lexicon))
    return replace(made, steps=tuple(told))


def askable(sheet: Sheet) -> int:
    """How many moves of the game can be asked."""
    return len(_askable(sheet))


def _askable(sheet: Sheet) -> list[tuple[int, int]]:
    """The number of the step and of the cue in it, for every move that can be asked."""
    game = _longest_game(sheet)
    known = {step.ask.place for step in sheet.steps if step.ask is not None}
    out = []
    for index, step in enumerate(sheet.steps):
        if step.scopes or step.kind != "tell":
            continue
        word = -1
        for number, cue in enumerate(step.cues):
            turn = cue.do
            if isinstance(turn, Turn) and turn.after in game and turn.before not in known:
                first = turn.before == step.before
                apart = cue.word > word and step.say is not None and 0 < cue.word < len(step.say.words)
                if (first or apart) and _is_ours(sheet.side, turn):
                    out.append((index, number))
            word = max(word, cue.word)
    return out


def _split(step: Step, number: int) -> tuple[list[Step], Step]:
    """The step up to its cue of this number, and from there on; not split before its first move."""
    cue = step.cues[number]
    turns = [one.do for one in step.cues[:number] if isinstance(one.do, Turn)]
    if not turns or step.say is None:
        return [], step
    at = step.say.words[cue.word][0]
    said = step.say.spoken.split()
    first = Utterance(
        " ".join(said[: cue.word]),
        step.say.shown[:at].rstrip(),
        tuple(
            (start, min(end, len(step.say.shown[:at].rstrip()))) for start, end in step.say.words[: cue.word]
        ),
        step.say.language,
    )
    second = Utterance(
        " ".join(said[cue.word :]),
        step.say.shown[at:],
        tuple((max(0, start - at), end - at) for start, end in step.say.words[cue.word :]),
        step.say.language,
    )
    later = tuple(replace(one, word=one.word - cue.word) for one in step.cues[number:])
    place = turns[-1].after
    head = replace(
        step, key=f"{step.key}/{cue.word}", say=first, cues=step.cues[:number], after=place, rest_ms=180
    )
    return [head], replace(step, say=second, cues=later, before=place, stamp_ms=None)


def _answered(steps: tuple[Step, ...], number: int) -> Step:
    """A question with the number of the step that tells its answer now."""
    step = steps[number]
    ask = step.ask
    if ask is None or ask.answer is None or ask.told is None:
        return step
    told = next(
        later
        for later in range(number + 1, len(steps))
        if steps[later].scopes == step.scopes and any(cue.do == ask.answer for cue in steps[later].cues)
    )
    return replace(step, ask=replace(ask, told=told))


def _longest_game(sheet: Sheet) -> frozenset[Place]:
    """All places of the longest line told on the lesson's own depth."""
    ends = [step.after for step in sheet.steps if not step.scopes]
    end = max(ends, key=lambda place: len(place.moves), default=Place())
    return frozenset(Place(end.root, end.moves[:count]) for count in range(len(end.moves) + 1))


def _is_ours(side: str, turn: Turn) -> bool:
    mover = turn.before.board().turn
    return side not in ("white", "black") or mover == (side == "white")


def _ask(step: Step, turn: Turn) -> Step:
    """A question for the first move of this step; which step tells it is found later."""
    mover = "White" if turn.before.board().turn == chess.WHITE else "Black"
    text = f"What does {mover} play here?"
    key = ask_key(turn.before, "move", [turn.uci])
    ask = Ask(
        key=key,
        kind="move",
        place=turn.before,
        text=text,
        answer=turn,
        told=0,
        answers=(turn.uci,),
        choices=(),
        also=(),
        replies=(),
        otherwise=(),
        because=(),
        because_given=False,
        nudges=(),
        about=(),
        think_ms=None,
        again=False,
    )
    return replace(
        step,
        key=f"{key}-faded:program",
        kind="ask",
        after=step.before,
        say=speakable(text),
        cues=(),
        rest_ms=450,
        stamp_ms=None,
        ask=ask,
    )
