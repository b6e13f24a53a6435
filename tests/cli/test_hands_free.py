"""`moveteller play --hands-free`: the skin that the wish and the settings call for."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest

from player.aloud import opening
from player.aloud.ears import SERVES
from player.cli.perform import Wishes, chosen
from player.voice.ears.recogniser import NO_PACKAGE, NoEars
from player.world.settings import Settings
from tests.cli.running import Ran, moveteller

LESSON = """\
title: A small door
coach: Ines Calder

White begins {Nf3}, and Black takes space with {d5}.

question: Which small step opens a diagonal?

{g3}. And there it is.
"""


def played(folder: Path, *wishes: str) -> Ran:
    (folder / "door.lesson").write_text(LESSON, encoding="utf-8")
    return moveteller(folder, "play", "door.lesson", "--hands-free", "--mute", *wishes)


def test_it_runs_to_its_end_untouched_and_says_all_that_matters_first(tmp_path: Path) -> None:
    ran = played(tmp_path)
    lines = ran.out.splitlines()
    assert (ran.code, ran.err) == (0, "")
    assert lines[0] == f"Lesson: {opening.CAUTIONS}" and lines[1] == f"Lesson: {opening.TAPS}"
    assert "1 question" in lines[2]
    assert "Ines: g3." in lines and lines[-2:] == [f"Lesson: {opening.TOLD}", "Lesson: Goodbye."]


def test_a_second_time_it_begins_at_the_start(tmp_path: Path) -> None:
    first = played(tmp_path)
    assert played(tmp_path).out.count("Ines:") == first.out.count("Ines:")


def test_at_once_it_takes_no_time(tmp_path: Path) -> None:
    assert played(tmp_path, "--at-once").out.endswith("Lesson: Goodbye.\n")


def test_with_lines_it_is_the_line_skin_that_tells(tmp_path: Path) -> None:
    assert opening.CAUTIONS not in played(tmp_path, "--lines", "--at-once").out


def test_lines_are_as_long_as_one_likes(tmp_path: Path) -> None:
    assert max(map(len, played(tmp_path, "--width", "40").out.splitlines())) <= 40


def test_where_nothing_can_be_heard_one_notice_is_given(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def none(*, headphones: bool) -> None:
        raise NoEars(NO_PACKAGE)

    monkeypatch.setattr("player.aloud.ears.RealEars", none)
    ran = played(tmp_path, "--listen")
    assert ran.out.count(f"Lesson: {NO_PACKAGE} {SERVES}") == 1 and opening.VOICE not in ran.out
    moveteller(tmp_path, "settings", "listen", "yes")
    assert NO_PACKAGE in played(tmp_path).out


def test_the_settings_say_how_it_is_told() -> None:
    hands_free = Wishes(hands_free=True)
    settings = Settings(naming="fide", depth="pieces", silence_scale=2.0, hands_free_waits=True)
    telling = chosen(settings, hands_free, lines=False)
    assert (telling.naming, telling.depth, telling.silence) == ("fide", "pieces", 2.0)
    assert telling.wait and telling.ear and telling.voice and not telling.by_beat
    assert not chosen(Settings(), hands_free, lines=False).wait
    assert not chosen(Settings(mute=True), Wishes(hands_free=True, mute=True), lines=False).voice


def test_a_revisit_is_hands_free_too(tmp_path: Path) -> None:
    (tmp_path / "door.lesson").write_text(LESSON, encoding="utf-8")
    moveteller(tmp_path, "play", "door.lesson", "--lines", typed="\n\ne3\ng3\n\n\n")
    with sqlite3.connect(next(tmp_path.rglob("record.sqlite3"))) as record:
        record.execute("UPDATE tries SET at = replace(at, '20', '19')")
    ran = moveteller(tmp_path, "revisit", "--hands-free", "--minutes", "5", "--mute")
    assert ran.code == 0 and f"Lesson: {opening.CAUTIONS}" in ran.out
    assert "Which small step opens a diagonal?" in ran.out and ran.out.endswith("Lesson: Goodbye.\n")
