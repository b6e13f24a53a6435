"""Following a lesson: every move attached to the words that tell it, and every place known."""

from __future__ import annotations

from collections.abc import Sequence

from player.script.boards import MarkMade, NoBoard, board_of, is_reserved, mark_key
from player.script.braces import Braces
from player.script.examples import EXAMPLES
from player.script.faults import Fault
from player.script.found import Found
from player.script.games import game_names
from player.script.header import SIDES
from player.script.here import Game, Here, beginning
from player.script.imagine import imagined
from player.script.marks import Unshown, shown_of
from player.script.model import Beat, Block, Brace, Element, IdeaLine, Lesson, Line, Part, QuestionBlock
from player.script.pending import Pending
from player.script.questions import Questions
from player.script.retell import retelling
from player.script.times import pause_ms
from player.script.told import (
    Text,
    Told,
    ToldBeat,
    ToldBlock,
    ToldBoard,
    ToldClaim,
    ToldFine,
    ToldGame,
    ToldIdea,
    ToldLesson,
    ToldPart,
    ToldPause,
    ToldShow,
    ToldSides,
)


def follow(lesson: Lesson) -> tuple[ToldLesson, tuple[Fault, ...]]:
    """The lesson with every move and place known, and the faults of its moves and places. Never raises."""
    follower = _Follower(lesson)
    body = follower.body(lesson.body, beginning())
    follower.settle_ideas()
    marks = {mark.name: mark.place for mark in follower.marks.values()}
    return ToldLesson(lesson.header, tuple(body), marks), follower.found.in_order()


class _Follower:
    def __init__(self, lesson: Lesson) -> None:
        self.language = lesson.header.language
        self.found = Found(lesson.source)
        self.braces = Braces(self.found, self.language)
        self.questions = Questions(self.found, self.braces, self.language)
        self.marks: dict[str, MarkMade] = {}
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
                told += self.line(element, here, elements[number + 1 :])
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
            lost = here.lost
            down.set(place)
            down.lost = lost
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
        mark = self.marks.get(mark_key(block.value))
        beats = retelling(mark, here, block.spot) if mark is not None else ()
        if mark is None or not beats:
            known = ", ".join(made.name for made in self.marks.values())
            self.found.fault(
                block.spot,
                "bad-retell",
                "No moves have been told from this mark."
                if mark is not None
                else "There is no mark of this name above.",
                f"Marks above: {known}." if known and mark is None else EXAMPLES["mark"],
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

    def line(self, line: Line, here: Here, rest: Sequence[Element]) -> list[Told]:
        """A key line that is not spoken."""
        if line.key == "board":
            return self.board(line, here)
        if line.key == "mark":
            self.mark(line, here)
            return []
        if line.key == "game":
            return self.game(line, here, rest)
        if line.key in ("side", "view"):
            return self.sides(line, here)
        if line.key == "fine":
            return [ToldFine(line.value, line.spot)]
        if line.key == "claim":
            return [] if here.lost else [ToldClaim(line.value, here.place, here.last, line.spot)]
        if line.key == "pause":
            ms = pause_ms(line.value)
            if ms is None:
                self.found.fault(
                    line.spot, "bad-length", "A pause is a breath or a number of seconds.", "pause: 2s"
                )
                return []
            return [ToldPause(ms, here.place, line.spot)]
        shown = shown_of(line.value)
        if isinstance(shown, Unshown):
            self.found.fault(
                self.found.where(shown.text, line.spot), "bad-show", shown.message, EXAMPLES["show"]
            )
            return []
        return [ToldShow(shown, here.place, line.stamp_ms, line.spot)]

    def board(self, line: Line, here: Here) -> list[Told]:
        """Another game or fragment from here on."""
        arrived = board_of(line.value, here, self.marks, self.language)
        if isinstance(arrived, NoBoard):
            if not here.lost:
                self.found.fault(
                    self.found.where(arrived.text, line.spot), arrived.code, arrived.message, arrived.fix
                )
            here.lost = True
            return []
        if arrived.doubt:
            self.found.query(line.spot, "board-doubt", arrived.doubt)
        before = here.place
        if arrived.begins_game and here.game.moves:
            here.game = Game()
        if arrived.mark is not None:
            here.game = arrived.mark.game
        named = bool(here.game.named and not here.game.moves)
        here.set(arrived.place, in_game=arrived.in_game or named)
        return [ToldBoard(line.value, before, here.place, line.stamp_ms, line.spot)]

    def mark(self, line: Line, here: Here) -> None:
        """A name for this place."""
        key = mark_key(line.value)
        if is_reserved(line.value):
            self.found.fault(
                line.spot,
                "bad-mark",
                "board: would not take this for the name of a mark. Choose another.",
                EXAMPLES["mark"],
            )
        elif key in self.marks:
            self.found.fault(
                line.spot,
                "mark-twice",
                f"There is already a mark {self.marks[key].name} above.",
                EXAMPLES["mark"],
            )
        elif not here.lost:
            self.marks[key] = MarkMade(line.value, here.place, here.line, here.game, here.in_game)

    def game(self, line: Line, here: Here, rest: Sequence[Element]) -> list[Told]:
        """The names of the game whose moves come next."""
        names = game_names(line.value)
        if names is None:
            self.found.fault(
                line.spot,
                "bad-game",
                "A game is given as White - Black, place and year, result.",
                EXAMPLES["game"],
            )
            return []
        if here.line.end != here.line.begin and not _board_comes_first(rest):
            self.found.fault(
                line.spot,
                "game-late",
                "This game is named after moves of it have been told. Put the line before them, "
                "or begin another game with board: start.",
                EXAMPLES["game"],
            )
        elif here.game.moves or here.game.named:
            here.game = Game(named=True)
        else:
            here.game.named = True
        return [
            ToldGame(names.white, names.black, names.site, names.year, names.result, here.place, line.spot)
        ]

    def sides(self, line: Line, here: Here) -> list[Told]:
        side = line.value.lower()
        known = SIDES if line.key == "side" else SIDES[:2]
        if side not in known:
            self.found.fault(
                line.spot, "bad-side", f"The {line.key} is {' or '.join(known)}.", EXAMPLES[line.key]
            )
            return []
        if line.key == "side":
            return [ToldSides(side, "", here.place, line.spot)]  # type: ignore[arg-type]
        return [ToldSides("", side, here.place, line.spot)]  # type: ignore[arg-type]


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


def _board_comes_first(rest: Sequence[Element]) -> bool:
    """Whether a board: line comes before the next told move."""
    for element in rest:
        if isinstance(element, Line) and element.key == "board":
            return True
        if isinstance(element, Beat) and any(
            isinstance(bit, Brace) and not bit.deed.startswith("show ") for bit in element.bits
        ):
            return False
        if isinstance(element, Block | QuestionBlock):
            return False
    return True
