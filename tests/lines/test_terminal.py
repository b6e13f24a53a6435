"""The line skin in a real pseudo-terminal, played to the end of a lesson and past a kill."""

from __future__ import annotations

import os
import signal
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="needs a pseudo-terminal")

pexpect = pytest.importorskip("pexpect")

ROOT = Path(__file__).parents[2]
PROMPT = "\n> "
LESSON = """\
title: Gate and garden
coach: Tobias Wren

White begins {Nf3}, Black takes {d5}, and then {d4 Nf6}.

question: White to move. Which quiet step prepares a road for the bishop on f1?
  reply e3: That is a road, but a short one.
  nudge: It is a pawn on the king's side.

{g3}. The gate is open. {e6}.

question: And who goes through it?
  nudge: He has waited on f1.

{Bg2}. Into the garden. {Be7}.

aside: If Black takes space instead
  board: after 4.Bg2
  {c5} {c3} and White waits.

There is one thing left, {O-O}.
"""


@pytest.fixture
def start(tmp_path: Path) -> Iterator[Callable[..., Any]]:
    """Starts `moveteller play` on a lesson; every run shares one home."""
    path = tmp_path / "gate.lesson"
    path.write_text(LESSON, encoding="utf-8")
    env = {**os.environ, "MOVETELLER_HOME": str(tmp_path / "home"), "TERM": "dumb", "PYTHONPATH": str(ROOT)}
    runs = []

    def run(*more: str) -> Any:
        one = pexpect.spawn(
            sys.executable,
            ["-m", "player.cli", "play", str(path), *more],
            env=env,
            cwd=str(tmp_path),
            encoding="utf-8",
            timeout=20,
            dimensions=(24, 200),
        )
        runs.append(one)
        return one

    yield run
    for one in runs:
        one.close(force=True)


def say(run: Any, text: str, answer: str) -> str:
    """Type this at the prompt, and return all that comes up to the next prompt; `answer` stands in it."""
    run.sendline(text)
    run.expect_exact(PROMPT)
    out = str(run.before)
    assert answer in out, out
    return out


def test_a_lesson_to_its_end(start: Callable[..., Any]) -> None:
    run = start()
    run.expect_exact(PROMPT)
    out = str(run.before)
    assert "Tobias: White to move. Which quiet step" in out
    assert "\x1b" not in out
    say(run, "Nf6", "Board: ")  # not White's
    say(run, "c4", "Try again, if you like.")
    say(run, "e3", "Tobias: That is a road, but a short one.")
    say(run, "knight d2", "Which knight")
    say(run, "the one from b1", "You: Nbd2")
    say(run, "nudge", "Tobias: It is a pawn on the king's side.")
    say(run, "what if c4 dxc4", "Board: Black would play dxc4")
    say(run, "home", "Back at the question")
    say(run, "g3", "Lesson: Yes, at the fourth try: g3.")
    say(run, "tell me", "Board: White plays Bg2")
    say(run, "", "Lesson: An aside.")
    say(run, "skip", "End of the aside")
    say(run, "", "Lesson: The lesson is told.")
    run.sendline("quit")
    run.expect_exact("Goodbye.")
    run.expect(pexpect.EOF)
    run.close()
    assert run.exitstatus == 0


def test_a_killed_lesson_goes_on_where_it_was(start: Callable[..., Any]) -> None:
    run = start()
    run.expect_exact(PROMPT)
    say(run, "g3", "Lesson: Yes: g3.")
    say(run, "a3", "Try again, if you like.")
    run.kill(signal.SIGKILL)
    run.expect(pexpect.EOF)
    again = start()
    again.expect_exact(PROMPT)
    assert "Question 2 of 2" in str(again.before)
    assert "Which quiet step" not in str(again.before)
    say(again, "a4", "Try again, ask for a nudge")  # the second wrong try
    say(again, "Bg2", "Lesson: Yes, at the third try: Bg2.")


def test_an_interruption_leaves_quietly_with_the_place_kept(
    start: Callable[..., Any],
) -> None:
    run = start()
    run.expect_exact(PROMPT)
    say(run, "g3", "Lesson: Yes: g3.")
    run.sendintr()
    run.expect(pexpect.EOF)
    run.close()
    assert run.exitstatus == 130
    assert "Traceback" not in str(run.before)
    assert "\nLesson: Goodbye. The lesson keeps your place.\r\n" in str(run.before)
    again = start()
    again.expect_exact(PROMPT)
    assert "Question 2 of 2" in str(again.before)


def test_the_end_of_the_input_leaves_politely(start: Callable[..., Any]) -> None:
    run = start("--lines", "--width", "50")
    run.expect_exact(PROMPT)
    run.sendeof()
    run.expect_exact("keeps your place.")
    run.expect(pexpect.EOF)
    run.close()
    assert run.exitstatus == 0


def test_a_voice_without_a_device_lets_the_lesson_go_on(start: Callable[..., Any]) -> None:
    run = start("--lines", "--voice", "on", "--speed", "3")
    run.expect_exact(PROMPT)
    assert "Black plays Nf6" in str(run.before)
    run.sendline("go to 0:01")
    run.expect_exact("Tobias: White begins")
    run.sendline("quit")
    run.expect(pexpect.EOF)
    run.close()
    assert run.exitstatus == 0
