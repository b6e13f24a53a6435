"""What an engine, or a short search, thinks of a move, in a sentence without a number."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import chess

from player.facts.place import Place
from player.wording.names import colour_name
from player.wording.replies_say import named, worth

_MUCH, _LITTLE = 1.2, 0.3

Thinker = Literal["engine", "search"]


@dataclass(frozen=True, slots=True)
class Opinion:
    """An engine's view of a move, for the mover: in pawns, as a mate (negative: mated), and a line."""

    pawns: float = 0.0
    mate: int = 0
    line: tuple[str, ...] = ()


def opinion(
    place: Place,
    move: str,
    mine: Opinion | None,
    answer: Opinion | None,
    sound: bool,
    thinker: Thinker = "engine",
) -> str:
    """The engine's word where it knows more than the board proves; "" where it does not.

    A clear loss is told with the reply it fears; where `sound` (nothing is proved against the move), a move
    as good as the answer is told so. A search that counts men alone cannot tell that.
    """
    if mine is None:
        return ""
    board = place.board()
    made = chess.Move.from_uci(move)
    after = board.copy(stack=False)
    after.push(made)
    said = named(board, made)
    reply = _reply(after, mine)
    comes = f"after {said} it fears {reply}" if reply else f"it does not like {said}"
    who = "An engine" if thinker == "engine" else "A short search"
    if mine.mate < 0:
        return f"{who} thinks this is lost: {comes}, and mate in {-mine.mate}."
    if answer is None or answer.mate or mine.mate:
        return ""
    behind = answer.pawns - mine.pawns
    if behind >= _MUCH:
        return f"{who} thinks that costs about {worth(round(behind))}: {comes}."
    if behind <= _LITTLE and sound and thinker == "engine":
        side = colour_name(board.turn)
        return f"{who} thinks {said} as good for {side} as the lesson's own move; that one is meant here."
    return ""


def _reply(after: chess.Board, mine: Opinion) -> str:
    if not mine.line:
        return ""
    reply = chess.Move.from_uci(mine.line[0])
    return named(after, reply) if after.is_legal(reply) else ""
