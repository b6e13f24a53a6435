"""A lesson's happenings as lines to read: who speaks, and what."""

from __future__ import annotations

import chess

from player.cues.sheet import Ask, Sheet, Step
from player.facts.place import Place
from player.session.session import Told
from player.stage.happenings import (
    Attempt,
    Board,
    Marked,
    Note,
    Noted,
    Over,
    Put,
    Quit,
    Reached,
    Say,
    Scoped,
    Tuned,
)
from player.stage.seeking import length
from player.stage.state import State
from player.stage.whereabouts import where_text
from player.voice.speaker import Notice
from player.wording import announce
from player.wording.names import colour_name, first_name
from player.wording.say import say

LESSON, BOARD, YOU = "Lesson", "Board", "You"

_WANTED = {
    "move": "a move",
    "square": "a square",
    "count": "a number",
    "choice": "a choice, by its number or its words",
    "words": "a few words",
}
_BLOCKS = {"aside": "aside", "instead": "aside", "imagine": "imagined position", "retell": "retelling"}

Line = tuple[str, str]


class Teller:
    """Puts happenings into words, one lesson long: what was said just now decides what need not be."""

    def __init__(self, sheet: Sheet) -> None:
        self._sheet = sheet
        self._coach = first_name(sheet.coach)
        self._asks = {step.ask.key: step.ask for step in sheet.steps if step.ask is not None}
        self._numbers = {key: number for number, key in enumerate(self._asks, 1)}
        self._place: Place | None = None
        self._tried = ""
        self._last = ""
        self._asked_before = False

    def opening(self) -> list[Line]:
        """The title, the length and the number of questions."""
        steps = self._sheet.steps
        said = steps[0].say if steps and steps[0].ear_only else None
        return [(LESSON, said.shown)] if said is not None else [(LESSON, self._sheet.title or "A lesson.")]

    def whereabouts(self, state: State) -> list[Line]:
        """Where the learner is, who moves, and the ways on."""
        return [(LESSON, where_text(state)), *self.ways_on(state)]

    def ways_on(self, state: State) -> list[Line]:
        """The ways on: the lesson, and each aside by its title and length."""
        sheet = self._sheet
        ways = [(LESSON, "Ways on: press Enter for the lesson. Type help for all you can say.")]
        asides = [(i, s) for i, s in enumerate(sheet.scopes) if s.kind in ("aside", "instead")]
        for number, (index, scope) in enumerate(asides, 1):
            ways.append((LESSON, f"Aside {number}: {_ended(scope.title)} It takes {length(sheet, index)}."))
        return ways

    def lines(self, told: Told, state: State) -> list[Line]:
        """What is printed for a happening; mostly one line, often none."""
        lines = self._lines(told, state)
        if lines:
            self._last = lines[-1][1]
        if isinstance(told, Board):
            self._place = told.place
        return lines

    def _lines(self, told: Told, state: State) -> list[Line]:
        if isinstance(told, Say):
            return self._said(told)
        if isinstance(told, Board):
            return self._board(told, state)
        if isinstance(told, Marked):
            return self._marked(told, state)
        if isinstance(told, Scoped):
            return self._scoped(told, state)
        if isinstance(told, Put):
            return self._put(told)
        if isinstance(told, Attempt):
            return self._attempt(told)
        if isinstance(told, Note):
            who = {"coach": self._coach, "board": BOARD}.get(told.standing, LESSON)
            return [(who, line) for line in told.text.splitlines() if line.strip()]
        if isinstance(told, Reached):
            return self._reached(told, state)
        if isinstance(told, Quit) and state.over:
            return [(LESSON, "Goodbye.")]
        if isinstance(told, Over) and not state.telling.by_beat and state.telling.at_once:
            return [(LESSON, "The lesson is told.")]
        return _plain(told)

    def _said(self, told: Say) -> list[Line]:
        text = told.what.shown
        if (told.from_word or told.from_ms) and text == self._last:
            return []
        who = {"coach": self._coach, "board": BOARD}.get(told.standing, LESSON)
        return [(who, text)]

    def _board(self, told: Board, state: State) -> list[Line]:
        tried, self._tried = self._tried, ""
        move = told.move
        if move is not None and told.place.last == move:
            if tried == move and told.why in ("answer", "reply"):
                return []
            words = moved(told.place, " would play" if told.why == "what-if" else " plays")
            return [(BOARD, words)]
        if state.telling.ear and told.why in ("aside", "imagined", "board"):
            return []
        if told.place == self._place:
            return []
        if told.why == "imagined":
            before = self._place or Place()
            return [(BOARD, announce.imagining(chess.Board(before.fen), chess.Board(told.place.fen)))]
        if told.why == "board":
            return [(BOARD, announce.new_board("", told.place))]
        if told.why == "return" and state.top.asked is not None:
            return [(BOARD, f"Back to the question; {announce.state_of(chess.Board(told.place.fen))}.")]
        return [(BOARD, standing(told.place))]

    def _marked(self, told: Marked, state: State) -> list[Line]:
        if not told.shown.marks or state.telling.ear:
            return []
        marks = [(mark.kind, mark.square, mark.to) for mark in told.shown.marks]
        return [(BOARD, announce.showing(marks, told.shown.meaning))]

    def _scoped(self, told: Scoped, state: State) -> list[Line]:
        scope = self._sheet.scopes[told.scope]
        if state.telling.ear:
            return []
        name = _BLOCKS[scope.kind]
        if told.opened:  # its title is the coach's to say
            return [(LESSON, f"{'An' if name[0] in 'ai' else 'A'} {name}.")]
        title = scope.title.strip() if scope.kind in ("aside", "instead") else ""
        return [(LESSON, _ended(f"End of the {name}{': ' if title else ''}{title}"))]

    def _put(self, told: Put) -> list[Line]:
        number = self._numbers.get(told.ask.key, 0)
        head = f"Question {number} of {len(self._asks)}." if number else "A question."
        wanted = _WANTED[told.ask.kind]
        if self._asked_before:
            return [(LESSON, f"{head} Answer with {wanted}.")]
        self._asked_before = True
        waits = " It waits for you." if told.think_ms is None else ""
        return [(LESSON, f"{head} Answer with {wanted}; or type look, nudge, tell me or skip.{waits}")]

    def _attempt(self, told: Attempt) -> list[Line]:
        if not told.given:
            return []
        ask = self._asks.get(told.ask)
        self._tried = told.meant
        return [(YOU, answered(ask, told.meant))]

    def _reached(self, told: Reached, state: State) -> list[Line]:
        step = _step(self._sheet, told.step)
        if step is None or step.kind != "part" or step.say is None or state.telling.ear:
            return []
        if state.telling.questions_only:
            return []
        title = self._sheet.parts[step.part].title if 0 <= step.part < len(self._sheet.parts) else ""
        return [(LESSON, _ended(f"Part {step.part + 1}: {title}"))]


