"""Words in a brace against its move: what they name must be so."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import chess

from player.script.found import Found
from player.script.model import Spot

_MEN = {name: kind for kind, name in enumerate(chess.PIECE_NAMES) if name}
_LETTERS = {"K": chess.KING, "Q": chess.QUEEN, "R": chess.ROOK, "B": chess.BISHOP, "N": chess.KNIGHT}
_MAN = re.compile(
    rf"\b(?:(?P<color>white|black)(?:'s)? )?(?:(?P<file>[a-h])-)?(?P<man>{'|'.join(_MEN)})s?\b(?!')",
    re.IGNORECASE,
)
_SQUARE = re.compile(r"(?<![A-Za-z0-9])(?P<letter>[KQRBN])?[a-h]?[1-8]?x?(?P<square>[a-h][1-8])(?![0-9])")
_NEGATED = re.compile(
    r"\b(?:no|not|never|without|instead of|rather than|nor|cannot|avoid\w*|stop\w*|prevent\w*|before|"
    r"if|would|could|threat\w*|next|plan\w*|ready|prepar\w*|want\w*|hop\w*|about|allow\w*|against|to)\b|n't\b",
    re.IGNORECASE,
)
_CAPTURE = re.compile(
    r"\b(?:(?:re)?captur(?:es?|ed|ing)|takes? back|taking back|"
    r"(?:takes?|taking|took|snaps?|grabs?|wins?) (?:off )?(?:on [a-h][1-8]|[a-h][1-8]|"
    r"(?:the|a|that|this|his|her|its|white's|black's) (?:[a-h]-)?(?:pawn|knight|bishop|rook|queen))|"
    r"takes(?=$|[.,;!])|en passant)\b",
    re.IGNORECASE,
)
_CHECK = re.compile(
    r"\b(?:checks?|checking|checkmates?|mates?|mating)\b(?! (?:that|whether|if|out|up)\b)", re.IGNORECASE
)
_WING = re.compile(r"\b(?P<wing>king|queen)(?:'s )?-?\s?(?:side|wing|flank)\b", re.IGNORECASE)
_SIDE = re.compile(
    r"^(?:(?:and|now|then|so|here|but|at once|again)\s+)*(?P<color>White|Black)(?:'s (?!turn)| [a-z])"
)


@dataclass(frozen=True, slots=True)
class MoveFacts:
    """What one move is made of, as far as words can name it."""

    san: str
    mover: chess.Color
    men: frozenset[tuple[chess.PieceType, chess.Color]]
    files: frozenset[int]
    squares: frozenset[int]
    captures: bool
    en_passant: bool
    checks: bool
    mates: bool
    castles: bool


def words_against(words: str, deeds: Sequence[MoveFacts], spot: Spot, found: Found, language: str) -> None:
    """Faults where the words of a brace name what none of its moves is.

    A man must be the mover, the captured, the promoted or the checking one (or the king that is in check); a
    square must be an end of the move; a capture, check, side or wing must be so.
    """
    if language != "en" or not words or not deeds:
        return
    sans = " ".join(deed.san for deed in deeds)
    for text, code, message in _wrong(words, deeds):
        found.fault(found.where(text, spot), code, message.format(text=text, move=sans), f"{{{sans}}}")


def _wrong(words: str, deeds: Sequence[MoveFacts]) -> Iterable[tuple[str, str, str]]:
    for man in _MAN.finditer(words):
        if not any(_names(man, deed) for deed in deeds):
            yield (
                man[0],
                "other-man",
                "{move} has no {text} in it: neither moves, nor is taken, nor gives check.",
            )
    for square in _SQUARE.finditer(words):
        letter = square["letter"]
        if letter and not any(_LETTERS[letter] in {kind for kind, _ in deed.men} for deed in deeds):
            yield square[0], "other-man", "{text} names another man than {move} moves."
        elif not any(chess.parse_square(square["square"]) in deed.squares for deed in deeds):
            yield square["square"], "other-square", "{move} neither begins nor ends on {text}."
    for capture in _CAPTURE.finditer(words):
        if not _is_negated(words, capture) and not any(
            deed.en_passant if capture[0].lower() == "en passant" else deed.captures for deed in deeds
        ):
            passant = capture[0].lower() == "en passant"
            yield (
                capture[0],
                "no-capture",
                "{move} is not en passant." if passant else "{move} takes nothing.",
            )
    for check in _CHECK.finditer(words):
        mate = "mat" in check[0].lower()
        if not _is_negated(words, check) and not any(deed.mates if mate else deed.checks for deed in deeds):
            yield check[0], "no-check", "{move} is not mate." if mate else "{move} does not give check."
    castles = re.search(r"\bcastl", words, re.IGNORECASE)
    for wing in _WING.finditer(words):
        half = range(4, 8) if wing["wing"].lower() == "king" else range(4)
        if not any(_is_on(half, deed) or (castles and not deed.castles) for deed in deeds):
            yield wing[0], "other-wing", "{move} is not on the {text}."
    side = _SIDE.match(words)
    if side and not any(deed.mover == (side["color"] == "White") for deed in deeds):
        yield side["color"], "other-side", "{move} is not a move of {text}."


def _names(man: re.Match[str], deed: MoveFacts) -> bool:
    kind = _MEN[man["man"].lower()]
    if man["file"] and "abcdefgh".index(man["file"].lower()) not in deed.files:
        return False
    if man["color"]:
        return (kind, man["color"].lower() == "white") in deed.men
    return any(kind == other for other, _ in deed.men)


def _is_on(half: range, deed: MoveFacts) -> bool:
    if deed.castles:
        return all(
            chess.square_file(square) in half for square in deed.squares if chess.square_file(square) != 4
        )
    return any(chess.square_file(square) in half for square in deed.squares)


def _is_negated(words: str, found: re.Match[str]) -> bool:
    before = re.split(r"[,;:.!?]", words[: found.start()])[-1]
    return bool(_NEGATED.search(before))


def move_facts(board: chess.Board, move: chess.Move) -> MoveFacts:
    """The facts of a legal move; the board is left as it was."""
    san = board.san(move)
    mover = board.turn
    squares = {move.from_square, move.to_square}
    men: set[tuple[chess.PieceType, chess.Color]] = set()
    moved = board.piece_type_at(move.from_square)
    castles, en_passant = board.is_castling(move), board.is_en_passant(move)
    if moved:
        men.add((moved, mover))
    if castles:
        men.add((chess.ROOK, mover))
        rank = chess.square_rank(move.from_square)
        files = (7, 5) if chess.square_file(move.to_square) > 4 else (0, 3)
        squares |= {chess.square(file, rank) for file in files}
    if en_passant:
        men.add((chess.PAWN, not mover))
        squares.add(chess.square(chess.square_file(move.to_square), chess.square_rank(move.from_square)))
    elif board.is_capture(move):
        taken = board.piece_type_at(move.to_square)
        if taken:
            men.add((taken, not mover))
    captures = board.is_capture(move)
    if move.promotion:
        men.add((move.promotion, mover))
    board.push(move)
    checkers = board.checkers()
    for square in checkers:
        kind = board.piece_type_at(square)
        if kind:
            men.add((kind, mover))
    if checkers:
        men.add((chess.KING, not mover))
        squares |= set(checkers)
    mates = bool(checkers) and board.is_checkmate()
    board.pop()
    return MoveFacts(
        san=san,
        mover=mover,
        men=frozenset(men),
        files=frozenset(chess.square_file(square) for square in squares),
        squares=frozenset(squares),
        captures=captures,
        en_passant=en_passant,
        checks=bool(checkers),
        mates=mates,
        castles=castles,
    )
