"""Unseen positions: a question's key fact in a position that no lesson of the series shows."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

import chess

from player.cues.compile import compile_lesson
from player.cues.gather import Picked
from player.cues.sheet import Sheet
from player.facts.claim import Last
from player.facts.place import Place
from player.facts.prove import prove
from player.learner.revisit import Item
from player.learner.tries import Question
from player.learner.turning import WAYS, Turning
from player.script.follow import follow
from player.script.read import read
from player.script.told import ToldBoard, ToldClaim, ToldLesson, ToldPart, ToldQuestion, flat
from player.wording.claims import claim_of
from player.world.clean import clean_line

ENOUGH = 3
"""So many unseen positions are looked for, for every idea."""


@dataclass(frozen=True)
class Fact:
    """A claim that holds at the question's place, or after its answer; `line` is the script's, 0 for ours."""

    words: str
    after: bool
    line: int = 0


@dataclass(frozen=True)
class Taught:
    """A question about ideas with the facts that make its answer right."""

    question: ToldQuestion
    ideas: tuple[str, ...]
    facts: tuple[Fact, ...]
    key: str = ""


@dataclass(frozen=True)
class Unseen:
    """A new position: FEN, what was done to the coach's, the facts proved in it, and a script that asks it.

    `of` is the key of the coach's own question.
    """

    of: str
    idea: str
    fen: str
    how: str
    facts: tuple[Fact, ...]
    answers: tuple[str, ...]
    source: str

    def item(self, series: Sheet, lesson: str) -> Item:
        """The question as an item of a revisit; `series` gives names and voice."""
        lesson_read, _ = read(self.source)
        told, _ = follow(lesson_read)
        sheet = replace(compile_lesson(told), coach=series.coach, lexicon=series.lexicon)
        index = sheet.questions[0]
        ask = sheet.steps[index].ask
        assert ask is not None
        question = Question(
            ask.key,
            ask.kind,
            ask.place.root,
            ask.place.moves,
            ask.text,
            self.answers,
            (self.idea,),
            lesson,
            series.title,
            like=self.of,
        )
        return Item(question, Picked(sheet, index, f"A new position, not shown in any lesson. {self.how}"))


def taught(told: ToldLesson, keys: Mapping[int, str]) -> list[Taught]:
    """The questions of a lesson that are about ideas, each with its facts.

    `keys` has the key of the question at a line. The facts are the claims of the script near the question
    that speak of its place or of the place after its answer, and that the answer can be played.
    """
    out: list[Taught] = []
    elements = list(flat(told.body))
    for number, one in enumerate(elements):
        if isinstance(one, ToldQuestion) and one.about and one.spot.line in keys:
            facts = tuple(dict.fromkeys([*_facts(one, elements, number), *_own(one)]))
            out.append(Taught(one, one.about, facts, keys[one.spot.line]))
    return out


def _facts(asked: ToldQuestion, elements: Sequence[object], number: int) -> Iterator[Fact]:
    """The claims from the question before to the one after that are about this very place."""
    first = number
    while first > 0 and not isinstance(elements[first - 1], ToldQuestion | ToldPart | ToldBoard):
        first -= 1
    for later in elements[first:]:
        if isinstance(later, ToldQuestion) and later is not asked:
            return
        if isinstance(later, ToldClaim):
            if later.place == asked.place:
                yield Fact(later.words, False, later.spot.line)
            elif asked.answer is not None and later.place == asked.answer.after:
                yield Fact(later.words, True, later.spot.line)


def _own(asked: ToldQuestion) -> Iterator[Fact]:
    """Facts of our own about a move: that it can be played, and what it does that can be proved at once."""
    if asked.answer is None:
        return
    san = asked.answer.san.rstrip("+#")
    yield Fact(f"{san} is legal", False)
    for words in (
        "is mate",
        "is check",
        "threatens mate",
        "wins the queen",
        "wins a piece",
        "is the only legal move",
    ):
        fact = Fact(f"{san} {words}", False)
        if holds(fact, asked.place.board(), None):
            yield fact


def holds(fact: Fact, board: chess.Board, answer: chess.Move | None) -> bool:
    """Whether the fact is proved on this board, or after the answer where it speaks of that."""
    claim = claim_of(fact.words)
    if claim is None:
        return False
    last: Last | None = None
    if fact.after:
        if answer is None:
            return False
        last = Last(board.copy(), answer)
        board = board.copy()
        board.push(answer)
    return prove(claim, board, last).kind == "true"


def unseen(
    lessons: Iterable[Taught], seen: frozenset[str], idea: str = "", enough: int = ENOUGH
) -> list[Unseen]:
    """New positions for every idea (or this one), `enough` of each where they can be had.

    `seen` has the positions (EPD) of the whole series; none of them comes, and none comes twice.
    """
    met = set(seen)
    out: list[Unseen] = []
    by_idea: dict[str, list[Taught]] = {}
    for one in lessons:
        for name in one.ideas:
            by_idea.setdefault(name, []).append(one)
    for name, questions in by_idea.items():
        if idea and name.casefold() != idea.casefold():
            continue
        found = 0
        ways = [_turned(one, name) for one in questions]
        while ways and found < enough:
            # One of each question in turn, so that the positions differ as much as they can.
            for way in list(ways):
                made = next((new for new in way if _epd(new.fen) not in met), None)
                if made is None:
                    ways.remove(way)
                    continue
                met.add(_epd(made.fen))
                out.append(made)
                found += 1
                if found >= enough:
                    break
    return out


def _turned(one: Taught, idea: str) -> Iterator[Unseen]:
    """The question turned in every way that keeps its facts: the whole board, then a small change too."""
    board = one.question.place.board()
    for way in WAYS:
        made = _made(one, idea, way, way.board(board), way.how)
        if made is not None:
            yield made
    for way in (Turning(), *WAYS[:1]):
        turned = way.board(board)
        if turned is None:
            continue
        for changed, how in _changes(turned, _involved(one, way)):
            made = _made(one, idea, way, changed, f"{way.how} {how}".strip())
            if made is not None:
                yield made


def _made(one: Taught, idea: str, way: Turning, board: chess.Board | None, how: str) -> Unseen | None:
    """The new position, where all facts are proved in it; None otherwise."""
    asked = one.question
    if board is None or not board.is_valid():
        return None
    answer: chess.Move | None = None
    if asked.answer is not None:
        answer = way.move(chess.Move.from_uci(asked.answer.uci))
        if answer is None or answer not in board.legal_moves:
            return None
        answers: tuple[str, ...] = (answer.uci(),)
    elif asked.kind == "square":
        answers = tuple(way.words(one_answer) for one_answer in asked.answers)
    else:
        answers = tuple(way.words(one_answer) for one_answer in asked.answers)
    facts = tuple(replace(fact, words=way.words(fact.words)) for fact in one.facts)
    if not facts or not all(holds(fact, board, answer) for fact in facts):
        return None
    source = _script(asked, way, board, answer, answers, facts, idea)
    return Unseen(one.key, idea, board.fen(), how, facts, answers, source)


def _script(
    asked: ToldQuestion,
    way: Turning,
    board: chess.Board,
    answer: chess.Move | None,
    answers: Sequence[str],
    facts: Sequence[Fact],
    idea: str,
) -> str:
    """A script that asks the new position."""
    lines = ["script: 1", "title: A new position", f"board: {board.fen()}", ""]
    lines.append(f"question: {_plain(way.words(asked.text.shown))}")
    if asked.kind != "move":
        lines.append(f"  ask: {asked.kind}")
        lines += [f"  choice: {_plain(way.words(choice))}" for choice in asked.choices]
        lines.append(f"  answer: {', '.join(_plain(one) for one in answers)}")
    lines += [f"  about: {idea}", ""]
    told = f"It is the same idea: {idea}."
    lines.append(f"{{{board.san(answer)}}}. {told}" if answer is not None else told)
    lines += [f"claim: {fact.words}" for fact in facts if fact.line and (fact.after or answer is None)]
    return "\n".join(lines) + "\n"


def _plain(text: str) -> str:
    """Words that the script's reader takes for words alone."""
    return clean_line(text).translate(str.maketrans("{}[]\\", "     ")).strip()


