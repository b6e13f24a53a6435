"""Prose against the wing: kingside and queenside, left and right, where what is told lies on the other."""

from __future__ import annotations

import re
from collections.abc import Iterator

import chess

from player.check.doubt import Doubt
from player.check.passages import Boards, Passage
from player.check.prose_words import KIND, KINDS, SQUARE, denied, sentence

_WING = r"(?P<wing>king|queen)(?:'s (?:side|wing|flank)|-?side)\b"
_HAND = re.compile(
    r"(?:\b(?:on|to|at|over on|towards?) the (?:far )?|(?:^|(?<=[.!?:] ))Look (?:to the )?)"
    r"(?P<hand>left|right)"
    r"(?= (?:side|wing|flank|edge|hand)\b|\s*(?:[.,;:!?]|$)| (?:and|but|on the board)\b)"
    r"|\b(?P<hand2>left|right)(?= (?:wing|flank)\b(?! and the wrong))"
)
_ANY = re.compile(rf"(?<!wards the )\b{_WING}")
_TOUCHED = re.compile(
    rf"\b(?:touch\w*|push\w*|play\w*|mov\w*|act\w*|go\w*|strik\w*|on) (?:on |to )?the {_WING}(?=[:,] )"
)
_RUNS = re.compile(
    rf"\b[Tt]he (?:(?P<who>white|black) )?(?P<kind>{KIND}) (?:runs|stands|is|walks|waits|sits) on the"
    r" (?P<hand>left|right)\b"
)
_ON_WING = re.compile(
    rf"\b(?P<square>{SQUARE})(?:,? (?:which )?(?:is |lies )?)?,? on the {_WING}", re.IGNORECASE
)
_MEN_OF = re.compile(r"\b(?P<wing>king|queen)side (?:pawns|majority|men)\b", re.IGNORECASE)
_ARRIVED = re.compile(
    r"\b(?P<who>White|Black)'s pawns (?:have |are )?(?:arrived|rolling|come|coming|march\w*|advanced?)\b"
    r"[^.;:]*?\bon the (?P<hand>left|right)\b"
)
_FILES_TO = re.compile(
    r"\bthe (?P<file>[a-h])-file, (?:one|two|three|four|five|six) files? to (?P<whose>his|her|its|the)"
    r" (?P<hand>left|right)\b"
)
_STEP_TO = re.compile(r"\b(?:step|file|square)s? to the (?:left|right)", re.IGNORECASE)
_MIDDLE = (3, 4)


def wing_doubts(passage: Passage, boards: Boards, side: str) -> Iterator[Doubt]:
    """Doubts about wings, and about left and right as the learner's `side` of the board sees them."""
    if passage.role in ("idea", "part"):
        return
    yield from _named(passage, boards)
    yield from _hands(passage, boards, side)


