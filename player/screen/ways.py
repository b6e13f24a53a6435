"""What stands round the board in words: who moves, the material, the ways on, and what goes on."""

from __future__ import annotations

import chess

from player.cues.sheet import Sheet
from player.facts.material import surplus
from player.facts.place import Place
from player.script.told import Shown
from player.stage.seeking import length
from player.stage.state import State
from player.wording import announce
from player.wording.names import colour_name, listed
from player.wording.pace import clock
from player.world.clean import clean_line

_NUMBERS = ("no", "a", "two", "three", "four", "five", "six", "seven", "eight")
_WANTED = {
    "move": "your move?",
    "square": "which square?",
    "count": "how many?",
    "choice": "which of these?",
    "words": "in a few words?",
}


def to_move(place: Place) -> str:
    """Who moves, in check or not: "Black to move, in check"."""
    return announce.state_of(chess.Board(place.fen))


def last_move(place: Place) -> str:
    """The last move in notation with its number, "3... Nf6"; "" where none has been made."""
    if place.last is None or place.last == "0000":
        return ""
    before = Place(place.root, place.moves[:-1]).board()
    try:
        san = before.san(chess.Move.from_uci(place.last))
    except (ValueError, AssertionError):
        return ""
    return f"{before.fullmove_number}{'.' if before.turn else '...'} {san}"


def material(place: Place) -> str:
    """Who has more of what: "White has a knight more, Black two pawns more"."""
    more: dict[bool, list[str]] = {True: [], False: []}
    for kind, count in sorted(surplus(chess.Board(place.fen)).items(), reverse=True):
        name = chess.piece_name(kind)
        amount = abs(count)
        number = _NUMBERS[amount] if amount < len(_NUMBERS) else str(amount)
        more[count > 0].append(f"{number} {name}{'s' if amount > 1 else ''}")
    said = [f"{colour_name(side)} has {listed(men)} more" for side, men in more.items() if men]
    return ", ".join(said) if said else "Material is equal"


def shown_words(shown: Shown) -> str:
    """What the coach shows on the board, in words; "" for nothing."""
    if not shown.marks:
        return ""
    said = announce.showing([(one.kind, one.square, one.to) for one in shown.marks], shown.meaning)
    said = said.removeprefix("Shown as ")
    return said[:1].upper() + said[1:]


def captions(place: Place, shown: Shown, *, brief: bool = False) -> list[str]:
    """What stands under the board, the most important first; `brief` where there is one line for it."""
    last, words = last_move(place), shown_words(shown)
    who = f"{to_move(place).capitalize()}."
    if brief:
        equal = not surplus(chess.Board(place.fen))
        said = (who, f"{last}." if last else "", "Equal." if equal else f"{material(place)}.", words)
        return [one for one in said if one]
    return [f"{who} Last: {last}." if last else who, f"{material(place)}.", *([words] if words else [])]


def doing(state: State) -> str:
    """What goes on, in a few words: "telling 1.0x", "paused", "White to move: your move?"."""
    frame = state.top
    asked = state.asked
    if state.which is not None:
        return "which one? one word will do"
    if frame.doing == "asked" and asked is not None:
        side = "White" if asked.ask.place.board().turn else "Black"
        wanted = _WANTED[asked.ask.kind]
        return f"{side} to move: {wanted}" if asked.ask.kind == "move" else f"A question: {wanted}"
    if frame.doing == "held":
        return "paused: Enter goes on"
    if frame.doing == "paced":
        return "Enter goes on"
    if frame.doing == "wandering":
        return "trying moves: 'home' goes back"
    if frame.doing == "over":
        on = state.sheet.following is not None
        return "the lesson is told: Enter goes on with the next" if on else "the lesson is told"
    return (
        f"telling {state.telling.speed:.3g}x"
        if state.telling.speed % 1
        else f"telling {state.telling.speed:.1f}x"
    )


def where(state: State) -> str:
    """The part, and the time in the lesson: "3:20 of 9:10  |  The wedge"."""
    sheet = state.sheet
    if not sheet.steps:
        return ""
    at = min(state.lesson.at, len(sheet.steps) - 1)
    part = sheet.steps[at].part
    title = clean_line(sheet.parts[part].title) if part >= 0 else ""
    if not sheet.starts:
        return title
    time = f"{clock(sheet.starts[at])} of {clock(sheet.starts[-1])}"
    return f"{time}  |  {title}" if title else time


def ways(state: State, lines: int) -> list[str]:
    """The ways on in at most so many lines: the lesson, then asides from here on, then the next parts."""
    sheet = state.sheet
    if not sheet.steps or lines <= 0:
        return []
    at = min(state.lesson.at, len(sheet.steps) - 1)
    part = sheet.steps[at].part
    asides = asides_near(sheet, at)
    parts = [
        f"part {number + 1}: {clean_line(one.title)}"
        for number, one in enumerate(sheet.parts)
        if number > part
    ]
    keep = max(1, lines - min(len(asides), max(lines - 1, 1)))
    return [*asides[: max(1, lines - 1)], *parts[:keep]][:lines]


def asides_near(sheet: Sheet, at: int) -> list[str]:
    """The asides as "aside 2, 25 s: TITLE": those from here on first, then those before."""
    named = []
    number = 0
    for index, scope in enumerate(sheet.scopes):
        if scope.kind in ("aside", "instead"):
            number += 1
            title = clean_line(scope.title).rstrip(".:")
            named.append((scope.last < at, number, f"aside {number}, {length(sheet, index)}: {title}"))
    return [text for _, _, text in sorted(named)]
