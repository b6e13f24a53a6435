"""Every form of a claim: its sentence, an example, and the data it makes."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

import chess

from player.facts.claim import Claim
from player.wording.claim_words import NUMBER, number_of, surplus_of

_COLOUR = "white|black"
_SQUARE = "[a-h][1-8]"
_MAN = "pawn|knight|bishop|rook|queen|king|piece|man"
_MOVE = (
    r"[oO0]-[oO0](?:-[oO0])?[+#!?]*"
    r"|(?:\d+\.+ ?)?[kqrbn]?[a-h]?[1-8]?[x-]?[a-h][1-8](?:=?[qrbn])?(?: ?e\.?p\.?)?[+#!?]*"
)
_SLOTS = {
    "colour": f"(?P<colour>{_COLOUR})",
    "man": rf"(?:(?P<side>{_COLOUR}) )?(?P<man>{_MAN}) on (?P<square>{_SQUARE})",
    "pawn": rf"(?:(?P<side>{_COLOUR}) )?(?P<man>pawn) on (?P<square>{_SQUARE})",
    "square": f"(?P<square>{_SQUARE})",
    "one": f"(?P<one>{_SQUARE})",
    "two": f"(?P<two>{_SQUARE})",
    "squares": f"(?P<squares>{_SQUARE}(?:(?:, ?| and |, and ){_SQUARE})+)",
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
        return self.slots.get(name) or ""

    @property
    def colour(self) -> bool | None:
        return _colour(self("colour"))

    @property
    def number(self) -> int | None:
        return number_of(self("number")) if self("number") else None

    def square(self, name: str = "square") -> chess.Square | None:
        return chess.parse_square(self(name).casefold()) if self(name) else None

    def squares(self) -> tuple[chess.Square, ...]:
        names = re.findall(_SQUARE, f"{self('squares')} {self('one')} {self('two')}".casefold())
        return tuple(chess.parse_square(name) for name in names)


def _colour(word: str) -> bool | None:
    return word.casefold() == "white" if word else None


Maker = Callable[[Filled], Claim | None]


@dataclass(frozen=True, slots=True)
class Form:
    """A sentence form, matched against a claim's plain words."""

    pattern: re.Pattern[str]
    example: str
    make: Maker


def _plain(kind: str, word: str = "", number: int | None = None) -> Maker:
    """A maker that puts every slot where it belongs."""

    def make(filled: Filled) -> Claim:
        man = filled("man").casefold()
        return Claim(
            kind,
            colour=filled.colour,
            man=chess.PIECE_NAMES.index(man) if man in chess.PIECE_NAMES else None,
            man_colour=_colour(filled("side")),
            square=filled.square(),
            squares=filled.squares(),
            move=filled("move"),
            reply=filled("reply"),
            number=number if number is not None else filled.number,
            word=word or filled("word").casefold(),
        )

    return make


def _file(filled: Filled) -> Claim:
    word = filled("word").casefold().replace(" ", "-")
    return Claim("file", colour=filled.colour, number="abcdefgh".index(filled("file").casefold()), word=word)


def _up(filled: Filled) -> Claim | None:
    counts = surplus_of(filled.things)
    if counts is None or filled.colour is None or not any(counts):
        return None
    down = filled("word").casefold() == "down"
    return Claim("material", colour=filled.colour != down, counts=counts)


def _wins(filled: Filled) -> Claim | None:
    counts = surplus_of(filled.things)
    if counts is None:
        return None
    amount = sum(n * each for n, each in zip(counts, (1, 3, 5, 9), strict=True))
    return Claim("wins", move=filled("move"), number=amount) if amount > 0 else None


def _label(filled: Filled) -> Claim:
    return Claim("same", word=" ".join(filled.things.casefold().split()))


def _form(sentence: str, example: str, make: Maker) -> Form:
    pattern = re.sub(r"\{(\w+)\}", lambda slot: _SLOTS[slot[1]], sentence)
    return Form(re.compile(pattern, re.IGNORECASE), example, make)


