"""Speed as ratios within one run: .venv/bin/python scripts/bench.py

Each line compares two things timed in turn in this very process, so a slow or busy machine changes little.
"""

from __future__ import annotations

import io
import statistics
import sys
import time
from collections.abc import Callable

import chess
import chess.pgn

from player.cues.compile import compile_lesson
from player.cues.sheet import Sheet
from player.script.follow import follow
from player.script.read import read
from player.stage.advance import advance, begin
from player.stage.happenings import Say, Wake
from player.stage.inputs import Did, Finished, Heard, Input, Woke
from player.stage.state import Telling
from player.wording.hear import hear
from player.wording.say import say

SENTENCE = (
    "Here is a thought about the long diagonal, and what becomes of it when the middle opens again.\n\n"
)


def timed(work: Callable[[], object], rounds: int = 7) -> float:
    """The median of some rounds, in seconds."""
    took = []
    for _ in range(rounds):
        began = time.perf_counter()
        work()
        took.append(time.perf_counter() - began)
    return statistics.median(took)


def long_game(plies: int) -> chess.Board:
    """A legal game of this many half-moves, always the same."""
    board = chess.Board()
    number = 7
    while len(board.move_stack) < plies:
        moves = sorted(board.legal_moves, key=lambda move: move.uci())
        if not moves:
            board.pop()
            continue
        number = (number * 1103515245 + 12345) % 2**31
        board.push(moves[number % len(moves)])
    return board


def half_hour(board: chess.Board) -> str:
    """A script of about thirty minutes with this game's moves, one sentence of thought to each."""
    walk = chess.Board()
    lines = ["title: A long evening\ncoach: Ines Calder\n"]
    for move in board.move_stack:
        lines.append(f"Now {{{walk.san(move)}}} is played. {SENTENCE}")
        walk.push(move)
    return "\n".join(lines)


def sheet_of(source: str) -> Sheet:
    lesson, _ = read(source)
    told, _ = follow(lesson)
    return compile_lesson(told)


def advances(sheet: Sheet) -> list[float]:
    """The time of every advance of a lesson that tells itself, in seconds."""
    state = begin(sheet, Telling(wait=False))
    queue: list[Input] = [Did("start")]
    took: list[float] = []
    while queue:
        one = queue.pop(0)
        began = time.perf_counter()
        state, out = advance(state, one)
        took.append(time.perf_counter() - began)
        for happening in out:
            if isinstance(happening, Say):
                words = len(happening.what.words)
                queue += [Heard(happening.saying, n * 300, n) for n in range(1, words + 1)]
                queue.append(Finished(happening.saying, words * 300))
            elif isinstance(happening, Wake):
                queue.append(Woke(happening.wake))
    return took


def main() -> int:
    board = long_game(300)
    pgn = str(chess.pgn.Game.from_board(board))
    source = half_hour(board)
    sheet = sheet_of(source)
    print(f"a lesson of {sheet.starts[-1] / 60_000:.0f} minutes, {len(sheet.steps)} steps, 300 moves")
    load, parse = timed(lambda: sheet_of(source)), timed(lambda: chess.pgn.read_game(io.StringIO(pgn)))
    print(f"load and compile {load * 1000:.0f} ms; against parsing its moves: {load / parse:.1f} (aim 100)")
    took = sorted(advances(sheet))
    print(f"stage advance p99 {took[int(len(took) * 0.99)] * 1000:.3f} ms of {len(took)} (aim 1 ms)")
    moves = []
    walk = chess.Board()
    for move in board.move_stack:
        moves.append((walk.copy(), move, walk.san(move)))
        walk.push(move)
    heard = timed(lambda: [hear(b, san) for b, _, san in moves])
    parsed = timed(lambda: [b.parse_san(san) for b, _, san in moves])
    print(f"hear on plain notation, against parse_san: {heard / parsed:.1f} (aim 15)")
    spoken = [(b, say(b, m).spoken) for b, m, _ in moves]
    each = []
    for b, words in spoken:
        began = time.perf_counter()
        hear(b, words)
        each.append(time.perf_counter() - began)
    print(f"hear on spoken forms, median {statistics.median(each) * 1000:.2f} ms (aim 0.5 ms)")
    saying = timed(lambda: [say(b, m) for b, m, _ in moves])
    san = timed(lambda: [b.san(m) for b, m, _ in moves])
    print(f"say of a whole game, against Board.san: {saying / san:.1f} (aim 5)")
    return 0


if __name__ == "__main__":
    sys.exit(main())
