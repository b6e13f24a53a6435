"""The real world of a process, and the made-up one of the tests."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from player.world.world import real_world
from tests.worlds import printed, scratch_world

ROOT = Path(__file__).resolve().parents[2]


def ask(code: str, *, encoding: str = "utf-8", close: str = "") -> subprocess.CompletedProcess[bytes]:
    """Run a line of Python in a process of its own, with some streams closed."""
    whole = f"from player.world.world import real_world; w = real_world(); {code}"
    command = [sys.executable, "-c", whole]
    if close:
        command = ["sh", "-c", f'exec "$@" {close}', "sh", *command]
    env = {"PYTHONIOENCODING": encoding, "HOME": str(ROOT), "PATH": "/usr/bin:/bin", "PYTHONPATH": str(ROOT)}
    return subprocess.run(command, env=env, capture_output=True, stdin=subprocess.DEVNULL)


def test_a_run_with_pipes_has_no_terminal() -> None:
    done = ask("print(w.stdin_is_terminal, w.stdout_is_terminal, w.platform, w.now().tzinfo is not None)")
    assert done.stdout.decode().split() == ["False", "False", sys.platform, "True"]


def test_a_character_that_the_output_cannot_write_is_no_error() -> None:
    done = ask(
        "print('\\u2658f3', w.can_show('Nf3'), w.can_show('\\u2658f3'), file=w.stdout)", encoding="ascii"
    )
    assert (done.returncode, done.stdout.decode().split()) == (0, ["?f3", "True", "False"])


@pytest.mark.skipif(sys.platform == "win32", reason="needs a POSIX shell")
def test_closed_streams_are_empty_ones() -> None:
    done = ask("w.stdout.write('x' + w.stdin.read()); w.stderr.write('y')", close="<&- >&- 2>&-")
    assert done.returncode == 0


def test_the_real_world_has_folders_and_a_clock_that_goes_forward() -> None:
    world = real_world()
    first = world.clock.now_ms()
    assert world.clock.now_ms() >= first
    assert world.folders.config != world.folders.data or sys.platform in ("darwin", "win32")
    assert world.here == Path.cwd()
    assert world.terminal_size().columns > 0


@pytest.mark.parametrize(
    ("term", "terminal", "colour", "plain"),
    [("xterm-256color", True, True, False), ("dumb", True, False, True), ("xterm", False, False, False)],
)
def test_colour_and_drawing_follow_the_terminal(
    tmp_path: Path, term: str, terminal: bool, colour: bool, plain: bool
) -> None:
    world = scratch_world(tmp_path, env={"TERM": term}, terminal=terminal)
    assert (world.colour_wanted, world.terminal_is_plain) == (colour, plain)


def test_a_made_up_world_keeps_to_its_folder_and_to_its_clock(tmp_path: Path) -> None:
    world = scratch_world(tmp_path, "Nf3\n", encoding="ascii")
    print("told ♞", file=world.stdout)
    print("fault", file=world.stderr)
    world.clock.sleep(1500)
    assert world.stdin.readline() == "Nf3\n"
    assert (printed(world), printed(world, errors=True)) == ("told ?\n", "fault\n")
    assert (world.clock.now_ms(), world.can_show("♞")) == (1500, False)
    assert tmp_path in world.folders.state.parents
