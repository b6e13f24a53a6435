"""The journal of a lesson: every input, one line each, so that a kill loses nothing but a moment.

Lines are JSON lists in a `LineLog`: first `["journal", {...}]` with the script's hash, the program's version,
the settings and a name for this run through the lesson; then inputs as `codec` writes them,
`["reached", step key]` where a step of the lesson begins, `["over"]` at its end, and `["telling", {...}]`
where the settings changed when the lesson was taken up again.
"""

from __future__ import annotations

import hashlib
import json
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from player.session.codec import input_line, line_input, packed, telling_of
from player.session.lock import Lock
from player.stage.happenings import Happening, Over, Reached
from player.stage.inputs import Input
from player.stage.state import Telling
from player.world.line_log import LineLog

FORM = 1
FOLDER = "journals"


def script_hash(source: str) -> str:
    """What tells one content of a script from another."""
    return hashlib.sha256(source.encode("utf-8", "surrogatepass")).hexdigest()


def journal_path(state: Path, lesson: Path) -> Path:
    """The file of a lesson's journal in the folder for state: one for every place where a script lies."""
    name = hashlib.sha256(str(lesson.resolve()).encode("utf-8", "surrogatepass")).hexdigest()[:24]
    return state / FOLDER / f"{name}.log"


@dataclass(frozen=True)
class Kept:
    """What a journal holds: of which script, by which program, and what moved the lesson since.

    `moves` are inputs, and settings where a later run changed them. `reached` is the key of the last step
    that was begun, "" for none, and `over` that the lesson was told to its end. `run` names this run through
    the lesson, from its start to its end however often it is taken up; "" where it has no name.
    """

    script: str
    version: str
    telling: Telling
    moves: tuple[Input | Telling, ...]
    reached: str
    over: bool
    run: str = ""


class Journal:
    """Writes the journal of one lesson."""

    def __init__(self, path: Path) -> None:
        self._log = LineLog(path)
        self._lock = Lock(path)

    def take(self) -> bool:
        """Whether this run may keep the place; False where another one does. Raises OSError."""
        return self._lock.take()

    def look(self) -> tuple[Kept | None, bool]:
        """What is kept, None where nothing is; and whether the file is damaged. Raises OSError."""
        found = self._log.look()
        if found.rest_bytes and not found.torn:
            return None, True
        if not found.lines:
            return None, False
        kept = _kept(found.lines)
        return kept, kept is None

    def begin(self, script: str, version: str, telling: Telling, run: str = "") -> None:
        """Forget what there was, and keep a new telling of this script. Raises OSError."""
        about = {"form": FORM, "script": script, "version": version, "telling": asdict(telling), "run": run}
        self._log.replace_all([packed(["journal", about])])

    def telling(self, telling: Telling) -> None:
        """From here on these settings hold."""
        self._log.append(packed(["telling", asdict(telling)]))

    def input(self, given: Input) -> None:
        self._log.append(packed(input_line(given)))

    def happened(self, happening: Happening) -> None:
        if isinstance(happening, Reached):
            self._log.append(packed(["reached", happening.step]))
        elif isinstance(happening, Over):
            self._log.append(packed(["over"]))

    def close(self) -> None:
        self._log.close()
        self._lock.release()


def _kept(lines: tuple[str, ...]) -> Kept | None:
    """What the lines say; None where they are no journal of this form."""
    try:
        read = [json.loads(line) for line in lines]
    except ValueError:
        return None
    if not all(isinstance(line, list) and line for line in read):
        return None
    head = read[0]
    if head[0] != "journal" or len(head) != 2 or not isinstance(head[1], dict) or head[1].get("form") != FORM:
        return None
    script, version = head[1].get("script"), head[1].get("version")
    telling = telling_of(head[1].get("telling"))
    run = str(head[1].get("run", ""))
    if not isinstance(script, str) or not isinstance(version, str) or telling is None:
        return None
    moves: list[Input | Telling] = []
    reached, over = "", False
    for line in read[1:]:
        if line[0] == "reached" and len(line) == 2:
            reached, over = str(line[1]), False
        elif line == ["over"]:
            over = True
        else:
            one = _move(line)
            if one is None:
                return None
            moves.append(one)
    return Kept(script, version, telling, tuple(moves), reached, over, run)


def _move(line: list[Any]) -> Input | Telling | None:
    if line[0] == "telling" and len(line) == 2:
        return telling_of(line[1])
    return line_input(line)
