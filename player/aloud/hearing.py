"""What is listened for now, and when the ear is open: functions of the lesson and of what was said back."""

from __future__ import annotations

import chess

from player.aloud.talk import Talk, ask_of, board_of
from player.script.answers import NUMBERS
from player.stage.bare import ORDINALS
from player.stage.state import State
from player.voice.ears.heard import Listening
from player.voice.ears.vocabulary import VERBS, listening, what_can_be_said
from player.wording.heard_words import Phrase, Slot, choice_phrases, command_phrases
from player.wording.languages import language

_MORE = ("plainer",)
_YES_NO = {"yes": ("yes", "right"), "no": ("no", "wrong", "neither")}


def wanted(talk: Talk, state: State) -> Listening:
    """The phrases that can be said now."""
    if talk.held:
        return listening(None, VERBS["held"])
    if talk.stage == "back":
        return listening(None, VERBS["said back"])
    if talk.stage == "confirm":
        return Listening(tuple(command_phrases(_YES_NO)), lenient=True)
    if talk.stage == "doubt":
        return Listening(tuple(choice_phrases(board_of(state), talk.meaning, talk.second)), lenient=True)
    ask = ask_of(state)
    if ask is None:
        board = state.place.board() if state.top.why == "what-if" and state.place.playable else None
        return listening(board, (*VERBS["telling"], "undo", *_MORE))
    verbs = (*VERBS["asked"], *_MORE)
    if ask.kind == "move":
        answer = ask.answer.uci if ask.answer is not None else ""
        replies = [one for reply in ask.replies for one in reply.answers]
        return listening(ask.place.board(), verbs, answer=answer, replies=replies)
    spoken = listening(None, verbs).phrases
    if ask.kind == "square":
        return Listening((*_squares(), *spoken))
    if ask.kind == "count":
        return Listening((*_numbers(), *spoken))
    if ask.kind == "choice":
        return Listening((*_choices(ask.choices), *spoken))
    return Listening(spoken)


def is_open(talk: Talk, state: State) -> bool:
    """Whether, without headphones, the ear listens whenever nothing is being said."""
    return talk.busy or talk.held or state.top.doing in ("asked", "held", "wandering", "over")


def can_be_said(talk: Talk, state: State) -> str:
    """The answer to "what can I say?"."""
    ask = ask_of(state)
    board = ask.place.board() if ask is not None and ask.kind == "move" else None
    return what_can_be_said(wanted(talk, state), board)


def _squares() -> tuple[Phrase, ...]:
    words = language("en")
    files: list[Slot] = [
        ("ay" if file == 0 else chess.FILE_NAMES[file],
         *(row[file].casefold() for name, row in words.files.items() if name != "letters"))
        for file in range(8)
    ]  # fmt: skip
    return tuple(
        Phrase(chess.square_name(chess.square(file, rank)), (files[file], (words.ranks[rank],)))
        for file in range(8)
        for rank in range(8)
    )


def _numbers() -> tuple[Phrase, ...]:
    return tuple(Phrase(number, ((word,),)) for word, number in NUMBERS.items() if word != "no")


def _choices(choices: tuple[str, ...]) -> tuple[Phrase, ...]:
    found: list[Phrase] = []
    for choice, ordinal in zip(choices, ORDINALS, strict=False):
        found.append(Phrase(choice, (("the", ""), (ordinal,), ("one", ""))))
    for number, choice in enumerate(choices, 1):
        words = [word.strip(".,;:!?").casefold() for word in choice.split()]
        if words and all(word.isalpha() and word.isascii() for word in words):
            found.append(Phrase(choice, tuple((word,) for word in words)))
        spelled = next((word for word, value in NUMBERS.items() if value == str(number)), "")
        if spelled:
            found.append(Phrase(choice, (("number", ""), (spelled,))))
    return tuple(found)
