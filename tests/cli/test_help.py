"""The pages of help, and the trial of this machine."""

from __future__ import annotations

from pathlib import Path

import pytest

from player.cli.main import COMMANDS
from player.session.pages import page_names
from player.stage.registry import ACTIONS
from tests.cli.running import moveteller


@pytest.mark.parametrize("name", page_names())
def test_every_page_prints_plainly(tmp_path: Path, name: str) -> None:
    ran = moveteller(tmp_path, "help", name)
    assert ran.code == 0 and len(ran.out.splitlines()) > 5
    assert "```" not in ran.out and "PAGES" not in ran.out
    assert not any(line.startswith("#") and not line.startswith("# ") for line in ran.out.splitlines())


def test_the_first_page_names_the_others(tmp_path: Path) -> None:
    out = moveteller(tmp_path, "help").out
    assert all(name in out for name in page_names())


def test_the_page_of_commands_has_every_action_and_every_way_to_say_it(tmp_path: Path) -> None:
    out = moveteller(tmp_path, "help", "commands").out
    for action in ACTIONS:
        assert action.help in out
        assert all(word in out for word in action.words)


def test_the_commands_that_a_page_names_are_there(tmp_path: Path) -> None:
    for name in page_names():
        for line in moveteller(tmp_path, "help", name).out.splitlines():
            words = line.split()
            if (
                line.startswith("    ")
                and words[:1] == ["moveteller"]
                and len(words) > 1
                and words[1].isalpha()
            ):
                assert words[1] in COMMANDS or words[1] == "the", line


def test_safety_is_told(tmp_path: Path) -> None:
    out = moveteller(tmp_path, "help", "safety").out
    assert "not for driving" in out and "machines" in out and "headphones" in out


def test_ready_has_a_remedy_for_all_that_does_not_work(tmp_path: Path) -> None:
    ran = moveteller(tmp_path, "ready")
    assert ran.code == 0
    said = ran.out.splitlines()
    subjects = [line.partition(":")[0] for line in said if ": works." in line or ": does not work." in line]
    wanted = "terminal letters places lessons voice sound microphone ears engine"
    assert subjects == wanted.split()
    for line in said:
        if ": does not work." in line:
            assert any(other.startswith(f"{line.partition(':')[0]}: what to do: ") for other in said)


def test_ready_says_what_the_settings_make_of_the_voice(tmp_path: Path) -> None:
    assert "your settings" not in moveteller(tmp_path, "ready").out
    moveteller(tmp_path, "settings", "voice", "silent")
    assert "voice: your settings ask for none" in moveteller(tmp_path, "ready").out
