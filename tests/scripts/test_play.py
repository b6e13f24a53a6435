"""`play.py`: sets up what is missing and hands over, without a registry to try it against."""

from __future__ import annotations

import contextlib
import os
import runpy
import subprocess
import sys
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import pytest

from scripts.setting_up.command import play
from scripts.setting_up.stamp import Stamp, write_stamp
from scripts.setting_up.turns import one_at_a_time
from tests.scripts.checkout import ROOT, VERSION, Bench, make_checkout, make_venv

posix_only = pytest.mark.skipif(os.name != "posix", reason="links and shell scripts are POSIX's")


@pytest.fixture
def bench(tmp_path: Path) -> Bench:
    return Bench(make_checkout(tmp_path / "a checkout"))


def run(bench: Bench, *args: str) -> int:
    return play(args, bench.place, bench.hands())


def test_the_first_run_installs_and_hands_over_and_the_next_only_hands_over(bench: Bench) -> None:
    assert run(bench, "play", "my lesson") == 0
    assert bench.ran == ["venv", "build", "play"]
    for command in bench.commands[1:]:
        assert {"--require-hashes", "--no-deps", "--only-binary"} <= set(command)
    assert "--no-build-isolation" in bench.commands[2]
    command = [str(bench.place.python), str(bench.place.starter), "play", "my lesson"]
    assert bench.handed_over == [command]
    told = list(bench.said)
    assert run(bench, "play", "my lesson") == 0
    assert (bench.ran, bench.said) == (["venv", "build", "play"], told)
    assert bench.handed_over == [command, command]


def test_progress_is_told_in_plain_lines(bench: Bench) -> None:
    run(bench)
    assert bench.said == [
        f"Making {bench.place.venv} for the libraries.",
        "Fetching the libraries; only a first run or a new version needs this.",
        "  1 of 2: setuptools 80.0",
        "  2 of 2: wheel 0.45",
        "  Putting them in place.",
        "  1 of 2: chess 1.11.2",
        "  2 of 2: click 8.1",
        "  Putting them in place.",
        "All the libraries are in place.",
    ]


def test_a_new_lock_is_installed_into_what_is_there(bench: Bench) -> None:
    run(bench)
    lock = bench.place.lock("play")
    lock.write_bytes(lock.read_bytes().replace(b"\n", b"\r\n"))
    run(bench)
    assert bench.ran == ["venv", "build", "play"]  # the same lock with other line ends
    lock.write_text(lock.read_text(encoding="utf-8").replace("8.1", "8.2"), encoding="utf-8")
    run(bench)
    assert bench.ran[3:] == ["build", "play"]


def test_the_optional_sets_are_added_once_and_unknown_ones_refused_before_anything(bench: Bench) -> None:
    assert run(bench, "--with", "neural", "--with", "../x", "play") == 2
    assert bench.said == ['There is no set of libraries called "../x". There are: neural.']
    assert run(bench, "--with") == 2
    assert (bench.ran, bench.handed_over) == ([], [])
    run(bench, "--with", "neural", "say", "--with", "words")
    run(bench, "--with", "neural")
    assert bench.ran == ["venv", "build", "play", "build", "neural"]
    assert bench.handed_over[0][2:] == ["say", "--with", "words"]


@pytest.mark.parametrize(
    ("said", "told"),
    [
        (
            "WARNING: Retrying (Retry(total=0)) after connection broken by 'NewConnectionError(...)'\n"
            "ERROR: No matching distribution found for chess==1.11.2",
            "The package registry cannot be reached. Connect to the internet this once",
        ),
        ("ERROR: Could not install packages: [Errno 28] No space left on device", "The disk is full."),
        ("ERROR: THESE PACKAGES DO NOT MATCH THE HASHES FROM THE REQUIREMENTS FILE.", "A library that came"),
        ("ERROR: No matching distribution found for miniaudio==1.71", "There is no ready-made miniaudio for"),
        (
            "SSLError(SSLCertVerificationError(1, '[SSL: CERTIFICATE_VERIFY_FAILED]",
            "The package registry was",
        ),
        ("ERROR: Could not install: [Errno 13] Permission denied: '.venv/bin'", "The folder .venv cannot be"),
        ("/x/.venv/bin/python: No module named pip", "The folder .venv has no pip in it."),
        ("ERROR: something never seen", "Setting up failed in pip. What it said is in "),
    ],
)
def test_a_failure_is_told_in_a_sentence_and_the_next_run_heals(bench: Bench, said: str, told: str) -> None:
    bench.fail = {"play": said}
    assert run(bench, "play") == 2
    assert bench.said[-1].startswith(told)
    assert bench.place.log.read_text(encoding="utf-8") == said + "\n"
    assert bench.handed_over == []
    bench.fail = {}
    assert run(bench, "play") == 0
    assert bench.ran == ["venv", "build", "play"] * 2
    assert not bench.place.log.exists()


