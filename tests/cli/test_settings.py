"""`moveteller settings`: listed, shown, changed and taken back."""

from __future__ import annotations

from pathlib import Path

import pytest

from player.world.setting_rules import ABOUT, RULES
from player.world.settings import Settings, load_settings, settings_path
from player.world.world import World
from tests.cli.running import moveteller
from tests.worlds import scratch_world


def kept(folder: Path) -> Settings:
    world: World = scratch_world(folder)
    return load_settings(settings_path(world.folders.config)).settings


def test_all_are_listed_with_their_values_and_a_line_of_help(tmp_path: Path) -> None:
    ran = moveteller(tmp_path, "settings")
    assert ran.code == 0 and "settings.toml" in ran.err
    lines = ran.out.splitlines()
    assert [line.partition(":")[0] for line in lines[::2]] == list(RULES)
    assert [line.strip() for line in lines[1::2]] == list(ABOUT.values())
    assert not settings_path(scratch_world(tmp_path).folders.config).exists()


def test_one_is_shown(tmp_path: Path) -> None:
    ran = moveteller(tmp_path, "settings", "speed")
    assert (ran.code, ran.out.splitlines()) == (0, ["speed: 1", ABOUT["speed"]])


@pytest.mark.parametrize(
    ("name", "typed", "value", "shown"),
    [
        ("speed", "1.25", 1.25, "1.25"),
        ("speed", "1,25", 1.25, "1.25"),
        ("silence_scale", "0.3", 0.3, "0.3"),
        ("think", "30", 30.0, "30"),
        ("mute", "on", True, "yes"),
        ("headphones", "yes", True, "yes"),
        ("naming", "FIDE", "fide", "fide"),
        ("dress", "high contrast", "high contrast", "high contrast"),
        ("line_width", "72", 72, "72"),
    ],
)
def test_one_is_changed_and_taken_back(
    tmp_path: Path, name: str, typed: str, value: object, shown: str
) -> None:
    ran = moveteller(tmp_path, "settings", name, typed)
    assert ran.code == 0 and ran.out.startswith(f"{name}: {shown} (usual: ")
    assert getattr(kept(tmp_path), name) == value
    assert moveteller(tmp_path, "settings", name).out.startswith(f"{name}: {shown}")
    back = moveteller(tmp_path, "settings", name, "--default")
    assert back.code == 0 and "usual" not in back.out
    assert kept(tmp_path) == Settings()


def test_a_name_may_be_parted_as_one_likes(tmp_path: Path) -> None:
    assert moveteller(tmp_path, "settings", "hands-free waits", "yes").code == 0
    assert kept(tmp_path).hands_free_waits


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("sped", "2"), "There is no setting called 'sped'. Did you mean speed?"),
        (("speed", "9"), "speed must be a number from 0.5 to 3."),
        (("speed", "fast"), "speed must be a number from 0.5 to 3."),
        (("speed", "nan"), "speed must be a number from 0.5 to 3."),
        (("mute", "perhaps"), "mute must be true or false, yes or no."),
        (("naming", "runes"), 'naming must be "letters" or "fide" or "alphabet".'),
        (("speed", "2", "--default"), "Give speed a value or --default, not both."),
        (("--default",), "Name the setting to take back"),
    ],
)
def test_what_does_not_fit_is_told_and_changes_nothing(
    tmp_path: Path, arguments: tuple[str, ...], words: str
) -> None:
    moveteller(tmp_path, "settings", "speed", "1.5")
    ran = moveteller(tmp_path, "settings", *arguments)
    assert ran.code == 2 and words in ran.err and ran.out == ""
    assert kept(tmp_path) == Settings(speed=1.5)


def test_what_the_file_says_beside_stays(tmp_path: Path) -> None:
    path = settings_path(scratch_world(tmp_path).folders.config)
    path.parent.mkdir(parents=True)
    path.write_text("# mine\nvolume = 0.5 # low\nother = 1\n", encoding="utf-8")
    moveteller(tmp_path, "settings", "speed", "2")
    text = path.read_text(encoding="utf-8")
    assert "# mine" in text and "# low" in text and "other = 1" in text and "speed = 2" in text
