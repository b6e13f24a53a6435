"""Speed as ratios within one run: .venv/bin/python scripts/bench.py

Each line compares two things timed in turn in this very process, so a slow or busy machine changes little.
"""

# ruff: noqa: E402 (the checkout comes before any installed copy)
from __future__ import annotations

import asyncio
import io
import os
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

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


EMPTY_SCREEN = """
from textual.app import App
class Timed(App):
    def on_mount(self): self.call_after_refresh(self.painted)
    def painted(self): stamp(); self.exit()
Timed().run()
"""
OUR_SCREEN = """
from player.cli.main import collect_seldom
collect_seldom()  # As the command itself begins.
from pathlib import Path
import player.screen.app as app
from player.cli.lessons import find_lesson
from player.cli.play import Wishes, play
from player.world.world import real_world
class Timed(app.LessonApp):
    def on_mount(self): self.call_after_refresh(self.painted)
    def painted(self): stamp(); self.exit()
Timed.__module__ = app.LessonApp.__module__  # Its dress lies beside that module.
app.LessonApp = Timed
world = real_world()
play(world, find_lesson(world, LESSON), Wishes(mute=True, fresh=True, journal=Path(FOLDER) / "journal"))
"""
STAMP = """
import sys, time
def stamp():
    with open(FILE, "w") as file: file.write(f"{time.time()!r} {time.process_time()!r}")
"""
COLD = """
import time
from player.cli.main import collect_seldom
collect_seldom()
from pathlib import Path
from player.cli.lessons import read_script
read_script(Path(LESSON))
print(time.process_time())
"""


def compiled(folder: str) -> dict[str, str]:
    """An environment whose Python keeps compiled modules in this folder, as it does of installed ones."""
    kept = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    return {**kept, "PYTHONPATH": str(ROOT), "PYTHONPYCACHEPREFIX": folder}


def first_frame(script: str, cache: str) -> tuple[float, float]:
    """From the start of a process to its first painted frame, in a terminal of 100 by 40.

    Seconds passed, and seconds of the processor in that process.
    """
    import fcntl
    import pty
    import struct
    import termios

    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "stamp"
        lesson = str(next((ROOT / "demo_lessons").glob("1-*.lesson")))
        names = f"FILE, FOLDER, LESSON = {str(file)!r}, {folder!r}, {lesson!r}"
        ours, theirs = pty.openpty()
        fcntl.ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", 40, 100, 0, 0))
        began = time.time()
        child = subprocess.Popen(
            [sys.executable, "-c", names + STAMP + script],
            stdin=theirs,
            stdout=theirs,
            stderr=theirs,
            cwd=ROOT,
            env={**compiled(cache), "HOME": folder, "TERM": "xterm-256color"},
        )
        os.close(theirs)
        seen = b""
        try:
            while more := os.read(ours, 65536):
                seen = (seen + more)[-2000:]
        except OSError:
            pass  # The child has closed its end.
        child.wait(timeout=60)
        os.close(ours)
        if not file.exists():
            raise RuntimeError(f"Nothing was painted: {seen.decode(errors='replace')}")
        at, processor = file.read_text().split()
        return float(at) - began, float(processor)


Frame = tuple[float, float]


def first_frames(pairs: int = 5) -> list[tuple[Frame, Frame]]:
    """Our first frame and an empty application's, measured in turn (see `first_frame`)."""
    with tempfile.TemporaryDirectory() as cache:
        first_frame(EMPTY_SCREEN, cache), first_frame(OUR_SCREEN, cache)  # Both compiled.
        return [(first_frame(OUR_SCREEN, cache), first_frame(EMPTY_SCREEN, cache)) for _ in range(pairs)]


def cold(source: str) -> float:
    """Seconds of the processor to load and compile a script in a fresh process, imports included."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "long.lesson"
        file.write_text(source, encoding="utf-8")
        command = [sys.executable, "-c", f"LESSON = {str(file)!r}" + COLD]
        env = compiled(str(Path(folder) / "compiled"))
        took = [float(subprocess.check_output(command, cwd=ROOT, env=env)) for _ in range(6)]
        return statistics.median(took[1:])  # The first one compiles.


async def move_and_repaint() -> tuple[int, int]:
    """Bytes written for a change of one move, and for a whole repaint of the board."""
    from unittest.mock import patch

    from textual.app import App, ComposeResult
    from textual.drivers.headless_driver import HeadlessDriver

    from player.facts.place import Place
    from player.screen.board import BoardView
    from player.screen.dress import PLAIN
    from player.screen.paint import SIZES

    board = BoardView(PLAIN)
    board.fit(SIZES[0])

    class Alone(App[None]):
        def compose(self) -> ComposeResult:
            yield board

    app, place = Alone(), Place()
    async with app.run_test(size=(90, 40)) as pilot:
        board.show(place, None, False)
        await pilot.pause()
        out: list[str] = []
        with (
            patch.object(HeadlessDriver, "is_headless", property(lambda _: False)),
            patch.object(HeadlessDriver, "write", lambda _, data: out.append(data)),
        ):
            board._draw_all()
            await pilot.pause()
            whole = len("".join(out).encode())
            out.clear()
            board.show(place.then("g1f3"), "g1f3", False)
            await pilot.pause()
            return len("".join(out).encode()), whole


def main() -> int:
    board = long_game(300)
    pgn = str(chess.pgn.Game.from_board(board))
    source = half_hour(board)
    sheet = sheet_of(source)
    print(f"a lesson of {sheet.starts[-1] / 60_000:.0f} minutes, {len(sheet.steps)} steps, 300 moves")
    load, parse = timed(lambda: sheet_of(source)), timed(lambda: chess.pgn.read_game(io.StringIO(pgn)))
    print(f"load and compile {load * 1000:.0f} ms; against parsing its moves: {load / parse:.1f} (aim 100)")
    print(f"load and compile in a fresh process, imports included: {cold(source):.2f} s (aim 0.3 s)")
    each = sorted(advances(sheet))
    print(f"stage advance p99 {each[int(len(each) * 0.99)] * 1000:.3f} ms of {len(each)} (aim 1 ms)")
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
    one, whole = asyncio.run(move_and_repaint())
    print(f"bytes of a move, against a whole repaint of the board: {one / whole:.2f} (aim 0.15)")
    if os.name == "posix":
        frames = first_frames()
        for what, which in ("seconds", 0), ("seconds of the processor", 1):
            ratio = statistics.median(ours[which] / empty[which] for ours, empty in frames)
            took = statistics.median(ours[which] for ours, _ in frames)
            print(f"first frame in {took:.2f} {what}; against an empty application's: {ratio:.2f} (aim 1.5)")
    return 0


if __name__ == "__main__":
    sys.exit(main())
