"""A lesson's happenings as lines to read: who speaks, and what."""

from __future__ import annotations

import chess

from player.cues.sheet import Sheet
from player.facts.place import Place
from player.session.session import Told
from player.session.words import BOARD, LESSON, YOU, Words, ended
from player.stage.happenings import (
    Attempt,
    Board,
    Marked,
    Note,
    Put,
    Reached,
    Say,
    Scoped,
)
from player.stage.seeking import length
from player.stage.state import State
from player.stage.whereabouts import where_text
from player.wording import announce
from player.wording.names import colour_name
from player.wording.say import say

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
        self._words = Words(sheet)
        self._place: Place | None = None
        self._seen: set[Place] = set()
        self._tried = ""
        self._last = ""
        self._asked_before = False
        self._opened = ""

    def opening(self) -> list[Line]:
        """The title, the length and the number of questions."""
        steps = self._sheet.steps
        said = steps[0].say if steps and steps[0].ear_only else None
        self._opened = said.shown if said is not None else ""
        return [(LESSON, self._opened or self._sheet.title or "A lesson.")]

    def whereabouts(self, state: State) -> list[Line]:
        """Where the learner is, who moves, the men where the telling begins among them, and the ways on."""
        return [(LESSON, where_text(state)), *self.first_position(state), *self.ways_on(state)]

    def first_position(self, state: State) -> list[Line]:
        """The men where the telling begins among them: where questions are gathered, no board: line has set
        that position.
        """
        place, first = state.top.place, self._sheet.steps[0].before
        if self._place is not None or place == Place() or place != first or state.telling.ear:
            return []
        self._place = place
        return [(BOARD, announce.whole_position(place))]

    def ways_on(self, state: State) -> list[Line]:
        """The ways on: the lesson, and each aside by its title and length."""
        sheet = self._sheet
        if state.telling.questions_only:
            return [(LESSON, "Only the questions are asked. Type help for all you can say.")]
        way = "press Enter to go on" if state.asked is None else "answer the question, or say 'skip'"
        ways = [(LESSON, f"Ways on: {way}. Type help for all you can say.")]
        asides = [(i, s) for i, s in enumerate(sheet.scopes) if s.kind in ("aside", "instead")]
        for number, (index, scope) in enumerate(asides, 1):
            ways.append((LESSON, f"Aside {number}: {ended(scope.title)} It takes {length(sheet, index)}."))
        return ways

    def lines(self, told: Told, state: State) -> list[Line]:
        """What is printed for a happening; mostly one line, often none."""
        lines = self._lines(told, state)
        if lines:
            self._last = lines[-1][1]
        if isinstance(told, Board):
            self._place = told.place
            self._seen.add(told.place)
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
            who = self._words.who(told.standing)
            return [(who, line) for line in told.text.splitlines() if line.strip()]
        if isinstance(told, Reached):
            return self._reached(told, state)
        own = self._words.own(told, state)
        return [(LESSON, own)] if own else []

    def _said(self, told: Say) -> list[Line]:
        text = told.what.shown
        opened, self._opened = self._opened, ""
        if text == opened:  # where all is announced, the lesson begins with the same words
            return []
        if (told.from_word or told.from_ms) and text == self._last:
            return []
        return [(self._words.who(told.standing), text)]

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
        if told.why in ("board", "seek") and announce.last_move(told.place) and told.place not in self._seen:
            # Nothing that was told leads there, so no move would say where it is.
            return [(BOARD, f"A new position. {announce.whole_position(told.place)}")]
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
        return [(LESSON, ended(f"End of the {name}{': ' if title else ''}{title}"))]

    def _put(self, told: Put) -> list[Line]:
        head = f"{self._words.question(told.ask.key) or 'A question'}."
        wanted = _WANTED[told.ask.kind]
        if self._asked_before:
            return [(LESSON, f"{head} Answer with {wanted}.")]
        self._asked_before = True
        waits = " It waits for you." if told.think_ms is None else ""
        return [(LESSON, f"{head} Answer with {wanted}; or type look, nudge, tell me or skip.{waits}")]

    def _attempt(self, told: Attempt) -> list[Line]:
        if not told.given:
            return []
        self._tried = told.meant
        return [(YOU, ended(self._words.understood(told.ask, told.meant)))]

    def _reached(self, told: Reached, state: State) -> list[Line]:
        part = self._words.part(told.step)
        step = self._words.step(told.step)
        if part is None or step is None or step.say is None:
            return []
        if state.telling.ear or state.telling.questions_only:
            return []
        return [(LESSON, ended(f"Part {part[0]}: {part[1]}"))]


def moved(place: Place, plays: str = " plays") -> str:
    """The last move of a place: "White plays Nf3, knight to f3."."""
    before = Place(place.root, place.moves[:-1]).board()
    if place.last is None or place.last == "0000":
        return f"{colour_name(before.turn)} passes."
    told = say(before, chess.Move.from_uci(place.last))
    if told.shown.startswith("O-O"):
        does = told.words if plays == " plays" else told.words.replace("castles", "would castle", 1)
        return f"{colour_name(before.turn)} {does}, {told.shown}."
    return f"{colour_name(before.turn)}{plays} {told.shown}, {told.words}."


def standing(place: Place) -> str:
    """Where the board stands, in few words: after which move, and who is to move."""
    state = announce.state_of(chess.Board(place.fen))
    last = announce.last_move(place)
    if last:
        return f"The board stands as after {last}; {state}."
    if place == Place():
        return f"The starting position; {state}."
    return f"{announce.whole_position(place)}"
