"""Where you are in the lesson, who moves, and the ways on."""

from __future__ import annotations

from player.stage.state import State


def where_text(state: State) -> str:
    """Part, asides that are open, the last move, who moves and how much is left, in a few sentences."""
    sheet = state.sheet
    frame = state.lesson
    at = min(frame.at, len(sheet.steps) - 1) if sheet.steps else 0
    said: list[str] = []
    part = sheet.steps[at].part if sheet.steps else -1
    if part >= 0:
        said.append(f"Part {part + 1} of {len(sheet.parts)}, {sheet.parts[part].title}.")
    for scope in state.scopes:
        kind = sheet.scopes[scope].kind
        said.append(
            "In an imagined position." if kind == "imagine" else f"In an aside: {sheet.scopes[scope].title}."
        )
    if state.top.why == "what-if":
        said.append("You are trying moves; 'home' goes back.")
    board = state.place.board()
    if state.place.moves:
        last = board.pop()
        said.append(f"The last move was {board.san(last)}.")
        board.push(last)
    said.append(f"{'White' if board.turn else 'Black'} to move.")
    if state.over:
        said.append("The lesson is told.")
    elif sheet.starts:
        left = max(0, sheet.starts[-1] - sheet.starts[at])
        minutes = max(1, round(left / 60_000))
        said.append(f"About {minutes} minute{'s' if minutes != 1 else ''} left.")
    return " ".join(said)


def ways_on(state: State) -> tuple[tuple[str, int], ...]:
    """The asides still to come or told, by title, with their length in ms: naming one walks it."""
    sheet = state.sheet
    return tuple(
        (scope.title, sheet.starts[scope.last] - sheet.starts[scope.first])
        for scope in sheet.scopes
        if scope.kind in ("aside", "instead")
    )
