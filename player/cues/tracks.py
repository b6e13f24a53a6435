"""Texts as steps: one for every sentence, with what happens in it."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from player.cues.keys import Keys
from player.cues.sentences import sentence_at, sentences
from player.cues.sheet import Ask, Cue, Step, StepKind
from player.facts.place import Place
from player.script.model import Header
from player.script.told import Deed, Shown, Text, Turn
from player.wording.announce import moves_played, showing
from player.wording.prose import speakable
from player.wording.say import Naming
from player.wording.utterance import Utterance

SENTENCE_MS, BEAT_MS, AROUND_MS = 180, 450, 700
"""The silence after a sentence, after a beat, and around parts and asides."""


@dataclass(frozen=True, slots=True)
class Voicing:
    """How the words of one lesson are spoken."""

    header: Header
    naming: Naming

    def words(self, shown: str, naming: Naming | None = None) -> Utterance:
        """A text of the coach's."""
        return speakable(
            shown,
            language=self.header.language,
            naming=naming or self.naming,
            lexicon=self.header.pronounce,
        )

    def announced(self, shown: str) -> Utterance:
        """A sentence of the player's own, which is English."""
        return speakable(shown, naming=self.naming, lexicon=self.header.pronounce)


@dataclass(frozen=True, slots=True)
class Where:
    """What the steps of one beat have in common."""

    line: int
    part: int = -1
    beat: int = 0
    scopes: tuple[int, ...] = ()
    flip: bool = False


@dataclass(slots=True)
class Maker:
    """Makes steps one after another; `keys` gives them their names."""

    voicing: Voicing
    keys: Keys = field(default_factory=Keys)

    def step(
        self,
        kind: StepKind,
        where: Where,
        place: Place,
        say: Utterance | None,
        *,
        cues: tuple[Cue, ...] = (),
        ear_only: bool = False,
        rest_ms: int = 0,
        stamp_ms: int | None = None,
        idea: str = "",
        ask: Ask | None = None,
        content: str | None = None,
    ) -> Step:
        """One step from this place on. `content` stands for the words in the key where they may vary."""
        turns = [cue.do for cue in cues if isinstance(cue.do, Turn)]
        shown = content if content is not None else say.shown if say is not None else ""
        return Step(
            key=self.keys.next(kind, shown, (turn.uci for turn in turns)),
            line=where.line,
            part=where.part,
            beat=where.beat,
            scopes=where.scopes,
            kind=kind,
            before=place,
            after=turns[-1].after if turns else place,
            say=say,
            cues=cues,
            ear_only=ear_only,
            rest_ms=rest_ms,
            stamp_ms=stamp_ms,
            flip=where.flip,
            idea=idea,
            ask=ask,
        )

    def announce(
        self,
        kind: StepKind,
        where: Where,
        place: Place,
        text: str,
        *,
        cues: tuple[Cue, ...] = (),
        rest_ms: int = BEAT_MS,
        stamp_ms: int | None = None,
        content: str | None = None,
    ) -> Step:
        """A step that only ear mode says, in the player's own words."""
        return self.step(
            kind,
            where,
            place,
            self.voicing.announced(text),
            cues=cues,
            ear_only=True,
            rest_ms=rest_ms,
            stamp_ms=stamp_ms,
            content=content,
        )

    def told(
        self,
        text: Text,
        where: Where,
        place: Place,
        *,
        kind: StepKind = "tell",
        stamp_ms: int | None = None,
        idea: str = "",
        rest_ms: int = BEAT_MS,
    ) -> list[Step]:
        """The sentences of a text as steps from this place on; [] where it says and does nothing.

        The stamp is that of the first sentence, `rest_ms` the silence after the last.
        """
        spans = sentences(text.shown, self.voicing.header.language)
        made: list[Step] = []
        for number, (start, end) in enumerate(spans):
            deeds = [deed for deed in text.deeds if sentence_at(spans, deed.at) == number]
            say = self.voicing.words(text.shown[start:end])
            rest = SENTENCE_MS if number + 1 < len(spans) else rest_ms
            stamp = None if number else stamp_ms
            cues = cues_in(say, deeds, start)
            made.append(
                self.step(kind, where, place, say, cues=cues, rest_ms=rest, stamp_ms=stamp, idea=idea)
            )
            place = made[-1].after
            made += self._for_the_ear(made[-1], where, text.shown[start:end], rest)
        if not spans and text.deeds:
            cues = tuple(Cue(0, deed.do, deed.stamp_ms) for deed in text.deeds)
            made.append(
                self.step(kind, where, place, None, cues=cues, rest_ms=rest_ms, stamp_ms=stamp_ms, idea=idea)
            )
            made += self._for_the_ear(made[-1], where, "", rest_ms)
        return made

    def _for_the_ear(self, step: Step, where: Where, shown: str, rest_ms: int) -> list[Step]:
        """The moves and the marks of a sentence, in words, where its own words do not name their squares."""
        if not step.cues:
            return []
        spoken = self.voicing.words(shown, "letters").spoken.casefold()
        named = re.findall(r"[a-h][1-8]", spoken)
        made: list[Step] = []
        turns = [cue.do for cue in step.cues if isinstance(cue.do, Turn)]
        unnamed = list(_unnamed(turns, named, "castl" in spoken))
        if unnamed:
            text = moves_played(turn.after for turn in unnamed)
            made.append(self.announce("tell", where, step.after, text, rest_ms=rest_ms))
        marks = [cue.do for cue in step.cues if isinstance(cue.do, Shown)]
        return made + [
            self.announce("show", where, step.after, shown_words(mark), rest_ms=rest_ms)
            for mark in marks
            if not _squares(mark) <= set(named)
        ]


def cues_in(say: Utterance, deeds: Sequence[Deed], start: int = 0) -> tuple[Cue, ...]:
    """What happens at which word; `start` is where the utterance begins in the text of the deeds."""
    made: list[Cue] = []
    for deed in deeds:
        word = say.word_at(max(0, deed.at - start))
        made.append(Cue(max(word, made[-1].word) if made else word, deed.do, deed.stamp_ms))
    return tuple(made)


def cue_at_start(shown: Shown) -> tuple[Cue, ...]:
    """Marks that appear with the first word."""
    return (Cue(0, shown),)


def shown_words(shown: Shown) -> str:
    """Marks in words."""
    return showing(((mark.kind, mark.square, mark.to) for mark in shown.marks), shown.meaning)


def _unnamed(turns: Sequence[Turn], named: Sequence[str], castling: bool) -> Iterator[Turn]:
    """The moves of which whoever only hears the sentence does not know where they go; a square that is named
    once stands for one move.
    """
    left = Counter(named)
    for turn in turns:
        if turn.san.startswith("O-O") and castling:
            continue
        if not left[turn.uci[2:4]]:
            yield turn
        left[turn.uci[2:4]] -= 1


def _squares(shown: Shown) -> set[str]:
    return {square for mark in shown.marks for square in (mark.square, mark.to) if square}
