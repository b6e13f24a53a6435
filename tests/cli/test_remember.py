"""Settings changed from within a lesson."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from player.world.settings import Settings, load_settings, settings_path
from tests.cli.running import Ran, moveteller
from tests.worlds import scratch_world

LESSON = """\
title: A small door
White begins {Nf3}, and Black takes space with {d5}.
Then comes {g3}.
"""


def played(folder: Path, *typed: str) -> Ran:
    (folder / "door.lesson").write_text(LESSON, encoding="utf-8")
    return moveteller(folder, "play", "door.lesson", "--lines", typed="".join(f"{one}\n" for one in typed))


def kept(folder: Path) -> Settings:
    return load_settings(settings_path(scratch_world(folder).folders.config)).settings


def test_remember_keeps_the_present_way_of_telling(tmp_path: Path) -> None:
    ran = played(tmp_path, "speed 1.5", "silence 2", "squares names", "remember")
    assert "Remembered: speed 1.5, silences 2, squares by names, ear mode off." in ran.out
    assert kept(tmp_path) == Settings(speed=1.5, silence_scale=2.0, naming="fide", ear=False)


def test_nothing_is_kept_unless_asked_for(tmp_path: Path) -> None:
    played(tmp_path, "speed 1.5")
    assert kept(tmp_path) == Settings()


@pytest.mark.parametrize(
    ("typed", "said", "settings"),
    [
        ("set volume 0.5", "volume: 0.5 (usual: 1).", Settings(volume=0.5)),
        (
            "set line width 72",
            "line_width: 72 (usual: 0). It holds from the next start on.",
            Settings(line_width=72),
        ),
        ("set speed 2", "Speed: 2.", Settings(speed=2.0)),
        ("set naming alphabet", "Naming: alphabet.", Settings(naming="alphabet")),
        ("set ear on", "Ear: on.", Settings(ear=True)),
        ("set volume 3", "volume must be a number from 0 to 1.", Settings()),
        ("set volum 0.5", "There is no setting called 'volum'. Did you mean volume?", Settings()),
    ],
)
def test_a_setting_is_changed_at_the_prompt(
    tmp_path: Path, typed: str, said: str, settings: Settings
) -> None:
    ran = played(tmp_path, typed)
    assert said in ran.out and ran.code == 0
    assert kept(tmp_path) == settings


def test_a_folder_that_refuses_is_told_of(tmp_path: Path) -> None:
    config = scratch_world(tmp_path).folders.config
    config.parent.mkdir(parents=True, exist_ok=True)
    config.write_text("a file where a folder was meant", encoding="utf-8")
    ran = played(tmp_path, "set volume 0.5", "where")
    assert ran.code == 0 and os.fspath(config) in ran.out + ran.err and "After d5" not in ran.err
