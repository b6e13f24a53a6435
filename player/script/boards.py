"""What `board:` may say: the start, a FEN, words, a move of the game, moves back, or a mark."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

import chess

from player.facts.place import Place
from player.script.fens import fen_trouble
from player.script.hearing import Lost, move_of
from player.script.here import Game, Here, Line, Numbered
from player.script.told import Turn
from player.wording.san import lettered

_AFTER = re.compile(r"after\s+(?P<number>\d{1,4})\s*(?P<dots>\.\.\.|\.)\s*(?P<move>\S.*)", re.IGNORECASE)
_BACK = re.compile(r"back\s+(?P<count>\d{1,4}|[a-z]+)\s+moves?", re.IGNORECASE)
_COUNTS = {
    word: number
    for number, word in enumerate(
        ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"], 1
    )
}
_SIDE = re.compile(r"(?P<color>white|black)\b\s*:?\s*(?P<men>.*)", re.IGNORECASE)
_TO_MOVE = re.compile(r"(?P<color>white|black) (?:is )?to (?:move|play)", re.IGNORECASE)
_MAN = re.compile(r"(?P<man>[KQRBNPkqrbnp]?)(?P<square>[a-h][1-8])")
FORMS = (
    "start, a FEN, White Kd5 Ra7; Black Ke8; White to move, "
    "after 7...Nf6, back 2 moves, or the name of a mark"
)


@dataclass(frozen=True, slots=True)
class MarkMade:
    """A `mark:`: its place, and the run of moves in which it stands."""

    name: str
    place: Place
    line: Line
    game: Game
    in_game: bool


@dataclass(frozen=True, slots=True)
class Arrived:
    """Another place to go on from; `doubt` is a query about it."""

    place: Place
    in_game: bool = False
    begins_game: bool = False
    mark: MarkMade | None = None
    doubt: str = ""


@dataclass(frozen=True, slots=True)
class NoBoard:
    """A `board:` that cannot be followed."""

    code: str
    message: str
    text: str
    fix: str = ""


def mark_key(name: str) -> str:
    """Marks are the same whatever their case and blanks."""
    return " ".join(name.lower().split())


def is_reserved(name: str) -> bool:
    """Whether `board:` would take this for something other than a mark."""
    return mark_key(name) == "start" or bool(_AFTER.fullmatch(name) or _BACK.fullmatch(name)) or _is_fen(name)


def board_of(value: str, here: Here, marks: Mapping[str, MarkMade], language: str) -> Arrived | NoBoard:
    """The place that the words of a `board:` line mean, seen from here."""
    mark = marks.get(mark_key(value))
    if mark is not None:
        return Arrived(mark.place, in_game=mark.in_game, mark=mark)
    if mark_key(value) == "start":
        return Arrived(Place(), in_game=True, begins_game=True)
    if after := _AFTER.fullmatch(value):
        return _after(after, here, language)
    if back := _BACK.fullmatch(value):
        return _back(back, here, value)
    if _is_fen(value):
        return _fen(value)
    if _SIDE.match(value):
        return _words(value)
    return _unknown(value, marks)


def _is_fen(value: str) -> bool:
    return value.split(" ", 1)[0].count("/") >= 3


def _fen(value: str) -> Arrived | NoBoard:
    try:
        board = chess.Board(value)
    except ValueError:
        return NoBoard("bad-fen", fen_trouble(value), value, "board: start")
    return _settled(board, len(value.split()) > 1)


def _settled(board: chess.Board, side_given: bool) -> Arrived:
    doubts = []
    if not side_given:
        doubts.append("Nothing says who is to move here, so White is.")
    clean = board.clean_castling_rights()
    if clean != board.castling_rights:
        doubts.append("The castling rights of this board do not fit its kings and rooks; they fall.")
        board.castling_rights = clean
    return Arrived(Place(board.fen()), doubt=" ".join(doubts))


def _words(value: str) -> Arrived | NoBoard:
    board = chess.Board(None)
    side_given = False
    for section in filter(None, (part.strip(" .") for part in value.split(";"))):
        if to_move := _TO_MOVE.fullmatch(section):
            board.turn = to_move["color"].lower() == "white"
            side_given = True
            continue
        side = _SIDE.fullmatch(section)
        if not side:
            return NoBoard("bad-board", "Each part begins with White or Black.", section, _WORDS_EXAMPLE)
        men = side["men"].replace(",", " ").split()
        if not men:
            return NoBoard(
                "bad-board", f"{side['color'].title()} has no men in this part.", section, _WORDS_EXAMPLE
            )
        for text in men:
            man = _MAN.fullmatch(text)
            if not man:
                return NoBoard("bad-board", f"{text} is no man on a square.", text, _WORDS_EXAMPLE)
            square = chess.parse_square(man["square"])
            if board.piece_at(square) is not None:
                return NoBoard("bad-board", f"Two men stand on {man['square']}.", text, _WORDS_EXAMPLE)
            kind = chess.PIECE_SYMBOLS.index((man["man"] or "p").lower())
            board.set_piece_at(square, chess.Piece(kind, side["color"].lower() == "white"))
    return _settled(board, side_given)


_WORDS_EXAMPLE = "board: White Kd5 Ra7 pe5; Black Ke8 Rb6; White to move"


def _after(found: re.Match[str], here: Here, language: str) -> Arrived | NoBoard:
    number, color = int(found["number"]), found["dots"] == "."
    told = [move for move in here.game.moves if (move.number, move.color) == (number, color)]
    on_the_way = [move for move in numbered_way(here) if (move.number, move.color) == (number, color)]
    for move in (*told, *on_the_way):
        heard = move_of(move.turn.before.board(), found["move"], language)
        if not isinstance(heard, Lost) and heard.uci() == move.turn.uci:
            return Arrived(move.turn.after, in_game=True)
    count, side = f"{number}{found['dots']}", "White" if color else "Black"
    if told or on_the_way:
        san = lettered((told or on_the_way)[0].turn.san, language)
        return NoBoard(
            "after-other-move", f"{count}{san} was told in this game.", found[0], f"board: after {count}{san}"
        )
    return NoBoard(
        "after-not-told", f"{side}'s move {number} has not been told in this game.", found[0], "board: start"
    )


def numbered_way(here: Here) -> list[Numbered]:
    """The moves that led here, with their numbers."""
    way: list[Numbered] = []
    place = Place(here.place.root)
    board = place.board()
    for uci in here.place.moves:
        move = chess.Move.from_uci(uci)
        number, color, san = board.fullmove_number, board.turn, board.san_and_push(move)
        after = place.then(uci)
        way.append(Numbered(number, color, Turn(uci, san, place, after)))
        place = after
    return way


def _back(found: re.Match[str], here: Here, value: str) -> Arrived | NoBoard:
    said = found["count"].lower()
    count = int(said) if said.isdigit() else _COUNTS.get(said, 0)
    told = len(here.place.moves) - here.floor
    if not 1 <= count <= told:
        if not told:
            return NoBoard("back-too-far", "No move has been told here that could be taken back.", value)
        moves = "1 move" if told == 1 else f"{told} moves"
        return NoBoard("back-too-far", f"Only {moves} can be taken back here.", value, f"board: back {moves}")
    return Arrived(Place(here.place.root, here.place.moves[:-count]), in_game=here.in_game)


def _unknown(value: str, marks: Mapping[str, MarkMade]) -> NoBoard:
    from rapidfuzz import process

    near = process.extractOne(mark_key(value), list(marks), score_cutoff=70)
    if near:
        name = marks[near[0]].name
        return NoBoard(
            "unknown-board", f"There is no mark of this name above; there is {name}.", value, f"board: {name}"
        )
    return NoBoard("unknown-board", f"A board is {FORMS}.", value, "board: start")
