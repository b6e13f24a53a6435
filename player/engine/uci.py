"""An outside engine that speaks UCI (the Universal Chess Interface, April 2004), behind one door.

It is started when it is first asked, told to begin a new game for every position so that the same question
gets the same answer, and given up for good at the first thing that goes wrong. No wait is without an end.
"""

from __future__ import annotations

import contextlib
import shutil
import threading
from collections.abc import Mapping, Sequence
from concurrent.futures import CancelledError
from dataclasses import dataclass
from pathlib import Path

import chess
import chess.engine

from player.engine.running import Running
from player.engine.view import View
from player.facts.place import Place

_FIXED = {"Threads": 1, "Hash": 16}
_MOST_LINES = 64


@dataclass(frozen=True, slots=True)
class Limits:
    """How long an engine may take, in seconds, and how many positions it may look at for one question.

    `start_s` is for starting, `think_s` for one question, and `grace_s` is added before it counts as frozen.
    """

    start_s: float = 5.0
    nodes: int = 50_000
    think_s: float = 2.0
    grace_s: float = 2.0


USUAL = Limits()


class EngineTrouble(Exception):
    """The engine is of no use any more. The message is one sentence for a person."""


class UciEngine:
    """One engine process. `command` is its path, or the path and what to call it with.

    May be used from several threads; questions are put one after another.
    """

    def __init__(self, command: str | Sequence[str], limits: Limits = USUAL) -> None:
        self.command = (command,) if isinstance(command, str) else tuple(command)
        self.limits = limits
        self._engine: Running | None = None
        self._trouble = ""
        self._asked = 0
        self._lock = threading.Lock()

    @property
    def called(self) -> str:
        """The name of its file."""
        return Path(self.command[-1 if len(self.command) == 1 else 0]).name

    @property
    def name(self) -> str:
        """The name it gives itself, or that of its file; it is started for that. Raises EngineTrouble."""
        with self._lock:
            said = self._started().protocol.id.get("name", "").strip()
        shown = "".join(letter for letter in said if letter.isprintable())[:60].strip()
        return shown or self.called

    @property
    def identity(self) -> str:
        """What its views depend on: its file and its limits."""
        path = shutil.which(self.command[0]) or self.command[0]
        with contextlib.suppress(OSError):
            about = Path(path).stat()
            return f"{self.command} {about.st_size} {about.st_mtime_ns} {self.limits}"
        return f"{self.command} {self.limits}"

    def judge(self, place: Place, moves: Sequence[str]) -> Mapping[str, View]:
        """Its view of each of these legal moves (UCI); a move it says nothing usable of is missing.

        Positions that cannot come about in a game are never sent: there are then no views. Raises
        EngineTrouble where it cannot be started, has stopped, takes too long or answers nonsense.
        """
        board = chess.Board(place.fen)
        wanted = [move for move in map(chess.Move.from_uci, dict.fromkeys(moves)) if board.is_legal(move)]
        if not wanted or not board.is_valid():
            return {}
        with self._lock:
            engine = self._started()
            try:
                infos = self._asked_about(engine, board, wanted)
            except TimeoutError as error:
                raise self._gone("does not answer, so the lesson goes on without it") from error
            except (chess.engine.EngineTerminatedError, CancelledError) as error:
                raise self._gone("has stopped, so the lesson goes on without it") from error
            except (chess.engine.EngineError, ValueError, OSError, RuntimeError) as error:
                raise self._gone("answers nonsense, so the lesson goes on without it") from error
        return _views(board, wanted, infos)

    def close(self) -> None:
        """Stop it at once, in the middle of whatever it does."""
        self._trouble = self._trouble or f"The engine {self.called} is closed."
        self._end()

    def _asked_about(
        self, engine: Running, board: chess.Board, moves: list[chess.Move]
    ) -> list[chess.engine.InfoDict]:
        limits, protocol = self.limits, engine.protocol
        self._asked += 1
        most = protocol.options.get("MultiPV")
        lines = min(_MOST_LINES, most.max or 1) if most is not None else 1
        if lines >= len(moves):
            limit = chess.engine.Limit(nodes=limits.nodes, time=limits.think_s)
            asked = protocol.analyse(board, limit, multipv=len(moves), game=self._asked, root_moves=moves)
            return engine.wait(asked, limits.think_s + limits.grace_s)
        share = max(1, len(moves))
        limit = chess.engine.Limit(nodes=max(1, limits.nodes // share), time=limits.think_s / share)
        return [
            engine.wait(
                protocol.analyse(board, limit, game=(self._asked, move.uci()), root_moves=[move]),
                limits.think_s / share + limits.grace_s,
            )
            for move in moves
        ]

    def _started(self) -> Running:
        if self._trouble:
            raise EngineTrouble(self._trouble)
        if self._engine is None:
            try:
                self._engine = Running(self.command, self.limits.start_s)
                if self._trouble:  # closed while it was starting
                    self._end()
                    raise EngineTrouble(self._trouble)
                protocol = self._engine.protocol
                wishes = {name: value for name, value in _FIXED.items() if name in protocol.options}
                self._engine.wait(protocol.configure(wishes), self.limits.start_s)
            except FileNotFoundError as error:
                raise self._gone("is not there") from error
            except PermissionError as error:
                raise self._gone("may not be run by you") from error
            except TimeoutError as error:
                raise self._gone("takes too long to start, so it is not used") from error
            except (chess.engine.EngineError, CancelledError, ValueError, OSError, RuntimeError) as error:
                raise self._gone("could not be started as a UCI engine") from error
        return self._engine

    def _gone(self, why: str) -> EngineTrouble:
        self._trouble = self._trouble or f"The engine {self.called} {why}."
        self._end()
        return EngineTrouble(self._trouble)

    def _end(self) -> None:
        engine, self._engine = self._engine, None
        if engine is not None:
            engine.close()


def _views(
    board: chess.Board, wanted: list[chess.Move], infos: list[chess.engine.InfoDict]
) -> dict[str, View]:
    """What is usable of the lines: one that begins with none of the moves asked about says nothing."""
    views: dict[str, View] = {}
    for info in infos:
        line, score = info.get("pv", []), info.get("score")
        if not line or line[0] not in wanted or score is None:
            continue
        seen = score.pov(board.turn)
        mate = seen.mate() or 0
        pawns = 0.0 if seen.is_mate() else (seen.score() or 0) / 100
        rest = _legal(board, line)[1:]
        views.setdefault(line[0].uci(), View(max(-100.0, min(100.0, pawns)), mate, rest))
    return views


def _legal(board: chess.Board, line: Sequence[chess.Move]) -> tuple[str, ...]:
    """The line up to its first move that is not legal."""
    down = board.copy(stack=False)
    good: list[str] = []
    for move in line:
        if not down.is_legal(move):
            break
        good.append(move.uci())
        down.push(move)
    return tuple(good)