def _involved(one: Taught, way: Turning) -> chess.SquareSet:
    """Squares (after turning) that the answer or a fact speaks of: no small change touches them."""
    squares = chess.SquareSet()
    names = [word for fact in one.facts for word in _squares(fact.words)]
    if one.question.answer is not None:
        uci = one.question.answer.uci
        names += [uci[:2], uci[2:4]]
    for name in names:
        to = way.square(chess.parse_square(name))
        if to is not None:
            squares.add(to)
    return squares


def _squares(words: str) -> list[str]:
    return [
        words[at : at + 2]
        for at in range(len(words) - 1)
        if words[at] in "abcdefgh" and words[at + 1] in "12345678"
    ]


def _changes(board: chess.Board, involved: chess.SquareSet) -> Iterator[tuple[chess.Board, str]]:
    """The board with one pawn that nothing speaks of a step further on, or a step back."""
    for square in board.pieces(chess.PAWN, chess.WHITE) | board.pieces(chess.PAWN, chess.BLACK):
        colour = board.color_at(square)
        for step in (8, -8):
            to = square + step
            if square in involved or to in involved or not 8 <= to < 56 or board.piece_at(to) is not None:
                continue
            made = board.copy(stack=False)
            made.remove_piece_at(square)
            made.set_piece_at(to, chess.Piece(chess.PAWN, bool(colour)))
            made.ep_square = None
            if made.is_valid() and made.is_check() == board.is_check():
                yield made, f"One pawn stands on {chess.square_name(to)} now."


def positions(sheets: Iterable[Sheet]) -> frozenset[str]:
    """The positions (EPD) that these lessons show."""
    places: set[Place] = set()
    for sheet in sheets:
        for step in sheet.steps:
            places |= {step.before, step.after}
            places |= {getattr(cue.do, "before", step.before) for cue in step.cues}
            if step.ask is not None:
                places.add(step.ask.place)
    return frozenset(_epd(place.fen) for place in places)


def _epd(fen: str) -> str:
    return " ".join(fen.split(" ")[:4])
