"""Where you are in the lesson, who moves, and the ways on."""

from __future__ import annotations

from player.stage.state import State
from player.wording.prose import speakable

MOST_WORDS = 20
"""No more is said of it: an answer that is only listened to must be short (counted as it is spoken)."""

_SHORTER = 5


def where_text(state: State) -> str:
    """Part, asides that are open, the last move, who moves and how much is left, in `MOST_WORDS` at most.

    Where that is too much, outer asides go first, then the part's title, words round the last move, the
    aside's title, and how much is left.
    """
    for less in range(_SHORTER + 1):
        text = " ".join(_said(state, less))
        if _words(text) <= MOST_WORDS:
            break
    return text


def _words(text: str) -> int:
    return max(len(text.split()), len(speakable(text, language="en").spoken.split()))


def _said(state: State, less: int) -> list[str]:
    """The sentences, the first `less` ways of being shorter taken."""
    sheet = state.sheet
    at = min(state.lesson.at, len(sheet.steps) - 1) if sheet.steps else 0
    said: list[str] = []
    part = sheet.steps[at].part if sheet.steps else -1
    if part >= 0:
        title = f", {sheet.parts[part].title}" if less < 2 else ""
        said.append(f"Part {part + 1} of {len(sheet.parts)}{title}.")
    said += _asides(state, less)
    if state.top.why == "what-if":
        said.append("You are trying moves; 'home' goes back." if less < 3 else "You are trying moves.")
    said.append(_stands(state, short=less >= 3))
    if state.over:
        said.append("The lesson is told.")
    elif sheet.starts and less < 5 and not state.telling.questions_only:
        left = max(0, sheet.starts[-1] - sheet.starts[at])
        minutes = max(1, round(left / 60_000))
        said.append(f"About {minutes} minute{'s' if minutes != 1 else ''} left.")
    return said


def _asides(state: State, less: int) -> list[str]:
    said: list[str] = []
    for scope in state.scopes if less < 1 else state.scopes[-1:]:
        one = state.sheet.scopes[scope]
        if one.kind == "imagine":
            said.append("In an imagined position.")
        else:
            said.append("In an aside." if less >= 4 else f"In an aside: {one.title}.")
    return said


def _stands(state: State, *, short: bool) -> str:
    """The last move and who is to move."""
    board = state.place.board()
    turn = f"{'White' if board.turn else 'Black'} to move."
    if not state.place.moves:
        return turn
    last = board.pop()
    san = board.san(last)
    return f"After {san}, {turn}" if short else f"The last move was {san}. {turn}"


def ways_on(state: State) -> tuple[tuple[str, int], ...]:
    """The asides still to come or told, by title, with their length in ms: naming one walks it."""
    sheet = state.sheet
    return tuple(
        (scope.title, sheet.starts[scope.last] - sheet.starts[scope.first])
        for scope in sheet.scopes
        if scope.kind in ("aside", "instead")
    )
