"""What every skin says in the same words: who speaks, which question it is, and what the program says."""

from __future__ import annotations

import chess

from player.cues.sheet import Ask, Sheet, Step
from player.session.session import Told
from player.stage.happenings import Noted, Over, Quit, Tuned
from player.stage.state import State
from player.voice.speaker import Notice
from player.wording.names import first_name
from player.wording.say import say
from player.world.clean import clean_line

LESSON, BOARD, YOU = "Lesson", "Board", "You"
_OTHERS = {"board": BOARD, "engine": "Engine", "search": "Search"}


class Words:
    """Words about one sheet."""

    def __init__(self, sheet: Sheet) -> None:
        self._sheet = sheet
        self._coach = first_name(sheet.coach)
        self._asks = {step.ask.key: step.ask for step in sheet.steps if step.ask is not None}
        counted = [key for key, ask in self._asks.items() if not ask.once_more]
        self._numbers = {key: number for number, key in enumerate(counted, 1)}
        self._steps = {step.key: step for step in sheet.steps}

    def who(self, standing: str) -> str:
        """Whose word it is, as a name before it."""
        return self._coach if standing == "coach" else _OTHERS.get(standing, LESSON)

    def step(self, key: str) -> Step | None:
        """The step of this key, None where the sheet has none."""
        return self._steps.get(key)

    def question(self, key: str) -> str:
        """A question by its number: "Question 2 of 8"; one from earlier: "Once more"; "" where it is not
        the sheet's.
        """
        number = self._numbers.get(key, 0)
        if number:
            return f"Question {number} of {len(self._numbers)}"
        return "Once more" if key in self._asks else ""

    def part(self, key: str) -> tuple[int, str] | None:
        """The number and title of the part that a step begins, or None where it begins none."""
        step = self._steps.get(key)
        if step is None or step.kind != "part" or not 0 <= step.part < len(self._sheet.parts):
            return None
        return step.part + 1, clean_line(self._sheet.parts[step.part].title)

    def understood(self, key: str, meant: str) -> str:
        """An answer to a question as it was understood: "Nf3, knight to f3"."""
        return understood(self._asks.get(key), meant)

    def own(self, told: Told, state: State) -> str:
        """What the program says by itself of a happening; "" where that is left to the skin."""
        if isinstance(told, Noted):
            return ended(f"In your notebook: {told.idea}")
        if isinstance(told, Tuned):
            if told.name == "set":  # a sentence follows of what became of it
                return ""
            if told.name == "wait":
                return (
                    "Questions wait for you."
                    if told.value == "on"
                    else "From here on questions pass unanswered."
                )
            return ended(f"{told.name.capitalize()}: {told.value}")
        if isinstance(told, Notice):
            return told.sentence
        if isinstance(told, Over):
            return self._over(state)
        if isinstance(told, Quit):
            return "" if told.to else farewell(state)
        return ""

    def _over(self, state: State) -> str:
        if state.telling.at_once and not state.telling.by_beat:
            return "The lesson is told."
        after = self._sheet.following
        if after is None:
            return "The lesson is told. Type quit to leave, or go to start to hear it again."
        title = clean_line(after[1]).rstrip(".")
        return (
            f"The lesson is told. Enter goes on with the next one, {title}. "
            "Type quit to leave, or go to start to hear this one again."
        )


def farewell(state: State) -> str:
    """What is said last."""
    return "Goodbye." if state.over else "Goodbye. The lesson keeps your place."


def understood(ask: Ask | None, meant: str) -> str:
    """An answer as it was understood; a move in notation and in words."""
    if ask is not None and ask.kind == "move":
        try:
            told = say(ask.place.board(), chess.Move.from_uci(meant))
        except ValueError:
            return meant
        return f"{told.shown}, {told.words}"
    return meant


def ended(text: str) -> str:
    """The text as a whole sentence."""
    text = text.strip()
    return text if text.endswith((".", "!", "?")) else f"{text}."
