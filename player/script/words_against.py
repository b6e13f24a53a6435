"""Words in a brace against its move: what they name must be so."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

import chess

from player.script.deeds_against import deeds_against
from player.script.found import Found
from player.script.model import Spot
from player.script.movefacts import MoveFacts
from player.script.vocabulary import Vocabulary, vocabulary
from player.wording.san import lettered

_SQUARE = re.compile(
    r"(?<![A-Za-z0-9])(?P<letter>[A-Z])?[a-h]?[1-8]?x?(?P<square>[a-h][1-8]|(?<![A-Z])[A-H][1-8])(?![0-9])"
)

_LOOKING = re.compile(
    r"\b(?:(?P<against>attack|hit|ey|threaten|chas|bother|annoy|kick|pin|ask|question)|"
    r"(?P<beside>guard|defend|protect|cover|support)|touch|watch|see|look|star|aim|point|glanc)"
    r"(?:e?s|e|ing)? "
    r"(?:(?:at|on|towards?|through to) )?"
    r"(?:(?:the|a|an|his|her|our|my|your|their|its|that|this|both|own|white|black|white's|black's|on|pawn|knight"
    r"|bishop|rook|queen|king|and|[a-h][1-8](?: and|,)) )*$",
    re.IGNORECASE,
)
_FILE = re.compile(r"\b(?P<file>[a-h])-file\b", re.IGNORECASE)


def words_against(words: str, deeds: Sequence[MoveFacts], spot: Spot, found: Found, language: str) -> None:
    """Faults where the words of a brace name what none of its moves is.

    A man must be the mover, the captured, the promoted or the checking one (or the king that is in check); a
    square must be an end of the move; a capture, check, side or wing must be so.
    """
    if not words or not deeds:
        return
    said = vocabulary(language)
    if said.idle:
        words = said.idle.sub(" ", words)
    sans = " ".join(lettered(deed.san, language) for deed in deeds)
    for text, code, message in _wrong(words, deeds, said):
        found.fault(found.where(text, spot), code, message.format(text=text, move=sans), f"{{{sans}}}")
    for file in _FILE.finditer(words) if said.capture else ():
        if not any("abcdefgh".index(file["file"].lower()) in deed.files for deed in deeds):
            spot_of = found.where(file[0], spot)
            found.query(
                spot_of, "other-file", f"{sans} neither begins nor ends on the {file[0]}.", f"{{{sans}}}"
            )


def _wrong(words: str, deeds: Sequence[MoveFacts], said: Vocabulary) -> Iterator[tuple[str, str, str]]:
    """The part of the words that is not so, a fault's code, and what to say of it."""
    yield from _men_and_squares(words, deeds, said)
    for check in said.check.finditer(words):
        mate = bool(said.mate.fullmatch(check[0]))
        if not said.is_denied(words, check) and not any(
            deed.mates if mate else deed.checks for deed in deeds
        ):
            yield check[0], "no-check", "{move} is not mate." if mate else "{move} does not give check."
    for capture in said.capture.finditer(words) if said.capture else ():
        passant = capture[0].lower() == "en passant"
        if not said.is_denied(words, capture) and not any(
            deed.en_passant if passant else deed.captures for deed in deeds
        ):
            yield (
                capture[0],
                "no-capture",
                "{move} is not en passant." if passant else "{move} takes nothing.",
            )
    castles = re.search(r"\bcastl", words, re.IGNORECASE)
    for wing in said.wing.finditer(words) if said.wing else ():
        half = range(4, 8) if wing["wing"].lower() == "king" else range(4)
        if not any(_is_on(half, deed) or (castles and not deed.castles) for deed in deeds):
            yield wing[0], "other-wing", "{move} is not on the {text}."
    yield from deeds_against(words, deeds, said)
    side = said.side.match(words) if said.side else None
    if side and not any(deed.mover == (side["color"] == "White") for deed in deeds):
        yield side["color"], "other-side", "{move} is not a move of {text}."


def _men_and_squares(
    words: str, deeds: Sequence[MoveFacts], said: Vocabulary
) -> Iterator[tuple[str, str, str]]:
    for man in said.man.finditer(words):
        looking = said.capture and _LOOKING.search(words, 0, man.start())
        if looking and any(_sees(man, said, deed, looking) for deed in deeds):
            continue
        if not any(_names(man, said, deed) for deed in deeds):
            yield man[0], "other-man", "In {move} no {text} moves, is taken, is made or gives check."
    for square in _SQUARE.finditer(words):
        letter = square["letter"]
        kind = said.letters.get(letter) if letter else None
        if kind and not any(kind in {man for man, _ in deed.men} for deed in deeds):
            yield square[0], "other-man", "{text} names another man than {move} moves."
            continue
        named = chess.parse_square(square["square"].lower())
        looking = said.capture and _LOOKING.search(words, 0, square.start())
        if looking and any(named in deed.looks for deed in deeds):
            continue
        if not any(named in deed.squares for deed in deeds):
            yield square["square"], "other-square", "{move} neither begins nor ends on {text}."


def _sees(man: re.Match[str], said: Vocabulary, deed: MoveFacts, looking: re.Match[str]) -> bool:
    """Whether the man that moved looks at such a man, of the side that the verb means."""
    named = man.groupdict().get("color")
    own = None if not (looking["against"] or looking["beside"]) else bool(looking["beside"])
    return any(
        (said.kinds[man["man"].lower()], color) in deed.seen
        for color in chess.COLORS
        if (named is None or color == (named.lower() == "white")) and own in (None, color == deed.mover)
    )


def _names(man: re.Match[str], said: Vocabulary, deed: MoveFacts) -> bool:
    kind = said.kinds[man["man"].lower()]
    parts = man.groupdict()
    if parts.get("file") and "abcdefgh".index(parts["file"].lower()) not in deed.files:
        return False
    if parts.get("color"):
        return (kind, parts["color"].lower() == "white") in deed.men
    return any(kind == other for other, _ in deed.men)


def _is_on(half: range, deed: MoveFacts) -> bool:
    """Whether a move has to do with one half of the board; castling must lie on it altogether."""
    files = [chess.square_file(square) for square in deed.squares]
    if deed.castles:
        return all(file in half for file in files if file != 4)
    return any(file in half for file in files)
