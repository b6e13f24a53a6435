"""Following a lesson: every move attached to the words that tell it, and every place known."""

from __future__ import annotations

from collections.abc import Sequence

from player.script.boards import mark_key
from player.script.braces import Braces
from player.script.examples import EXAMPLES
from player.script.faults import Fault
from player.script.found import Found, short
from player.script.here import Here, beginning
from player.script.imagine import imagined
from player.script.keylines import KeyLines
from player.script.model import Beat, Block, Element, IdeaLine, Lesson, Line, Part, QuestionBlock
from player.script.pending import Pending
from player.script.questions import Questions
from player.script.retell import retelling
from player.script.told import (
    Text,
    Told,
    ToldBeat,
    ToldBlock,
    ToldIdea,
    ToldLesson,
    ToldPart,
)


def follow(lesson: Lesson) -> tuple[ToldLesson, tuple[Fault, ...]]:
    """The lesson with every move and place known, and the faults of its moves and places. Never raises."""
    follower = _Follower(lesson)
    body = follower.body(lesson.body, beginning())
    follower.settle_ideas()
    marks = {mark.name: mark.place for mark in follower.lines.marks.values()}
    return ToldLesson(lesson.header, tuple(body), marks), follower.found.in_order()


class _Follower:
    def __init__(self, lesson: Lesson) -> None:
        self.language = lesson.header.language
        self.found = Found(lesson.source)
        self.braces = Braces(self.found, self.language)
        self.questions = Questions(self.found, self.braces, self.language)
        self.lines = KeyLines(self.found, self.braces, self.language)
        self.ideas: dict[str, IdeaLine] = {}
        self.abouts: list[tuple[str, QuestionBlock]] = []

    def body(self, elements: Sequence[Element], here: Here) -> list[Told]:
        """What one depth tells; `here` goes on with it."""
        told: list[Told] = []
        pending: Pending | None = None
        for number, element in enumerate(elements):
            if pending is not None and _parts_question(element):
                self.close(pending, told, here, element)
                pending = None
            if isinstance(element, Beat):
                before = here.place
                said = self.braces.told(element.bits, here)
                told.append(ToldBeat(said.text, before, here.place, element.stamp_ms, element.spot))
                if pending is not None:
                    pending.hear(said)
                    if pending.done or here.lost:
                        self.close(pending, told, here, None)
                        pending = None
            elif isinstance(element, QuestionBlock):
                pending = self.question(element, told, here)
            elif isinstance(element, Block):
                told += self.block(element, here)
            elif isinstance(element, Part):
                title = self.braces.still(element.title, here, "A part")
                told.append(ToldPart(title, here.place, element.stamp_ms, element.spot))
            elif isinstance(element, IdeaLine):
                told.append(self.idea(element, here))
            else:
                told += self.lines.told(element, here, elements[number + 1 :])
        if pending is not None:
            self.close(pending, told, here, None)
        return told

    def question(self, block: QuestionBlock, told: list[Told], here: Here) -> Pending | None:
        """A question: asked at once, or, for a move, once the move has been told."""
        pending = self.questions.begin(block, here, len(told))
        for name in pending.asked.about:
            if mark_key(name) not in self.ideas:
                self.abouts.append((name, block))
        if pending.asked.kind != "move" and pending.asked.answers:
            told.append(pending.asked)
            return None
        told.append(pending.as_beat())
        return pending if pending.asked.kind == "move" and not here.lost else None

    def close(self, pending: Pending, told: list[Told], here: Here, ended_by: Element | None) -> None:
        """Puts a question with its answer where it was asked, or says that it has none."""
        if pending.answer is not None:
            self.questions.check_answer(pending)
            told[pending.index] = pending.question()
        elif not here.lost:
            why = f"before the next {_kind(ended_by)}" if ended_by is not None else "after it here"
            self.found.fault(
                pending.block.spot,
                "no-answer",
                f"A question is answered by the next move told, but no move is told {why}.",
                "{Nbd2}. It backs e4 and leaves the c-pawn free.",
            )

    def block(self, block: Block, here: Here) -> list[Told]:
        """An aside, instead, imagined position or retelling; the board is then as it was."""
        if block.kind == "retell":
            return self.retell(block, here)
        down: Here | None = here.fork()
        if block.kind == "instead":
            down = here.fork_before_last()
            if down is None:
                down = here.fork()
                down.excused = True
                if not here.lost:
                    self.found.fault(
                        block.spot,
                        "instead-without-move",
                        "instead: starts before the last move told, but none has been told here. "
                        "Write aside: in its place.",
                        EXAMPLES["aside"],
                    )
        assert down is not None
        if block.kind == "imagine":
            place, bad = imagined(here.board, block.value)
            for change in bad if not here.lost else ():
                spot = self.found.where(change.text, block.spot)
                self.found.fault(spot, "bad-imagine", change.message, change.fix or EXAMPLES["imagine"])
            down.set(place)
            down.lost, down.excused = here.lost, here.excused or bool(bad)
        inner = down.place
        title = self.braces.still(block.title, down, f"The words of an {block.kind}")
        body = tuple(self.body(block.body, down))
        back = self.braces.still(block.back, here, "A back") if block.back else None
        return [
            ToldBlock(
                block.kind, title, block.value, here.place, inner, body, back, block.stamp_ms, block.spot
            )
        ]

    def retell(self, block: Block, here: Here) -> list[Told]:
        mark = self.lines.marks.get(mark_key(block.value))
        beats = retelling(mark, here, block.spot) if mark is not None else ()
        if mark is not None and not beats and here.lost:
            return []
        if mark is None or not beats:
            known = [made.name for made in self.lines.marks.values()]
            self.found.fault(
                block.spot,
                "bad-retell",
                "No moves have been told from this mark."
                if mark is not None
                else "There is no mark of this name above."
                + (f" There {'is' if len(known) == 1 else 'are'}: {', '.join(known)}." if known else ""),
                f"retell: {known[-1]}" if known and mark is None else f"mark: {short(block.value)}",
            )
            return []
        back = self.braces.still(block.back, here, "A back") if block.back else None
        return [
            ToldBlock(
                "retell",
                Text(""),
                block.value,
                here.place,
                mark.place,
                beats,
                back,
                block.stamp_ms,
                block.spot,
            )
        ]

    def idea(self, line: IdeaLine, here: Here) -> ToldIdea:
        """An idea, kept by its name."""
        key = mark_key(line.name)
        if key in self.ideas:
            first = self.ideas[key].spot.line
            self.found.query(
                line.spot, "idea-twice", f"This idea is already told in line {first}; once is enough."
            )
        self.ideas.setdefault(key, line)
        text = self.braces.still(line.words, here, "An idea")
        return ToldIdea(line.name, text, here.place, line.stamp_ms, line.spot)

    def settle_ideas(self) -> None:
        """Queries for questions about an idea that is only told later."""
        for name, block in self.abouts:
            later = self.ideas.get(mark_key(name))
            if later is not None:
                spot = next((line.spot for line in block.about if name in line.value), block.spot)
                self.found.query(
                    spot, "about-later", f"This idea is told only later, in line {later.spot.line}."
                )


def _parts_question(element: Element) -> bool:
    """Whether this may not stand between a question and its answer."""
    if isinstance(element, Line):
        return element.key == "board"
    return isinstance(element, Part | Block | QuestionBlock)


def _kind(element: Element) -> str:
    if isinstance(element, Part):
        return "part"
    if isinstance(element, QuestionBlock):
        return "question"
    return element.kind if isinstance(element, Block) else "board"
