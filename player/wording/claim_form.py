"""What a form of a claim is: a sentence with slots, an example, and the data it makes."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache

import chess

from player.facts.claim import Claim
from player.wording.claim_words import NUMBER, number_of

_COLOUR = "white|black"
_SQUARE = "[a-h][1-8]"
_MAN = "pawn|knight|bishop|rook|queen|king|piece|man"
# A square, or the man that is said to stand on it.
_PLACE = rf"(?:(?:(?:{_COLOUR}) )?(?:{_MAN}) on )?{_SQUARE}"
_MOVE = (
    r"[oO0]-[oO0](?:-[oO0])?[+#!?]*"
    r"|(?:\d+\.+ ?)?[kqrbn]?[a-h]?[1-8]?[x-]?[a-h][1-8](?:=?[qrbn])?(?: ?e\.?p\.?)?[+#!?]*"
)
_SLOTS = {
    "colour": f"(?P<colour>{_COLOUR})",
    "man": rf"(?:(?P<side>{_COLOUR}) )?(?P<man>{_MAN}) on (?P<square>{_SQUARE})",
    "letter": rf"(?P<letter>[kqrbn])(?P<square>{_SQUARE})",
    "pawn": rf"(?:(?P<side>{_COLOUR}) )?(?P<man>pawn) on (?P<square>{_SQUARE})",
    "square": f"(?P<square>{_SQUARE})",
    "one": f"(?P<one>{_PLACE})",
    "two": f"(?P<two>{_PLACE})",
    "squares": f"(?P<squares>{_PLACE}(?:(?:, ?| and |, and ){_PLACE})+)",
    "move": f"(?P<move>{_MOVE})",
    "moved": f"(?:(?P<move>{_MOVE}) )?",
    "reply": f"(?P<reply>{_MOVE})",
    "times": f"(?P<number>{NUMBER})(?: times?)?",
    "number": f"(?P<number>{NUMBER})",
    "file": "(?P<file>[a-h])-file",
    "things": "(?P<things>.+)",
}


@dataclass(frozen=True, slots=True)
class Filled:
    """The slots of a form as its sentence filled them."""

    slots: dict[str, str | None]
    things: str = ""

    def __call__(self, name: str) -> str:
        return self.slots.get(name) or self.slots.get(f"{name}_2") or ""

    @property
    def colour(self) -> bool | None:
        return _colour(self("colour"))

    @property
    def number(self) -> int | None:
        return number_of(self("number")) if self("number") else None

    def square(self, name: str = "square") -> chess.Square | None:
        return chess.parse_square(self(name).casefold()) if self(name) else None

    def places(self) -> list[tuple[chess.PieceType | None, chess.Square]]:
        """The squares of the sentence in order, each with the kind of man said to stand there."""
        said = f"{self('squares')} {self('one')} {self('two')}".casefold()
        found = re.findall(rf"(?:({_MAN}) on )?({_SQUARE})", said)
        return [(kind_of(man), chess.parse_square(square)) for man, square in found]


def _colour(word: str) -> bool | None:
    return word.casefold() == "white" if word else None


def kind_of(word: str) -> chess.PieceType | None:
    """The kind of man a word or a letter names; None for any man."""
    word = word.casefold()
    if word in chess.PIECE_SYMBOLS[1:]:
        return chess.PIECE_SYMBOLS.index(word)
    return chess.PIECE_NAMES.index(word) if word in chess.PIECE_NAMES else None


Maker = Callable[[Filled], Claim | None]


@dataclass(frozen=True, slots=True)
class Form:
    """A sentence form, matched against a claim's plain words."""

    sentence: str
    example: str
    make: Maker

    @property
    def pattern(self) -> re.Pattern[str]:
        """The pattern of the sentence; made when it is first needed, for making them all takes a while."""
        return _pattern(self.sentence)


def plain(kind: str, word: str = "", number: int | None = None) -> Maker:
    """A maker that puts every slot where it belongs."""

    def make(filled: Filled) -> Claim:
        places = filled.places()
        return Claim(
            kind,
            colour=filled.colour,
            man=kind_of(filled("man") or filled("letter")),
            man_colour=_colour(filled("side")),
            square=filled.square(),
            squares=tuple(square for _, square in places),
            men=tuple(man for man, _ in places) if any(man for man, _ in places) else (),
            move=filled("move"),
            reply=filled("reply"),
            number=number if number is not None else filled.number,
            word=word or filled("word").casefold(),
        )

    return make


def form(example: str, make: Maker, *sentences: str) -> tuple[Form, ...]:
    """One form for each wording; `{slots}` stand for what changes, and the rest is a pattern."""
    return tuple(Form(sentence, example, make) for sentence in sentences)


@cache
def _pattern(sentence: str) -> re.Pattern[str]:
    """The pattern of a sentence. A slot said twice in one wording is said in two alternatives."""
    seen: set[str] = set()

    def filled(slot: re.Match[str]) -> str:
        pattern = _SLOTS[slot[1]]
        names = set(re.findall(r"\(\?P<(\w+)>", pattern))
        twice = names & seen
        seen.update(names)
        for name in twice:
            pattern = pattern.replace(f"(?P<{name}>", f"(?P<{name}_2>")
        return pattern

    return re.compile(re.sub(r"\{(\w+)\}", filled, sentence), re.IGNORECASE)