def _named(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """Kingside and queenside of a square, of the move told in the same breath, of the man asked for."""
    text = passage.text
    for found in _ON_WING.finditer(text):
        if _is_right(chess.parse_square(found["square"].lower())) != (found["wing"].lower() == "king"):
            yield _doubt(found, "wing", f"{found['square']} is on the other wing.")
    yield from _answer(passage, boards)
    for found in _TOUCHED.finditer(text):
        next_one = next((turn for at, turn in passage.turns if found.end() <= at <= found.end() + 4), None)
        near = [chess.Move.from_uci(next_one.uci).to_square] if next_one else []
        if near and not denied(text, found.start()) and not _lies(near, found["wing"] == "king"):
            yield _doubt(found, "wing", "What is told here lies on the other wing.")


def _answer(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """A wing in a nudge is the one where the man asked for stands; pawns in a question, where they go."""
    if passage.answer is None:
        return
    move = chess.Move.from_uci(passage.answer.uci)
    if passage.role == "nudge" and not boards.of(passage.answer.before).is_castling(move):
        for found in _ANY.finditer(passage.text):
            if _is_right(move.from_square) != (found["wing"] == "king"):
                yield _doubt(found, "wing", "The man that moves stands on the other side.")
    if passage.role == "question" and passage.question is not None and passage.question.kind == "move":
        for found in _MEN_OF.finditer(passage.text):
            far = _is_right(move.to_square) != (found["wing"].lower() == "king")
            if far and not re.search(r"\bcastl", passage.text):
                yield _doubt(found, "wing", f"{passage.answer.san} is on the other wing.")


def _hands(passage: Passage, boards: Boards, side: str) -> Iterator[Doubt]:
    """Left and right, which are those of whoever sits at the board and looks at it."""
    text, turned = passage.text, side == "black"
    for found in _ARRIVED.finditer(text):
        white = found["who"] == "White"
        front = [
            man
            for man in boards.of(passage.at(found.start())).pieces(chess.PAWN, white)
            if (chess.square_rank(man) if white else 7 - chess.square_rank(man)) >= 3
            and chess.square_file(man) not in _MIDDLE
        ]
        if front and not _lies(front, (found["hand"] == "right") != turned):
            yield _doubt(found, "hand", "Those pawns are on the other side of the board.")
    for found in _RUNS.finditer(text):
        men = [
            man
            for place in passage.places()
            for white in ((found["who"] == "white",) if found["who"] else chess.COLORS)
            for man in boards.of(place).pieces(KINDS[found["kind"]], white)
        ]
        if men and not _lies(men, (found["hand"] == "right") != turned):
            yield _doubt(found, "hand", f"The {found['kind']} is on the other side of the board.")
    for found in _FILES_TO.finditer(text):
        for place in passage.replied[:1]:
            if place.moves and found["whose"] != "the":
                home = chess.Move.from_uci(place.moves[0 if not passage.turns else -1]).to_square
                file = "abcdefgh".index(found["file"])
                to_right = (file > chess.square_file(home)) != turned
                if file != chess.square_file(home) and to_right != (found["hand"] == "right"):
                    yield _doubt(found, "hand", f"The {found['file']}-file lies on the other side of it.")
    for found in _HAND.finditer(text):
        group = "hand" if found["hand"] else "hand2"
        told = (one for pattern in (_ARRIVED, _RUNS, _STEP_TO) for one in pattern.finditer(text))
        if denied(text, found.start()) or any(one.start() <= found.start() < one.end() for one in told):
            continue
        near = _of_sentence(passage, found) or _spoken_of(passage)
        if near and not _lies(near, (found[group] == "right") != turned):
            yield _doubt(found, group, "What is told here lies on the other side of the board.")


def _of_sentence(passage: Passage, found: re.Match[str]) -> list[chess.Square]:
    """The squares that the sentence names, and those its moves go to."""
    text = passage.text
    first, last = sentence(text.replace(":", ","), *found.span())
    squares = [chess.parse_square(name) for name in re.findall(rf"\b{SQUARE}\b", text[first:last])]
    return squares + [
        chess.Move.from_uci(turn.uci).to_square for at, turn in passage.turns if first <= at < last
    ]


def _spoken_of(passage: Passage) -> list[chess.Square]:
    """Where the answer goes, in a question's own words; elsewhere the other side may be meant as well."""
    if passage.answer is None or passage.role not in ("question", "nudge"):
        return []
    return [chess.Move.from_uci(passage.answer.uci).to_square]


def _lies(squares: list[chess.Square], right: bool) -> bool:
    """Whether any of the squares may be said to lie on that half; the middle files are on both."""
    return any(chess.square_file(square) in _MIDDLE or _is_right(square) == right for square in squares)


def _is_right(square: chess.Square) -> bool:
    return chess.square_file(square) > 3


def _doubt(found: re.Match[str], group: str, message: str) -> Doubt:
    return Doubt(found.start(group), found.end(group), "prose-wing", message)
