"""Questions: what is asked, what answers it, and what is said to other answers."""

from __future__ import annotations

import chess

from player.script.answers import KINDS, answers_of, kind_of, manner_of, near_kind
from player.script.braces import Braces
from player.script.examples import EXAMPLES
from player.script.found import Found
from player.script.hearing import Lost, move_of
from player.script.here import Here, why_impossible
from player.script.model import QuestionBlock, ReplyLine, Spot
from player.script.pending import Pending
from player.script.times import length_ms
from player.script.told import AskKind, Text, ToldQuestion, ToldReply
from player.wording.san import lettered


class Questions:
    """Makes the questions of one lesson."""

    def __init__(self, found: Found, braces: Braces, language: str) -> None:
        self._found = found
        self._braces = braces
        self._language = language

    def begin(self, block: QuestionBlock, here: Here, index: int) -> Pending:
        """The question as far as it is known before its answer is told."""
        kind = self._kind(block)
        choices = tuple(line.value for line in block.choices)
        if choices and kind != "choice":
            spot = block.choices[0].spot
            self._found.fault(
                spot, "choice-not-asked", f"A question for a {kind} has no choices.", "ask: choice"
            )
        still = self._braces.still
        text = still(block.text, here, "A question")
        asked = ToldQuestion(
            kind=kind,
            text=text,
            place=here.place,
            answer=None,
            answers=self._answers(block, kind, choices, here, text.shown) if kind != "move" else (),
            choices=choices if kind == "choice" else (),
            also=self._replies(block.also, kind, choices, here, plays_on=False),
            replies=self._replies(block.replies, kind, choices, here, plays_on=True),
            otherwise=still(block.otherwise, here, "An otherwise") if block.otherwise else None,
            because=still(block.because, here, "A because") if block.because else None,
            because_given=block.because is not None,
            nudges=tuple(still(nudge, here, "A nudge") for nudge in block.nudges),
            about=tuple(name for line in block.about for name in _names(line.value)),
            think_ms=self._think(block),
            again=self._again(block),
            stamp_ms=block.stamp_ms,
            spot=block.spot,
            manner=self._manner(block),
        )
        self._same_twice(asked)
        return Pending(asked, block, here.board.copy(), index)

    def check_answer(self, pending: Pending) -> None:
        """Faults and queries that need the told answer of a move question."""
        answer = pending.answer
        if answer is None:
            return
        san = lettered(answer.san, self._language)
        for line in pending.block.answers:
            for said in _listed(line.value):
                move = move_of(pending.board, said, self._language)
                if isinstance(move, Lost):
                    self._found.fault(line.spot, move.code, move.message, f"answer: {san}")
                elif move.uci() != answer.uci:
                    self._found.fault(
                        line.spot,
                        "answer-not-told",
                        f"The move told next is {san}. Leave the answer out, "
                        "or take this move too with also.",
                        f"also {said}: Sound too.",
                    )
        for kind, replies in (("also", pending.asked.also), ("reply", pending.asked.replies)):
            for reply in replies:
                if answer.uci in reply.answers:
                    self._found.query(
                        reply.spot,
                        "reply-to-answer",
                        f"{san} is the answer itself, so this {kind} is not said.",
                    )

    def _kind(self, block: QuestionBlock) -> AskKind:
        if block.ask is None:
            return "choice" if block.choices else "move"
        kind = kind_of(block.ask.value)
        if kind is None:
            self._found.fault(
                block.ask.spot,
                "bad-ask",
                f"A question asks for one of {', '.join(KINDS)}.",
                f"ask: {near_kind(block.ask.value)}",
            )
            return "choice" if block.choices else "words" if block.answers else "move"
        return kind

    def _manner(self, block: QuestionBlock) -> tuple[str, ...]:
        """Whether the learner's reason, or how sure the learner is, is asked for beside the answer."""
        manner = () if block.ask is None else manner_of(block.ask.value)
        if manner is None and block.ask is not None:
            self._found.fault(
                block.ask.spot,
                "bad-ask",
                "After the kind may stand: reason first or reason after, and how sure.",
                "ask: move, reason first",
            )
        return manner or ()

    def _answers(
        self, block: QuestionBlock, kind: AskKind, choices: tuple[str, ...], here: Here, text: str
    ) -> tuple[str, ...]:
        """The answers given; for squares and numbers, where none is given, what the board itself answers."""
        if not block.answers and (kind == "square" or kind == "count"):
            from player.wording.asked.computed import computed_answers

            computed = computed_answers(here.board, text, kind)
            if computed is not None:
                return computed
        made: list[str] = []
        for line in block.answers:
            answers = answers_of(kind, line.value, choices)
            if isinstance(answers, str):
                self._bad_answer(answers, kind, choices, line.spot)
            else:
                made += answers
        if kind == "choice" and len(choices) < 2:
            self._found.fault(
                block.spot,
                "no-choices",
                "A question for a choice needs at least two choice: lines.",
                EXAMPLES["choice"],
            )
        if not block.answers:
            self._found.fault(
                block.spot,
                "no-answer",
                f"A question for a {kind} needs an answer: line.",
                "answer: "
                + {"square": "e4", "count": "3", "choice": choices[0] if choices else ""}.get(kind, "a pin"),
            )
        return tuple(dict.fromkeys(made))

    def _bad_answer(self, said: str, kind: AskKind, choices: tuple[str, ...], spot: Spot) -> None:
        expected = {"square": "a square", "count": "a number", "choice": "one of the choices"}.get(
            kind, "an answer"
        )
        example = {"square": "e4", "count": "3", "choice": choices[0] if choices else "yes"}.get(kind, "")
        self._found.fault(
            self._found.where(said, spot), "bad-answer", f"{said} is not {expected}.", f"answer: {example}"
        )

    def _replies(
        self,
        lines: tuple[ReplyLine, ...],
        kind: AskKind,
        choices: tuple[str, ...],
        here: Here,
        plays_on: bool,
    ) -> tuple[ToldReply, ...]:
        made = (self._reply(line, kind, choices, here, plays_on) for line in lines)
        return tuple(reply for reply in made if reply is not None)

    def _reply(
        self, line: ReplyLine, kind: AskKind, choices: tuple[str, ...], here: Here, plays_on: bool
    ) -> ToldReply | None:
        name = "A reply" if plays_on else "An also"
        if here.lost:
            return None
        if kind != "move":
            answers = answers_of(kind, line.moves, choices)
            if isinstance(answers, str):
                self._bad_answer(answers, kind, choices, line.spot)
                return None
            text = self._braces.still(line.words, here, name)
            return ToldReply(answers, (here.place,) * len(answers), text, line.spot)
        moves = self._moves(line, here)
        if not moves:
            return None
        places = tuple(here.place.then(move.uci()) for move in moves)
        text = self._after(line, moves[0], here, plays_on)
        return ToldReply(tuple(move.uci() for move in moves), places, text, line.spot)

    def _moves(self, line: ReplyLine, here: Here) -> list[chess.Move]:
        made = []
        for said in _listed(line.moves):
            move = move_of(here.board, said, self._language) if here.playable else None
            if move is None or isinstance(move, Lost):
                code, message = (
                    (move.code, move.message) if move else ("impossible-board", why_impossible(here.board))
                )
                self._found.fault(self._found.where(said, line.spot), code, message)
            elif move not in made:
                made.append(move)
        return made

    def _after(self, line: ReplyLine, move: chess.Move, here: Here, plays_on: bool) -> Text:
        """The words of an also or a reply: they see the board after the learner's move."""
        down = here.fork()
        down.play(move)
        if plays_on:
            return self._braces.told(line.words, down).text
        return self._braces.still(line.words, down, "An also")

    def _same_twice(self, asked: ToldQuestion) -> None:
        seen: set[str] = set()
        for reply in (*asked.also, *asked.replies):
            if seen & set(reply.answers):
                self._found.query(reply.spot, "reply-twice", "This answer already has its words above.")
            seen.update(reply.answers)

    def _think(self, block: QuestionBlock) -> int | None:
        if block.think is None:
            return None
        ms = length_ms(block.think.value)
        if ms is None:
            self._found.fault(
                block.think.spot, "bad-length", "A thinking time is a number of seconds.", EXAMPLES["think"]
            )
        return ms

    def _again(self, block: QuestionBlock) -> bool:
        if block.key is None:
            return False
        said = block.key.value.lower()
        if said not in ("yes", "no"):
            self._found.fault(block.key.spot, "bad-key", "key: says yes or no.", EXAMPLES["key"])
        return said == "yes"


def _listed(text: str) -> list[str]:
    return [part.strip() for part in text.split(",") if part.strip()]


def _names(value: str) -> list[str]:
    return [" ".join(part.split()) for part in value.split(",") if part.strip()]
