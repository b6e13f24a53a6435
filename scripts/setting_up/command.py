"""The two commands: play hands over to `moveteller`, test runs every check of the project."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import types
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import NoReturn

from scripts.setting_up.install import Installer, Runner, run_command
from scripts.setting_up.place import Place
from scripts.setting_up.trouble import Trouble

CANNOT_START = 2
STOPPED = 130


def hand_over(command: Sequence[str]) -> int:
    """Become this command where the system can, never to return, else run it and return its status."""
    sys.stdout.flush()
    sys.stderr.flush()
    if os.name == "posix":
        os.execv(command[0], list(command))
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C is for the command, which has it too
    return subprocess.call(command)


def show(command: Sequence[str], folder: Path) -> int:
    """Run a command in a folder, its output straight on the terminal, and return its status."""
    sys.stdout.flush()
    running = subprocess.Popen(command, cwd=folder)
    try:
        return running.wait()
    except KeyboardInterrupt:
        try:
            running.wait(5)  # it was told too, and may have something to say
        except subprocess.TimeoutExpired:
            running.kill()
        raise


def say(line: str) -> None:
    """One plain line to the person, beside the program's own output."""
    print(line, file=sys.stderr, flush=True)


@dataclass(frozen=True)
class Hands:
    """What the commands do their work with."""

    say: Callable[[str], None] = say
    run: Runner = run_command
    hand_over: Callable[[Sequence[str]], int] = hand_over
    show: Callable[[Sequence[str], Path], int] = show


def play(args: Sequence[str], place: Place, hands: Hands = Hands()) -> int:
    """Set up what is missing, then run `moveteller` with the arguments.

    `--with NAME`, before all others, adds the optional set of that name to .venv first.
    """
    rest = list(args)
    more: list[str] = []
    while rest[:1] == ["--with"]:
        if len(rest) < 2:
            hands.say("After --with comes the name of a set of libraries.")
            return CANNOT_START
        more.append(rest[1])
        del rest[:2]

    def work() -> int:
        Installer(place, hands.say, hands.run).ensure("play", *more)
        return hands.hand_over([str(place.python), str(place.starter), *rest])

    return _plainly(work, hands)


def test(args: Sequence[str], place: Place, hands: Hands = Hands()) -> int:
    """Set up what is missing, then run every check and the tests; the arguments go to pytest, which is last.

    Returns pytest's status, or 1 where pytest is content and another check is not.
    """

    def work() -> int:
        Installer(place, hands.say, hands.run).ensure("dev")
        python = [str(place.python)]
        contracts = "from importlinter.cli import lint_imports_command as check; check()"
        checks = {
            "ruff check": [*python, "-m", "ruff", "check"],
            "ruff format": [*python, "-m", "ruff", "format", "--check"],
            "mypy": [*python, "-m", "mypy"],
            "import contracts": [*python, "-c", contracts, "--no-logo"],
        }
        unhappy = []
        for name, command in checks.items():
            hands.say(f"== {name}")
            if hands.show(command, place.root):
                unhappy.append(name)
        hands.say("== pytest")
        status = hands.show([*python, "-m", "pytest", *args], place.root)
        if unhappy:
            hands.say(f"Not content, see above: {', '.join(unhappy)}.")
        return status or int(bool(unhappy))

    return _plainly(work, hands)


def _plainly(work: Callable[[], int], hands: Hands) -> int:
    """Do the work, with plain sentences for what may stop it."""

    def end(number: int, frame: types.FrameType | None) -> NoReturn:
        raise KeyboardInterrupt

    before = signal.signal(signal.SIGTERM, end)  # so that a polite end stops the installer too
    try:
        return work()
    except Trouble as trouble:
        hands.say(str(trouble))
        return CANNOT_START
    except KeyboardInterrupt:
        hands.say("Stopped. The next run goes on from here, or starts the set-up afresh.")
        return STOPPED
    finally:
        signal.signal(signal.SIGTERM, before)