FORMS: tuple[Form, ...] = (
    _form("{man} attacked", "the knight on f6 is attacked", _plain("attacked")),
    _form("{colour} attacks {square}(?: {times})?", "White attacks e4 2 times", _plain("attacks")),
    _form("{man} (?:undefended|unguarded)", "the knight on f6 is undefended", _plain("guarded", number=0)),
    _form("{man} guarded(?: {times})?", "the knight on f6 is guarded 2 times", _plain("guarded")),
    _form("{man} pinned", "the knight on f6 is pinned", _plain("pinned")),
    _form("{man} pinned to {one}", "the knight on f6 is pinned to d8", _plain("pinned")),
    _form("{move} legal(?: move)?", "Nf3 is legal", _plain("legal")),
    _form("{move} only(?: legal)? move", "Kf8 is the only legal move", _plain("only move")),
    _form("{move} (?:gives )?check", "Bb5 is check", _plain("check")),
    _form("{move} (?:gives )?double check", "Nf6 is double check", _plain("check", "double")),
    _form("{move} (?:gives )?discovered check", "Nf6 is discovered check", _plain("check", "discovered")),
    _form("{move} (?:check)?mate", "Qg7 is mate", _plain("mate")),
    _form("{moved}forks {squares}", "Nc7 forks e8 and a8", _plain("forks")),
    _form("{moved}discovers(?: an)? attack on {one}", "Nf6 discovers an attack on a8", _plain("discovers")),
    _form("{moved}skewers {one} and {two}", "Bg2 skewers d5 and b7", _plain("skewers")),
    _form("{moved}threatens (?:check)?mate", "Qh6 threatens mate", _plain("threatens", "mate")),
    _form("{moved}threatens {reply}", "Bg5 threatens Bxf6", _plain("threatens")),
    _form("{moved}wins {things}", "Nc7 wins the exchange", _wins),
    _form("{colour} has {number}(?: legal)? moves?", "Black has 4 legal moves", _plain("moves of side")),
    _form("{man} has {number}(?: legal)? moves?", "the king on e8 has 1 move", _plain("moves of man")),
    _form("{colour} in check", "White is in check", _plain("in check")),
    _form("(?:it |position )?stalemate", "stalemate", _plain("stalemate")),
    _form("(?:it |position )?checkmate", "checkmate", _plain("checkmate")),
    _form("(?:it )?mate in {number}", "mate in 2", _plain("mate in")),
    _form("{file} (?P<word>open|closed)", "the e-file is open", _file),
    _form("{file} (?P<word>half[- ]open) for {colour}", "the e-file is half-open for White", _file),
    _form("{one}-{two} (?P<word>open|closed)", "g2-d5 is closed", _plain("line")),
    _form("{square} outpost for {colour}", "d5 is an outpost for White", _plain("outpost")),
    _form(
        "{pawn} (?P<word>passed|isolated|doubled|backward)(?: pawn)?",
        "the pawn on d4 is passed",
        _plain("pawn"),
    ),
    _form("{colour} (?P<word>up|down) {things}", "White is up a pawn", _up),
    _form("{colour} (?P<things>.+) (?P<word>up|down)", "Black is a piece up", _up),
    _form("material (?:equal|even)", "material is equal", _plain("material")),
    _form("{colour} has bishop pair", "White has the bishop pair", _plain("bishop pair")),
    _form("bishops of opposite colou?rs", "the bishops are of opposite colours", _plain("opposite bishops")),
    _form(
        "{colour} may castle(?: (?P<word>kingside|queenside))?",
        "White may castle kingside",
        _plain("may castle"),
    ),
    _form("{colour} has lost right to castle", "Black has lost the right to castle", _plain("lost castling")),
    _form("rooks of {colour} connected", "the rooks of White are connected", _plain("rooks connected")),
    _form("{colour} has opposition", "Black has the opposition", _plain("opposition")),
    _form(
        "(?:{colour} )?king inside square of {pawn}",
        "the king is inside the square of the pawn on a4",
        _plain("in the square"),
    ),
    _form("{colour} wins with best play", "White wins with best play", _plain("wins with best play")),
    _form("position (?:drawn|draw)", "the position is drawn", _plain("drawn")),
    _form(
        "(?:it |position )?(?:third|threefold) repetition",
        "it is a threefold repetition",
        _plain("repetition", number=3),
    ),
    _form("(?:it |position )?repetition", "it is a repetition", _plain("repetition")),
    _form("(?:it )?move {number} of fifty", "it is move 12 of fifty", _plain("fifty")),
    _form("en passant possible", "en passant is possible", _plain("en passant")),
    _form("{colour} has move", "White has the move", _plain("has the move")),
    _form("(?:position )?same as {things}", "the position is the same as the first door", _label),
)
EXAMPLES = (
    *dict.fromkeys(form.example for form in FORMS),
    "after Ng5 Be7, g2-d5 is open",
    "if White passes, Bd6 is legal",
)
"""One sentence a form."""
