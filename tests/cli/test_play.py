"""Playing from the command line without a terminal."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from player.cli.perform import Wishes, chosen, wants_lines
from player.stage.state import Telling
from player.world.settings import Settings
from tests.cli.running import moveteller
from tests.worlds import scratch_world


def recorded(folder: Path, *arguments: str, typed: str = "") -> list[dict[str, Any]]:
    file = folder / "happened.jsonl"
    ran = moveteller(folder, "play", *arguments, "--record-happenings", str(file), typed=typed)
    assert ran.code == 0, ran.err
    return [json.loads(line) for line in file.read_text(encoding="utf-8").splitlines()]


def test_at_once_tells_all_of_it(tmp_path: Path) -> None:
    seen = recorded(tmp_path, "1", "--at-once")
    assert seen[-1]["kind"] == "over"
    assert sum(one["kind"] == "put" for one in seen) == 8


def test_the_told_lesson_and_the_played_one_agree(tmp_path: Path) -> None:
    told = moveteller(tmp_path, "cues", "1", "--json").out.splitlines()
    cues = [json.loads(line) for line in told]
    assert all({"ms", "kind", "line", "scope"} <= set(one) for one in cues)
    assert [one["ms"] for one in cues] == sorted(one["ms"] for one in cues)
    played = recorded(tmp_path, "1", "--at-once", "--fresh")

    def moves(seen: list[dict[str, Any]]) -> list[tuple[str, str]]:
        return [(one["fen"], one["why"]) for one in seen if one["kind"] == "board"]

    assert moves(cues) == moves(played)


def test_cues_without_json_are_lines_to_read(tmp_path: Path) -> None:
    out = moveteller(tmp_path, "cues", "1").out
    assert "0:00.000 say Good evening" in out
    assert "board Nf3" in out


def test_the_next_run_goes_on_and_a_fresh_one_does_not(tmp_path: Path) -> None:
    moveteller(tmp_path, "play", "1", "--lines", typed="\n\n\n")
    assert "Good evening" not in moveteller(tmp_path, "play", "1", "--lines").out
    assert "Good evening" in moveteller(tmp_path, "play", "1", "--lines", "--fresh").out


def test_questions_only_and_a_place_to_begin(tmp_path: Path) -> None:
    out = moveteller(tmp_path, "play", "1", "--lines", "--questions-only").out
    assert "Question 1 of 8" in out and "Good evening" not in out
    out = moveteller(tmp_path, "play", "1", "--lines", "--at", "question 3").out
    assert "Question 3 of 8" in out and "Question 1" not in out


def test_a_wrong_move_is_answered_from_the_board(tmp_path: Path) -> None:
    script = "title: x\n\nSo {e4 e5 Qh5 Nc6}.\n\nquestion: What now?\n{Nf3}. Calm.\n"
    (tmp_path / "x.lesson").write_text(script, encoding="utf-8")
    out = moveteller(tmp_path, "play", "x", "--lines", typed="Qxf7\n").out
    assert re.search(r"Board: .*the king on e8 can take it, and nothing takes back\.", " ".join(out.split()))


def test_a_script_with_faults_is_told_as_far_as_it_goes(tmp_path: Path) -> None:
    (tmp_path / "x.lesson").write_text("title: x\n\nSo {e4}. Then {Ke5}. And on.\n", encoding="utf-8")
    ran = moveteller(tmp_path, "play", "x", "--at-once")
    assert ran.code == 0
    assert "has a fault, the first in line 3" in ran.err and "White plays e4" in ran.out


@pytest.mark.parametrize(
    ("wishes", "telling"),
    [
        (Wishes(), Telling(key_again=True)),
        (Wishes(mute=True, speed=1.5), Telling(key_again=True, voice=False, speed=1.5)),
        (Wishes(ear=True, questions_only=True), Telling(key_again=True, ear=True, questions_only=True)),
        (Wishes(hands_free=True), Telling(key_again=True, ear=True, wait=False)),
        (Wishes(at_once=True), Telling(key_again=True, at_once=True)),
    ],
)
def test_the_screen_is_told_as_wished(wishes: Wishes, telling: Telling) -> None:
    assert chosen(Settings(), wishes, lines=False) == telling


def test_lines_are_silent_untimed_and_paced_unless_wished_otherwise() -> None:
    plain = Telling(key_again=True, voice=False, by_beat=True, at_once=True, wait=True)
    assert chosen(Settings(think=12.0), Wishes(), lines=True) == plain
    assert chosen(Settings(), Wishes(voice="on"), lines=True) == replace(plain, voice=True)


def test_settings_hold_and_a_lesson_taken_up_keeps_its_pace() -> None:
    settings = Settings(speed=1.25, silence_scale=2.0, mute=True, ear=True, think=20.0)
    telling = chosen(settings, Wishes(), lines=False)
    assert telling == Telling(
        key_again=True, speed=1.25, silence=2.0, think=20 / 12, voice=False, ear=True, wait=False
    )
    assert chosen(Settings(view="black"), Wishes(), lines=False).view == "black"
    before = Telling(speed=2.0, naming="alphabet", ear=True, wait=False)
    again = chosen(Settings(), Wishes(), lines=False, before=before)
    assert again == Telling(key_again=True, speed=2.0, naming="alphabet")
    assert chosen(Settings(), Wishes(speed=0.8), lines=False, before=before).speed == 0.8


def test_lines_come_by_themselves_where_there_is_no_real_terminal(tmp_path: Path) -> None:
    assert wants_lines(scratch_world(tmp_path), Wishes())
    assert wants_lines(scratch_world(tmp_path, terminal=True, env={"TERM": "dumb"}), Wishes())
    assert not wants_lines(scratch_world(tmp_path, terminal=True, env={"TERM": "xterm"}), Wishes())
    assert wants_lines(scratch_world(tmp_path, terminal=True), Wishes(lines=True))
