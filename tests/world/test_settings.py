"""Settings: typed, forgiving to read, and written without losing anything the user put there."""

from __future__ import annotations

import errno
import os
from dataclasses import asdict, fields
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from player.world.setting_rules import ABOUT, RULES, typed_as, value_of
from player.world.settings import Settings, change_settings, load_settings, settings_path
from player.world.trouble import Trouble

GOOD: dict[str, st.SearchStrategy[Any]] = {
    "speed": st.floats(0.5, 3),
    "silence_scale": st.floats(0.3, 10),
    "think": st.just("wait") | st.floats(1, 3600),
    "voice": st.sampled_from(["", "Ines", 'a "quoted" name', "Übel\\name"]),
    "volume": st.floats(0, 1),
    "mute": st.booleans(),
    "ear": st.booleans(),
    "dress": st.sampled_from(["plain", "high contrast"]),
    "view": st.sampled_from(["lesson", "white", "black"]),
    "line_width": st.just(0) | st.integers(20, 400),
    "key_again": st.booleans(),
    "engine": st.sampled_from(["", "none", "/somewhere/engine"]),
    "naming": st.sampled_from(["letters", "fide", "alphabet"]),
    "depth": st.sampled_from(["move", "gist", "pieces"]),
    "listen": st.booleans(),
    "headphones": st.booleans(),
    "hands_free_waits": st.booleans(),
}
JUNK = st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=5) | st.lists(st.integers())


def test_every_setting_has_a_rule_that_its_default_keeps() -> None:
    assert set(RULES) == {each.name for each in fields(Settings)} == set(GOOD)
    for name, value in asdict(Settings()).items():
        assert RULES[name].check(value) == value


def test_every_setting_is_told_of_in_one_line() -> None:
    assert set(ABOUT) == set(RULES)
    assert all(about.endswith(".") and "\n" not in about and len(about) < 110 for about in ABOUT.values())


@given(st.sampled_from(sorted(GOOD)).flatmap(lambda name: st.tuples(st.just(name), GOOD[name])))
def test_a_value_typed_as_it_is_shown_is_that_value(one: tuple[str, Any]) -> None:
    name, value = one
    back = value_of(name, typed_as(value))
    if isinstance(value, float) and isinstance(back, float):
        assert abs(back - value) <= 1e-5 * value
    else:
        assert back == value


def test_no_file_means_nothing_was_chosen_and_makes_none(tmp_path: Path) -> None:
    loaded = load_settings(settings_path(tmp_path / "config"))
    assert (loaded.settings, loaded.notes) == (Settings(), ())
    assert list(tmp_path.iterdir()) == []


@given(st.fixed_dictionaries({}, optional=GOOD))
def test_what_is_chosen_comes_back(tmp_path_factory: pytest.TempPathFactory, choice: dict[str, Any]) -> None:
    path = settings_path(tmp_path_factory.mktemp("s") / "config")
    changed = change_settings(path, choice)
    assert changed == load_settings(path)
    assert changed.settings == Settings(**choice)
    assert changed.notes == ()


@given(st.sampled_from(sorted(GOOD)), JUNK)
def test_any_value_is_taken_as_it_is_or_refused_in_words(
    tmp_path_factory: pytest.TempPathFactory, name: str, value: Any
) -> None:
    path = settings_path(tmp_path_factory.mktemp("s"))
    try:
        settings = change_settings(path, {name: value}).settings
    except Trouble as trouble:
        assert str(trouble).startswith(f"{name} must be ")
        assert not path.exists()
    else:
        assert getattr(settings, name) == (getattr(Settings(), name) if value is None else value)


def test_comments_order_and_foreign_keys_stay(tmp_path: Path) -> None:
    path = tmp_path / "settings.toml"
    path.write_text(
        "# mine\nmute = true  # at night\nlater_setting = [1, 2]\n\n[plugin]\nspeed = 9\n", encoding="utf-8"
    )
    changed = change_settings(path, {"mute": False, "speed": 1.25})
    assert (changed.settings.mute, changed.settings.speed) == (False, 1.25)
    assert path.read_text(encoding="utf-8") == (
        "# mine\nmute = false  # at night\nlater_setting = [1, 2]\nspeed = 1.25\n\n[plugin]\nspeed = 9\n"
    )


def test_a_choice_is_taken_back_with_none(tmp_path: Path) -> None:
    path = tmp_path / "settings.toml"
    change_settings(path, {"speed": 2, "ear": True})
    assert change_settings(path, {"speed": None}).settings == Settings(ear=True)
    assert "speed" not in path.read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("speed = 40", "must be a number from 0.5 to 3"),
        ("speed = true", "must be a number"),
        ("speed = nan", "must be a number"),
        ('think = "soon"', 'must be a number from 1 to 3600, or "wait"'),
        ("line_width = 30.5", "must be a whole number from 20 to 400, or 0"),
        ('dress = "loud"', 'must be "plain" or "high contrast"'),
        ('ear = "yes"', "must be true or false"),
        ('voice = "a\\nb"', "must be a name"),
    ],
)
def test_a_value_that_does_not_fit_is_told_and_stays_in_the_file(
    tmp_path: Path, line: str, told: str
) -> None:
    path = tmp_path / "settings.toml"
    path.write_text(f"{line}\nmute = true\n", encoding="utf-8")
    loaded = load_settings(path)
    assert loaded.settings == Settings(mute=True)
    assert len(loaded.notes) == 1
    assert told in loaded.notes[0]
    assert change_settings(path, {"mute": False}).notes == loaded.notes
    assert path.read_text(encoding="utf-8").startswith(line)


@pytest.mark.parametrize(
    "damaged", [b"speed = = 2\n", b"speed = 2\n\xff\xfe", b"\x00\x00\x00", b"a = 1\na = 2"]
)
def test_a_damaged_file_is_set_aside_and_told(tmp_path: Path, damaged: bytes) -> None:
    path = tmp_path / "settings.toml"
    path.write_bytes(damaged)
    loaded = load_settings(path)
    assert loaded.settings == Settings()
    assert str(tmp_path / "settings.toml.damaged") in loaded.notes[0]
    assert (tmp_path / "settings.toml.damaged").read_bytes() == damaged
    assert load_settings(path).notes == ()


def test_a_change_over_a_damaged_file_keeps_that_file(tmp_path: Path) -> None:
    path = tmp_path / "settings.toml"
    path.write_bytes(b"][")
    changed = change_settings(path, {"speed": 2})
    assert (changed.settings.speed, len(changed.notes)) == (2, 1)
    assert (tmp_path / "settings.toml.damaged").read_bytes() == b"]["


def test_a_setting_that_does_not_exist_is_refused_with_those_that_do(tmp_path: Path) -> None:
    with pytest.raises(Trouble, match=r'no setting called "pace"\. There are: speed, silence_scale, '):
        change_settings(tmp_path / "settings.toml", {"pace": 2})


def test_a_failed_change_leaves_the_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "settings.toml"
    change_settings(path, {"speed": 2})
    before = path.read_bytes()

    def full(*args: object) -> int:
        raise OSError(errno.ENOSPC, "full")

    monkeypatch.setattr(os, "write", full)
    with pytest.raises(OSError, match="full"):
        change_settings(path, {"speed": 3})
    monkeypatch.undo()
    assert path.read_bytes() == before


def test_a_file_that_may_not_be_read_is_told(tmp_path: Path) -> None:
    (tmp_path / "settings.toml").mkdir()
    loaded = load_settings(tmp_path / "settings.toml")
    assert loaded.settings == Settings()
    assert "cannot be read" in loaded.notes[0]
