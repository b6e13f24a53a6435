"""What the player says by itself when it is only listened to: where the board goes, and what it shows.

The sentences are English whatever the language of the lesson, and name squares and men by letters; a voice
that names files otherwise is served by `speakable`.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import chess

from player.facts.place import Place
from player.wording.names import colour_name, listed, name
from player.wording.say import say

Block = str
"""The kind of an aside: "aside", "instead", "imagine", "retell", or "" for the lesson itself."""

_CALLED = {"": "lesson", "aside": "aside", "instead": "aside", "imagine": "imagined position"}
_PART = {"en": "Part", "de": "Teil", "es": "Parte", "fr": "Partie"}


def lesson_opening(title: str, coach: str, ms: int, questions: int) -> str:
    """What is told first: the title, who coaches, the length in minutes and the number of questions."""
    minutes = max(1, round(ms / 60_000))
    length = f"about {minutes} {'minute' if minutes == 1 else 'minutes'}"
    asked = "no questions" if not questions else f"{questions} question{'' if questions == 1 else 's'}"
    return f"{_heading(title, coach)}It takes {length} and has {asked}."


def questions_opening(title: str, coach: str, questions: int) -> str:
    """What is told first where only the questions are asked."""
    asked = "its one question is" if questions == 1 else f"its {questions} questions are"
    return f"{_heading(title, coach)}Only {asked} asked."


def _heading(title: str, coach: str) -> str:
    head = ", by ".join(part for part in (title.strip().rstrip("."), coach.strip().rstrip(".")) if part)
    return f"{head}{'' if head[-1] in '!?' else '.'} " if head else ""


def last_move(place: Place) -> str:
    """The last move in words, "knight to f3"; "" where none has been played since the root.

    It may follow "after" or "instead of"; check and mate are left to `state_of`.
    """
    if place.last is None:
        return ""
    if place.last == "0000":
        return "a pass"
    before = _position(Place(place.root, place.moves[:-1]))
    said = say(before, chess.Move.from_uci(place.last))
    words = said.words.rsplit(", ", 1)[0] if said.shown.endswith(("+", "#")) else said.words
    return f"castling{words.removeprefix('castles')}" if words.startswith("castles") else words


def moves_played(after: Iterable[Place]) -> str:
    """Moves that a sentence plays without saying where they go; `after` are the places after each."""
    return f"That is {', '.join(map(last_move, after))}."


def _position(place: Place) -> chess.Board:
    """The board of a place without its moves, which are slow to copy."""
    return chess.Board(place.fen)


def state_of(board: chess.Board) -> str:
    """Who is to move, or how the game has ended: "Black to move, in check"."""
    if board.king(board.turn) is not None and board.is_valid():
        if board.is_checkmate():
            return "checkmate"
        if board.is_stalemate():
            return "stalemate"
        if board.is_check():
            return f"{colour_name(board.turn)} to move, in check"
    return f"{colour_name(board.turn)} to move"


def entering(kind: Block, outer: Place, inner: Place, name_of_mark: str = "") -> str:
    """What is said where something is told that will be returned from."""
    if kind == "retell":
        return f"Once more from {name_of_mark.strip().rstrip('.')}."
    if kind == "imagine":
        return imagining(_position(outer), _position(inner))
    if kind == "instead" and inner != outer and (move := last_move(outer)):
        return f"Instead of {move}:"
    return "An aside."


def imagining(before: chess.Board, after: chess.Board) -> str:
    """How an imagined position differs from the real one, and who is to move in it."""
    return f"Imagined: {', '.join([*_changes(before, after), state_of(after)])}."


def _changes(before: chess.Board, after: chess.Board) -> list[str]:
    gone: dict[chess.Square, chess.Piece] = {}
    come: dict[chess.Square, chess.Piece] = {}
    for square in chess.SquareSet(before.occupied | after.occupied):
        was, now = before.piece_at(square), after.piece_at(square)
        if was != now:
            if was is not None:
                gone[square] = was
            if now is not None:
                come[square] = now
    moved: list[str] = []
    for end, man in list(come.items()):
        start = next((square for square, was in gone.items() if was == man), None)
        if start is not None:
            moved.append(f"the {_man(man)} from {chess.square_name(start)} on {chess.square_name(end)}")
            del gone[start], come[end]
            gone.pop(end, None)
    lost = [
        f"no {name(man.piece_type)} on {chess.square_name(square)}"
        for square, man in gone.items()
        if square not in come
    ]
    put = [f"a {_man(man)} on {chess.square_name(square)}" for square, man in come.items()]
    return lost + moved + put


def _man(man: chess.Piece) -> str:
    return f"{colour_name(man.color).lower()} {name(man.piece_type)}"


def returning(kind: Block, into: Block, place: Place) -> str:
    """Where we are back after a block of this kind; `into` is the kind of the block around it."""
    move = last_move(place)
    after = f", after {move}" if move else ""
    head = "The board is as it was" if kind == "imagine" else f"Back to the {_CALLED.get(into, 'lesson')}"
    return f"{head}{after}; {state_of(_position(place))}."


def new_board(words: str, place: Place, of_mark: bool = False) -> str:
    """What a `board:` line does, in words; `words` names a mark where `of_mark` says so."""
    board = _position(place)
    if place == Place():
        return f"The starting position; {state_of(board)}."
    move = last_move(place)
    if of_mark and move:
        return f"Back to {words.strip().rstrip('.')}, after {move}; {state_of(board)}."
    if move:
        return f"Back to the position after {move}; {state_of(board)}."
    head = f"Back to {words.strip().rstrip('.')}." if of_mark else "A new position."
    from player.wording.describe import describe

    return f"{head} {describe(board, 'pieces')}"


def whole_position(place: Place) -> str:
    """Every man on the board, and who is to move."""
    from player.wording.describe import describe

    return describe(_position(place), "pieces")


def showing(marks: Iterable[tuple[str, str, str]], meaning: str = "") -> str:
    """Marks in words; each is (kind, square, other square), the kinds being "square", "line" and "hit"."""
    squares: list[str] = []
    lines: list[str] = []
    hits: dict[str, list[str]] = {}
    for kind, square, to in marks:
        if kind == "square":
            squares.append(square)
        elif kind == "line":
            lines.append(f"the line from {square} to {to}")
        else:
            hits.setdefault(square, []).append(to)
    said = [f"the square{'s' if len(squares) > 1 else ''} {listed(squares)}"] if squares else []
    said += lines
    together: dict[tuple[str, ...], list[str]] = {}
    for square, ends in hits.items():
        together.setdefault(tuple(ends), []).append(square)
    said += [f"from {listed(starts)} to {listed([*ends])}" for ends, starts in together.items()]
    head = f"Shown as {meaning}" if meaning else "Shown"
    return f"{head}: {'; '.join(said)}." if said else f"{head}: nothing."


def part_title(title: str, language: str = "en") -> tuple[str, int]:
    """A part's title as it is announced in the lesson's language, and where in it the title begins."""
    head = f"{_PART.get(language, _PART['en'])}: "
    return f"{head}{title}{'' if title[-1:] in tuple('.!?…') else '.'}", len(head)


def with_choices(question: str, choices: Sequence[str]) -> str:
    """A question with its choices numbered after it."""
    if not choices:
        return question
    listed_choices = "; ".join(f"{number}: {choice}" for number, choice in enumerate(choices, 1))
    return f"{question} {listed_choices}.".strip()
