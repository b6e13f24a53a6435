"""A lesson's happenings as paragraphs to read beside the board."""

from __future__ import annotations

from collections.abc import Callable

import chess

from player.cues.sheet import Sheet
from player.screen.narration import Narration
from player.session.session import Told
from player.session.words import BOARD, LESSON, YOU, Words
from player.stage.happenings import (
    Attempt,
    Board,
    Note,
    Quit,
    Reached,
    Say,
    Scoped,
)
from player.stage.state import State
from player.wording import announce
from player.world.clean import clean_line


class Scribe:
    """Writes what happens into the narration, one lesson long."""

    def __init__(self, sheet: Sheet, paper: Callable[[], Narration | None]) -> None:
        self._sheet = sheet
        self._paper = paper
        self._words = Words(sheet)
        self._saying: Say | None = None
        self._typed = ""

    def opening(self) -> None:
        """The title, who coaches, the length and the number of questions."""
        sheet = self._sheet
        ms = sheet.starts[-1] if sheet.starts else 0
        self._write(LESSON, announce.lesson_opening(sheet.title, sheet.coach, ms, len(sheet.questions)))

    def note(self, text: str) -> None:
        """A sentence of the program's own."""
        self._write(LESSON, text)

    def typed(self, words: str) -> None:
        """What the learner typed."""
        self._typed = words
        self._write(YOU, words, "you")

    def tell(self, told: Told, state: State) -> None:
        """What of this is to be read."""
        if isinstance(told, Say):
            self._say(told, state)
        elif isinstance(told, Reached):
            self._part(told, state)
        elif isinstance(told, Scoped):
            self._scope(told, state)
        elif isinstance(told, Board):
            self._board(told, state)
        elif isinstance(told, Attempt):
            self._attempt(told)
        elif isinstance(told, Note):
            who = self._words.who(told.standing)
            for line in told.text.splitlines():
                if not self._stands_last(who, line):
                    self._write(who, line, "told" if told.standing == "coach" else "said")
        elif not isinstance(told, Quit):
            self._write(LESSON, self._words.own(told, state))

    def follow(self, state: State) -> None:
        """Mark how much of the sentence has been said."""
        paper = self._paper()
        said = self._saying
        if paper is None or said is None:
            return
        frame = state.top
        if frame.doing in ("asked", "wandering", "over", "paced") or frame.step is None:
            paper.rest()
            return
        words = said.what.words
        if frame.step.key == said.step and 0 < frame.word <= len(words):
            paper.reach(*words[frame.word - 1])

    def _say(self, told: Say, state: State) -> None:
        before, self._saying = self._saying, told
        again = before is not None and before.step == told.step and before.what.shown == told.what.shown
        if again and self._last_live(told):
            return
        head = self._words.question(self._ask_key(told)) if told.role == "question" else ""
        self._write("", head, "head", depth=told.depth)
        kind = "asked" if told.role == "question" else "told" if told.standing == "coach" else "said"
        beat = f"{told.line} {told.role}" if told.role == "tell" else ""
        paper = self._paper()
        if paper is not None:
            paper.add(
                self._words.who(told.standing),
                told.what.shown,
                kind,  # type: ignore[arg-type]
                depth=told.depth,
                part_of=beat,
                live=True,
            )

    def _stands_last(self, who: str, text: str) -> bool:
        """Whether these words are the last that stand there: saying them again would only fill the paper."""
        paper = self._paper()
        last = paper.told[-1] if paper is not None and paper.told else None
        return last is not None and (last.who, last.text) == (who, clean_line(text))

    def _last_live(self, told: Say) -> bool:
        """Whether the sentence stands at the end already, so that it need not be written again."""
        paper = self._paper()
        last = paper.told[-1] if paper is not None and paper.told else None
        return last is not None and last.live and last.text.endswith(clean_line(told.what.shown))

    def _ask_key(self, told: Say) -> str:
        step = self._words.step(told.step)
        return step.ask.key if step is not None and step.ask is not None else ""

    def _part(self, told: Reached, state: State) -> None:
        part = self._words.part(told.step)
        if part is not None and not state.telling.ear and not state.telling.questions_only:
            self._write("", part[1], "head")

    def _scope(self, told: Scoped, state: State) -> None:
        scope = self._sheet.scopes[told.scope]
        if state.telling.ear:
            return
        depth = len(state.scopes) or 1
        if told.opened:
            self._write("", self._named(told.scope), "head", depth=depth)
        elif scope.kind == "imagine":
            self._write(LESSON, "The board is as it was.")
        else:
            self._write(LESSON, "Back from the aside.")

    def _named(self, index: int) -> str:
        """The name of an aside or imagined position; its title, where nobody will say it."""
        scope = self._sheet.scopes[index]
        if scope.kind in ("imagine", "retell"):
            return "Imagined" if scope.kind == "imagine" else "Once more"
        number = sum(one.kind in ("aside", "instead") for one in self._sheet.scopes[: index + 1])
        inside = self._sheet.steps[scope.first : scope.last]
        said = any(
            step.kind == "enter" and step.say is not None and bool(step.say.spoken) and not step.ear_only
            for step in inside
        )
        title = clean_line(scope.title).rstrip(".:")
        return f"Aside {number}" if said or not title else f"Aside {number}: {title}"

    def _board(self, told: Board, state: State) -> None:
        if told.why == "imagined" and not state.telling.ear:
            scope = self._sheet.scopes[state.scopes[-1]] if state.scopes else None
            if scope is not None:
                before, after = chess.Board(scope.outer.fen), chess.Board(told.place.fen)
                self._write(BOARD, announce.imagining(before, after), depth=len(state.scopes))

    def _attempt(self, told: Attempt) -> None:
        """Say what an answer was taken for, where it was not given in that very form."""
        if not told.given:
            return
        understood = self._words.understood(told.ask, told.meant)
        paper = self._paper()
        forms = {form.casefold() for form in understood.split(", ", 1)}
        if paper is not None and self._typed and clean_line(self._typed).casefold() not in forms:
            paper.amend(f"  (understood: {understood})")
        self._typed = ""

    def _write(self, who: str, text: str, kind: str = "said", *, depth: int = 0) -> None:
        paper = self._paper()
        if paper is not None and text:
            paper.add(who, text, kind, depth=depth)  # type: ignore[arg-type]
