"""A followed lesson as a sheet: a flat list of steps in told order, each enterable by itself."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from player.cues.asks import ask_of
from player.cues.once_more import with_repeats
from player.cues.sheet import Part, Scope, Sheet, Step
from player.cues.sides import Sides
from player.cues.starts import starts
from player.cues.tracks import AROUND_MS, BEAT_MS, Maker, Voicing, Where, cue_at_start, cues_in, shown_words
from player.facts.place import Place
from player.script.told import (
    Told,
    ToldBeat,
    ToldBlock,
    ToldBoard,
    ToldIdea,
    ToldLesson,
    ToldPart,
    ToldPause,
    ToldQuestion,
    ToldShow,
    ToldSides,
)
from player.wording import announce
from player.wording.say import Naming


def compile_lesson(told: ToldLesson, *, naming: Naming = "letters") -> Sheet:
    """The sheet of a followed lesson. `naming` is how the voice names files.

    Every step begins where its `before` says, and its moves lead to its `after`; the board is set anew where
    a step of kind "enter", "return" or "board" begins. ValueError for an unknown language.
    """
    compiler = _Compiler(told, naming)
    compiler.body(told.body)
    return compiler.sheet()


class _Compiler:
    """Collects steps, parts and scopes; the first step is set aside for the length of it all."""

    def __init__(self, told: ToldLesson, naming: Naming) -> None:
        self._told = told
        self._voicing = Voicing(told.header, naming)
        self._maker = Maker(self._voicing)
        self._sides = Sides(told.header.side)
        self._beat = -1
        self._open: tuple[int, ...] = ()
        self._parts: list[Part] = []
        self._scopes: list[Scope] = []
        self._ideas: dict[str, str] = {}
        self._steps: list[Step] = [
            self._maker.announce("tell", self._where(1), Place(), "", rest_ms=AROUND_MS, content="opening")
        ]

    def body(self, body: Iterable[Told]) -> None:
        """All that one depth tells; claims, games and waved-off queries are for the checker alone."""
        for told in body:
            if isinstance(told, ToldBeat):
                where = self._where(told.spot.line)
                self._steps += self._maker.told(told.text, where, told.before, stamp_ms=told.stamp_ms)
            elif isinstance(told, ToldQuestion):
                self._question(told)
            elif isinstance(told, ToldBlock):
                self._block(told)
            elif isinstance(told, ToldPart):
                self._part(told)
            elif isinstance(told, ToldIdea):
                self._idea(told)
            elif isinstance(told, ToldBoard):
                self._board(told)
            elif isinstance(told, ToldShow):
                self._show(told)
            elif isinstance(told, ToldPause):
                where = self._where(told.spot.line)
                self._steps.append(self._maker.step("rest", where, told.place, None, rest_ms=told.ms))
            elif isinstance(told, ToldSides):
                self._sides.told(told.side, told.view, len(self._parts))

    def sheet(self) -> Sheet:
        """What has been collected."""
        header = self._told.header
        steps = [self._answered(number, step) for number, step in enumerate(self._steps)]
        begun = starts(steps)
        asked = sum(step.ask is not None for step in steps)
        opening = announce.lesson_opening(header.title, header.coach, begun[-1], asked)
        steps[0] = replace(steps[0], say=self._voicing.announced(opening))
        return with_repeats(
            Sheet(
                title=header.title,
                coach=header.coach,
                side=header.side,
                language=header.language,
                steps=tuple(steps),
                parts=tuple(self._parts),
                scopes=tuple(self._scopes),
                ideas=self._ideas,
                starts=begun,
                lexicon=header.pronounce,
            )
        )

    def _answered(self, number: int, step: Step) -> Step:
        """A question with the step that tells its answer."""
        ask = step.ask
        if ask is None or ask.answer is None:
            return step
        for index in range(number + 1, len(self._steps)):
            later = self._steps[index]
            if later.scopes == step.scopes and any(cue.do == ask.answer for cue in later.cues):
                return replace(step, ask=replace(ask, told=index))
        return step

    def _where(self, line: int) -> Where:
        """Where the next beat stands."""
        self._beat += 1
        return Where(line, len(self._parts) - 1, self._beat, self._open, self._sides.flip)

    def _part(self, told: ToldPart) -> None:
        self._quiet()
        self._parts.append(Part(told.title.shown, len(self._steps)))
        text, before_title = announce.part_title(told.title.shown, self._told.header.language)
        say = self._voicing.words(text)
        self._steps.append(
            self._maker.step(
                "part",
                self._where(told.spot.line),
                told.place,
                say,
                cues=cues_in(say, told.title.deeds, -before_title),
                ear_only=True,
                rest_ms=AROUND_MS,
                stamp_ms=told.stamp_ms,
            )
        )

    def _idea(self, told: ToldIdea) -> None:
        self._ideas.setdefault(told.name, told.text.shown)
        where = self._where(told.spot.line)
        self._steps += self._maker.told(
            told.text, where, told.place, kind="idea", stamp_ms=told.stamp_ms, idea=told.name
        ) or [self._maker.step("idea", where, told.place, None, stamp_ms=told.stamp_ms, idea=told.name)]

    def _board(self, told: ToldBoard) -> None:
        of_mark = " ".join(told.words.lower().split()) in {
            " ".join(name.lower().split()) for name in self._told.marks
        }
        text = announce.new_board(told.words, told.after, of_mark)
        where = self._where(told.spot.line)
        self._steps.append(self._maker.announce("board", where, told.after, text, stamp_ms=told.stamp_ms))

    def _show(self, told: ToldShow) -> None:
        self._steps.append(
            self._maker.announce(
                "show",
                self._where(told.spot.line),
                told.place,
                shown_words(told.shown),
                cues=cue_at_start(told.shown),
                stamp_ms=told.stamp_ms,
            )
        )

    def _question(self, told: ToldQuestion) -> None:
        where = self._where(told.spot.line)
        self._steps.append(
            self._maker.announce("tell", where, told.place, announce.whole_position(told.place))
        )
        say = self._voicing.words(announce.with_choices(told.text.shown, told.choices))
        self._steps.append(
            self._maker.step(
                "ask",
                where,
                told.place,
                say,
                cues=cues_in(say, told.text.deeds),
                rest_ms=BEAT_MS,
                stamp_ms=told.stamp_ms,
                ask=ask_of(told, where, self._voicing),
            )
        )

    def _block(self, told: ToldBlock) -> None:
        """An aside, an imagined position or a retelling, up to the return."""
        self._quiet()
        number, around, seated = len(self._scopes), self._open, replace(self._sides)
        first = len(self._steps)
        self._open = (*around, number)
        title = told.title.shown or told.words
        self._scopes.append(Scope(told.kind, title, first, first, told.outer, told.inner))
        self._enter(told)
        self.body(told.body)
        self._quiet()
        self._open, self._sides = around, seated
        self._return(told)
        self._scopes[number] = replace(self._scopes[number], last=len(self._steps) - 1)

    def _enter(self, told: ToldBlock) -> None:
        where = self._where(told.spot.line)
        text = announce.entering(told.kind, told.outer, told.inner, told.words)
        title = self._maker.told(
            told.title, where, told.inner, kind="enter", stamp_ms=told.stamp_ms, rest_ms=AROUND_MS
        )
        stamp = None if title else told.stamp_ms
        rest = BEAT_MS if title else AROUND_MS
        self._steps.append(
            self._maker.announce("enter", where, told.inner, text, rest_ms=rest, stamp_ms=stamp)
        )
        self._steps += title

    def _return(self, told: ToldBlock) -> None:
        where = self._where(told.spot.line)
        if told.back is not None and told.back.shown:
            say = self._voicing.words(told.back.shown)
            cues = cues_in(say, told.back.deeds)
            step = self._maker.step("return", where, told.outer, say, cues=cues, rest_ms=AROUND_MS)
        else:
            into = self._scopes[self._open[-1]].kind if self._open else ""
            text = announce.returning(told.kind, into, told.outer)
            step = self._maker.announce("return", where, told.outer, text, rest_ms=AROUND_MS)
        self._steps.append(step)

    def _quiet(self) -> None:
        """Longer silence before a part or at either end of a block: after the last words that all hear."""
        for index in range(len(self._steps) - 1, -1, -1):
            step = self._steps[index]
            if step.kind == "rest":
                return
            if step.rest_ms < AROUND_MS:
                self._steps[index] = replace(step, rest_ms=AROUND_MS)
            if not step.ear_only:
                return
