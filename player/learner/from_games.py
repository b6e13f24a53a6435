"""Unseen positions out of real games: where one move, and no other, does what a question's answer does."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass

import chess
import chess.pgn

from player.learner.unseen import Fact, Taught, Unseen, holds
from player.world.clean import clean_line

DEEDS = ("is mate", "threatens mate", "wins the queen", "wins a piece", "is check")
"""What a move may do, the most telling first; each is a claim when the move stands before it."""
MOST_POSITIONS = 4_000
"""So many positions of the games are looked at."""


@dataclass(frozen=True)
class Sought:
    """What is looked for: an idea, the deed that its question's answer does, and that question's key."""

    idea: str
    deed: str
    of: str


def sought(lessons: Iterable[Taught], idea: str = "") -> list[Sought]:
    """The deeds by which ideas can be met in games; only those of this idea, where it is named."""
    out: dict[Sought, None] = {}
    for one in lessons:
        said = {fact.words.partition(" ")[2] for fact in one.facts if not fact.line}
        deed = next((deed for deed in DEEDS if deed in said), None)
        for name in one.ideas:
            if deed is not None and deed != "is check" and (not idea or name.casefold() == idea.casefold()):
                out.setdefault(Sought(name, deed, one.key))
    return list(out)


def moments(
    games: Iterable[chess.pgn.Game],
    wanted: Sequence[Sought],
    seen: frozenset[str],
    enough: int = 3,
    progress: Callable[[int, int], None] | None = None,
) -> list[Unseen]:
    """Positions of the games for these ideas, `enough` of each at most; none that is among `seen` (EPD).

    `progress` is told how many positions were looked at, of how many at most.
    """
    met = set(seen)
    found: list[Unseen] = []
    looked = 0
    for game in games:
        for board in _positions(game):
            looked += 1
            open_ = [one for one in wanted if _count(found, one.idea) < enough]
            if not open_ or looked > MOST_POSITIONS:
                return found
            if progress is not None:
                progress(looked, MOST_POSITIONS)
            epd = " ".join(board.fen().split(" ")[:4])
            if epd in met:
                continue
            for one in open_:
                move = only_move(board, one.deed)
                if move is not None:
                    met.add(epd)
                    found.append(_unseen(board, move, one, game))
                    break
    return found


def only_move(board: chess.Board, deed: str) -> chess.Move | None:
    """The one legal move that is proved to do this; None where none does, or more than one."""
    moves = [move for move in board.legal_moves if _may(board, move, deed)]
    does = []
    for move in moves:
        if holds(Fact(f"{board.san(move).rstrip('+#')} {deed}", False), board, None):
            does.append(move)
            if len(does) > 1:
                return None
    return does[0] if does else None


def _may(board: chess.Board, move: chess.Move, deed: str) -> bool:
    """Whether the proof is worth its time: a quick look first."""
    if deed == "is mate":
        return board.gives_check(move)
    if deed in ("wins the queen", "wins a piece"):
        after = board.copy(stack=False)
        after.push(move)
        value = 900 if deed == "wins the queen" else 300
        hit = (after.piece_at(to) for to in after.attacks(move.to_square))
        worth = {chess.KNIGHT: 300, chess.BISHOP: 300, chess.ROOK: 500, chess.QUEEN: 900, chess.KING: 900}
        strikes = any(
            man is not None and man.color == after.turn and worth.get(man.piece_type, 0) >= value
            for man in hit
        )
        return strikes or board.is_capture(move) or board.gives_check(move)
    return True


def _positions(game: chess.pgn.Game) -> Iterator[chess.Board]:
    board = game.board()
    for move in game.mainline_moves():
        yield board
        board.push(move)


def _count(found: Sequence[Unseen], idea: str) -> int:
    return sum(one.idea == idea for one in found)


def _unseen(board: chess.Board, move: chess.Move, one: Sought, game: chess.pgn.Game) -> Unseen:
    san = board.san(move)
    bare = san.rstrip("+#")
    facts = (Fact(f"{bare} is legal", False), Fact(f"{bare} {one.deed}", False))
    side = "White" if board.turn else "Black"
    players = [clean_line(game.headers.get(name, "")).strip("? .") for name in ("White", "Black")]
    of = f" between {players[0]} and {players[1]}" if all(players) else ""
    source = (
        f"script: 1\ntitle: A new position\nboard: {board.fen()}\n\n"
        f"question: {side} to move. Which move {one.deed}?\n  about: {one.idea}\n\n"
        f"{{{san}}}. It is the same idea: {one.idea}.\n"
    )
    how = f"It is from a game{of}."
    return Unseen(one.of, one.idea, board.fen(), how, facts, (move.uci(),), source)