def _plain(told: Told) -> list[Line]:
    if isinstance(told, Noted):
        return [(LESSON, _ended(f"Kept in your notebook: {told.idea}"))]
    if isinstance(told, Tuned):
        return [(LESSON, _ended(f"{told.name.capitalize()}: {told.value}"))]
    if isinstance(told, Over):
        return [(LESSON, "The lesson is told. Type quit to leave, or go to start to hear it again.")]
    if isinstance(told, Quit):
        return [(LESSON, "Goodbye. The lesson keeps your place.")]
    if isinstance(told, Notice):
        return [(LESSON, told.sentence)]
    return []


def moved(place: Place, plays: str = " plays") -> str:
    """The last move of a place: "White plays Nf3, knight to f3."."""
    before = Place(place.root, place.moves[:-1]).board()
    if place.last is None or place.last == "0000":
        return f"{colour_name(before.turn)} passes."
    told = say(before, chess.Move.from_uci(place.last))
    return f"{colour_name(before.turn)}{plays} {told.shown}, {told.spoken}."


def standing(place: Place) -> str:
    """Where the board stands, in few words: after which move, and who is to move."""
    state = announce.state_of(chess.Board(place.fen))
    last = announce.last_move(place)
    if last:
        return f"The board stands as after {last}; {state}."
    if place == Place():
        return f"The starting position; {state}."
    return f"{announce.whole_position(place)}"


def answered(ask: Ask | None, meant: str) -> str:
    """An answer as it was understood."""
    if ask is not None and ask.kind == "move":
        try:
            told = say(ask.place.board(), chess.Move.from_uci(meant))
        except ValueError:
            return _ended(meant)
        return f"{told.shown}, {told.spoken}."
    return _ended(meant)


def _ended(text: str) -> str:
    text = text.strip()
    return text if text.endswith((".", "!", "?")) else f"{text}."


def _step(sheet: Sheet, key: str) -> Step | None:
    index = sheet.index(key)
    return None if index is None else sheet.steps[index]
