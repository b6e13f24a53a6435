"""Every run ends with a code, and every trouble with a sentence."""

from __future__ import annotations

import importlib
import os
import subprocess
import sys
from pathlib import Path

import pytest

from player.cli.main import COMMANDS
from tests.cli.running import moveteller

ROOT = Path(__file__).parents[2]


@pytest.mark.parametrize(
    ("arguments", "part"),
    [
        (("plya",), "Did you mean 'play'?"),
        (("xyzzy",), "'moveteller help' lists"),
        (("play",), "LESSON"),
        (("play", "nowhere"), "There is no lesson at nowhere"),
        (("play", "1", "--speed", "9"), "--speed"),
        (("play", "1", "--at", "question 99", "--lines"), "There is no 'question 99'"),
        (("play", "1", "--nonsense"), "--nonsense"),
        (("check",), "LESSON"),
        (("check", "nowhere"), "There is no lesson"),
        (("time", "nowhere"), "There is no lesson"),
        (("cues", "nowhere"), "There is no lesson"),
        (("help", "nowhere"), "There is no page"),
        (("help", "selftest"), "'moveteller selftest --help' tells how it is used."),
        (
            ("record",),
            "Say what to do with the record: 'moveteller record export' or",
        ),
        (("play", "1", "--width", "x"), "'x' is no whole number"),
        (("play", "1", "--width", "3"), "3 is not from 10 to 1000"),
        (("revisit", "--minutes", "0"), "0.0 is not more than 0"),
        (("selftest", "--number", "0"), "0 is less than 1"),
        (("say", "--fen", "rubbish", "e4"), "no position in FEN. This FEN has 1 rank, and"),
        (("describe", "--fen", "8/8/8/9/8/8/8/8 w - - 0 1"), "Rank 5 of this FEN is 9, and has in it 9"),
        (("help", "claim"), "Did you mean 'claims'?"),
        (("help", "zzz"), "no page 'zzz'. There are: "),
        (("say", "e5"), "pawn"),
        (("say",), "Name the move"),
        (("hear",), "Say what was heard"),
        (("hear", "--language", "xx", "e4"), "language"),
        (("describe", "sideways"), "'sideways' is no question"),
        (("new", "/"), "needs a name"),
    ],
)
def test_what_cannot_be_done_is_told_in_plain_words(
    tmp_path: Path, arguments: tuple[str, ...], part: str
) -> None:
    ran = moveteller(tmp_path, *arguments)
    assert ran.code == 2
    assert ran.out == ""
    assert part in ran.err and "Traceback" not in ran.err
    assert ran.err.startswith("moveteller: ") and ran.err.count("\n") == 1


@pytest.mark.parametrize("content", [b"\xff\xfe\x00", b"", b"\x00\x01\x02", b"caf\xe9 {e4}", b"{" * 1000])
@pytest.mark.parametrize("command", ["play", "check", "time", "cues"])
def test_a_file_that_is_no_lesson_is_no_traceback(tmp_path: Path, command: str, content: bytes) -> None:
    (tmp_path / "x.lesson").write_bytes(content)
    ran = moveteller(tmp_path, command, "x.lesson")
    assert ran.code in (0, 1, 2)
    assert "Traceback" not in ran.err + ran.out
    if ran.code == 2:
        assert ran.err


def test_a_lesson_that_may_not_be_read_is_told(tmp_path: Path) -> None:
    path = tmp_path / "x.lesson"
    path.write_text("So {e4}.\n", encoding="utf-8")
    path.chmod(0)
    if os.access(path, os.R_OK):
        pytest.skip("this user may read everything")
    for command in ("play", "check", "time"):
        ran = moveteller(tmp_path, command, "x.lesson")
        assert ran.code == 2 and "may not be read" in ran.err


@pytest.mark.parametrize("name", sorted(COMMANDS))
def test_every_command_is_there_under_its_name(name: str) -> None:
    assert importlib.import_module(f"player.cli.{COMMANDS[name][0]}").command.name == name


def test_the_list_of_commands_imports_none_of_them() -> None:
    code = (
        "import sys; from player.cli.main import group\n"
        "try: group.main(['--help'], prog_name='moveteller')\n"
        "except SystemExit: pass\n"
        "loaded = [m for m in sys.modules if m.startswith(('textual', 'chess', 'lark', 'player.screen'))]\n"
        "assert not loaded, loaded"
    )
    ran = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=False)
    assert ran.returncode == 0, ran.stderr
    assert all(name in ran.stdout for name in COMMANDS)


def test_checking_and_lines_never_load_the_screen(tmp_path: Path) -> None:
    code = (
        "import sys; from player.cli.main import run; from player.world.world import real_world\n"
        "world = real_world(); run(['check', '1'], world); run(['play', '1', '--at-once'], world)\n"
        "assert not [m for m in sys.modules if m.startswith('textual')]"
    )
    env = {**os.environ, "MOVETELLER_HOME": str(tmp_path)}
    ran = subprocess.run(
        [sys.executable, "-c", code],
        cwd=ROOT,
        env=env,
        stdin=subprocess.DEVNULL,
        capture_output=True,
        check=False,
    )
    assert ran.returncode == 0, ran.stderr.decode()


def test_the_module_is_the_command_too_and_a_closed_pipe_is_no_trouble(tmp_path: Path) -> None:
    env = {**os.environ, "MOVETELLER_HOME": str(tmp_path), "PYTHONPATH": str(ROOT)}
    run = subprocess.Popen(
        [sys.executable, "-m", "player.cli", "cues", "1", "--json"],
        env=env,
        cwd=tmp_path,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    )
    assert run.stdout is not None and run.stderr is not None
    run.stdout.read(10)
    run.stdout.close()
    assert run.stderr.read() == b""
    run.stderr.close()
    assert run.wait() == 0


def test_the_version_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    import player

    assert moveteller(tmp_path, "--version").code == 0
    assert player.__version__ in capsys.readouterr().out