def test_a_registry_that_does_not_answer_is_told_of_once_while_pip_tries_again(bench: Bench) -> None:
    bench.fail = {"build": "WARNING: Retrying (Retry(total=4))\nWARNING: Retrying (Retry(total=3))\n"}
    run(bench)
    assert bench.said.count("  The package registry does not answer; trying again.") == 1


def test_no_venv_or_no_ensurepip_is_told_with_the_remedy(
    bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    bench.fail = {
        "venv": "The virtual environment was not created successfully because ensurepip is not\navailable."
    }
    assert run(bench) == 2
    monkeypatch.setitem(sys.modules, "ensurepip", None)
    assert run(bench) == 2
    assert [line for line in bench.said if "python3-venv" in line] == [bench.said[-1]] * 2
    assert bench.ran == ["venv"]


@pytest.mark.parametrize("at", ["venv", "build", "play"])
def test_a_stop_anywhere_is_healed_by_the_next_run(bench: Bench, at: str) -> None:
    def stop(command: Sequence[str]) -> None:
        if bench.ran[-1] == at:
            raise KeyboardInterrupt

    bench.before = stop
    assert run(bench) == 130
    assert bench.said[-1].startswith("Stopped.")
    (bench.place.venv / "half a library").write_text("torn")
    bench.before = lambda command: None
    bench.ran.clear()
    assert run(bench) == 0
    assert bench.ran == ["venv", "build", "play"]
    assert not (bench.place.venv / "half a library").exists()


def test_a_torn_stamp_is_healed_too(bench: Bench) -> None:
    run(bench)
    bench.place.stamp.write_text('{"ours": tr', encoding="utf-8")
    assert run(bench) == 0
    assert bench.ran == ["venv", "build", "play"] * 2


def test_a_folder_of_somebody_elses_is_left_alone(bench: Bench) -> None:
    bench.place.venv.mkdir()
    (bench.place.venv / "mine").write_text("kept")
    assert run(bench) == 2
    assert "was not made by this script" in bench.said[-1]
    assert [path.name for path in bench.place.venv.iterdir()] == ["mine"]
    (bench.place.venv / "mine").unlink()
    bench.place.venv.rmdir()
    bench.place.venv.write_text("a file")
    assert run(bench) == 2
    assert bench.said[-1].endswith("is not a folder. Move it away and run this again.")


def test_a_sound_venv_made_by_hand_is_used_but_never_cleared(bench: Bench) -> None:
    make_venv(bench.place)
    (bench.place.venv / "mine").write_text("kept")
    bench.fail = {"play": "ERROR: something"}
    assert run(bench) == 2
    bench.fail = {}
    assert run(bench) == 2
    assert "was not made by this script" in bench.said[-1]
    assert (bench.place.venv / "mine").exists()
    bench.place.stamp.unlink()
    assert run(bench) == 0
    assert "venv" not in bench.ran


@posix_only
@pytest.mark.parametrize("target", ["/nowhere/python3", "/usr/bin/python2.1"])
def test_a_python_that_went_away_or_became_another_means_a_fresh_start(
    bench: Bench, target: str, tmp_path: Path
) -> None:
    run(bench)
    bench.place.python.unlink()
    if "python2.1" in target:
        (tmp_path / "python2.1").touch()
        target = str(tmp_path / "python2.1")
    bench.place.python.symlink_to(target)
    assert run(bench) == 0
    assert bench.ran == ["venv", "build", "play"] * 2


def test_only_one_sets_up_at_a_time(bench: Bench) -> None:
    first = contextlib.ExitStack()
    first.enter_context(one_at_a_time(bench.place.turn, bench.said.append))

    def say(line: str) -> None:
        bench.said.append(line)
        # While this one waits, the first finishes and lets go.
        make_venv(bench.place)
        write_stamp(bench.place, Stamp(ours=True).with_set("play", bench.place))
        first.close()

    assert play((), bench.place, replace(bench.hands(), say=say)) == 0
    assert bench.said == ["Another set-up is under way in this folder; waiting for it."]
    assert (bench.ran, len(bench.handed_over)) == ([], 1)


def test_what_cannot_be_written_is_told(bench: Bench, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(command: Sequence[str]) -> None:
        raise OSError(28, "No space left on device")

    bench.before = full
    assert run(bench) == 2
    assert bench.said[-1] == "The disk is full. Make some room (about 100 MB) and run this again."

    def denied(command: Sequence[str]) -> None:
        raise PermissionError(13, "Permission denied")

    bench.before = denied
    assert run(bench) == 2
    assert bench.said[-1].startswith(f"Nothing can be written in {bench.place.root}.")


def test_the_names_of_windows(tmp_path: Path) -> None:
    bench = Bench(make_checkout(tmp_path / "c", windows=True))
    assert run(bench, "x") == 0
    scripts = bench.place.venv / "Scripts"
    python, starter = scripts / "python.exe", scripts / "moveteller-script.py"
    assert bench.handed_over == [[str(python), str(starter), "x"]]
    assert '"%~dp0moveteller-script.py" %*' in (scripts / "moveteller.cmd").read_text(encoding="utf-8")
    path = (bench.place.venv / "Lib" / "site-packages" / "moveteller.pth").read_text(encoding="utf-8")
    assert path.strip().replace("\\", "/") == "../../.."


@posix_only
@pytest.mark.parametrize("name", ["plain", "with blanks", "it's", "l" + "o" * 130 + "ng"])
def test_for_real_the_command_runs_from_the_checkout_and_after_it_moved(tmp_path: Path, name: str) -> None:
    bench = Bench(make_checkout(tmp_path / name))
    run(bench)
    shadow = tmp_path / "player"  # a folder of this name where the user stands must not be taken for ours
    shadow.mkdir()
    env = {"PATH": os.environ["PATH"], "HOME": str(tmp_path / "home")}
    moved = tmp_path / "moved here"
    for root in (bench.place.root, moved):
        if root == moved:
            bench.place.root.rename(moved)
        for command in (
            [sys.executable, str(root / "scripts" / "play.py")],
            [str(root / ".venv/bin/moveteller")],
        ):
            done = subprocess.run(
                [*command, "a", "b c"], env=env, cwd=tmp_path, capture_output=True, text=True
            )
            assert (done.returncode, done.stderr) == (7, "")
            assert done.stdout.startswith("told ['a', 'b c'] ")
            assert str(root / ".venv") in done.stdout
    assert not (tmp_path / "home").exists()


@pytest.mark.parametrize("script", ["play.py", "test.py"])
@pytest.mark.parametrize("version", [(2, 7, 18), (3, 10, 4)])
def test_an_older_python_is_told_so(
    script: str,
    version: tuple[int, ...],
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.setattr(sys, "version_info", version)
    with pytest.raises(SystemExit) as caught:
        runpy.run_path(str(ROOT / "scripts" / script), run_name="__main__")
    monkeypatch.undo()
    assert caught.value.code == 2
    told = capsys.readouterr().err
    assert told.startswith(f"Moveteller needs Python 3.11 or newer; this one is {version[0]}.{version[1]}. ")
    head = (ROOT / "scripts" / script).read_text(encoding="utf-8").partition("ROOT =")[0]
    # What comes before the check is in words that every Python of this century can read.
    assert not {"f'", 'f"', "->", ":=", "print("} & set(head.split())
    assert VERSION >= "3.11"
