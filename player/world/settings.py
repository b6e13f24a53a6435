"""What the user chose once and for all: typed values in `settings.toml` in the folder for configuration."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields, replace
from pathlib import Path
from typing import Any, Literal

from player.world.files import make_folder, read_text_forgiving, set_aside, write_atomically
from player.world.setting_rules import RULES, Unfit
from player.world.trouble import Trouble

FILE_NAME = "settings.toml"


@dataclass(frozen=True)
class Settings:
    """The settings, each with what holds when nothing was chosen.

    `speed` times the pace of speech; `silence_scale` times every silence of a lesson; `think` is how long a
    question waits, in seconds, or "wait" for ever; `voice` is the name of a voice, or "" for the first that
    works; `volume` goes from 0 to 1; `view` is whose side the board is seen from, "lesson" for the lesson's
    own wish; `line_width` is in columns, 0 for the terminal's; `key_again` asks key questions again in the
    lesson; `engine` is the path or name of a chess engine that speaks UCI, "" for one that is found, "none"
    for none; `naming` is how squares are said; `listen` has answers by voice in hands-free lessons, where
    `headphones` keeps the ear open while the voice speaks and `hands_free_waits` has questions wait for ever;
    `depth` is how far "plainer" goes at first.
    """

    speed: float = 1.0
    silence_scale: float = 1.0
    think: float | Literal["wait"] = "wait"
    voice: str = ""
    volume: float = 1.0
    mute: bool = False
    ear: bool = False
    dress: Literal["plain", "high contrast"] = "plain"
    view: Literal["lesson", "white", "black"] = "lesson"
    line_width: int = 0
    key_again: bool = True
    engine: str = ""
    naming: Literal["letters", "fide", "alphabet"] = "letters"
    depth: Literal["move", "gist", "pieces"] = "move"
    listen: bool = False
    headphones: bool = False
    hands_free_waits: bool = False


@dataclass(frozen=True)
class Loaded:
    """Settings as read, and plain sentences about what in the file could not be used."""

    settings: Settings
    notes: tuple[str, ...] = ()


def settings_path(config: Path) -> Path:
    """The file of the settings in a folder for configuration."""
    return config / FILE_NAME


def load_settings(path: Path) -> Loaded:
    """Read the settings. No file means that nothing was chosen.

    A value that does not fit counts as not chosen and stays in the file; a file that cannot be understood at
    all is renamed, so that the next change does not lose it. Both are told in the notes. Never raises for
    what is in the file; a file that may not be read is told too.
    """
    try:
        known, notes = _read(path)
    except OSError as error:
        return Loaded(Settings(), (f"Your settings in {path} cannot be read: {error.strerror}.",))
    chosen: dict[str, Any] = {}
    for name in _names():
        if name in known:
            try:
                chosen[name] = RULES[name].check(known[name])
            except Unfit as unfit:
                notes = (*notes, f"{name} in {path} {unfit}; until then it counts as not chosen.")
    return Loaded(Settings(**chosen), notes)


def change_settings(path: Path, changes: Mapping[str, Any]) -> Loaded:
    """Write new values for some settings and return all of them; None takes a choice back.

    Comments, order and keys that are not ours stay as they are. The notes say what could not be used of the
    file there was. Raises Trouble for a setting that does not exist or a value that does not fit, OSError
    when the file cannot be written; then nothing is changed.
    """
    import tomlkit  # only a change needs it, and it takes its time to load

    checked: dict[str, Any] = {}
    for name, value in changes.items():
        if name not in RULES:
            raise Trouble(f'There is no setting called "{name}". There are: {", ".join(_names())}.')
        try:
            checked[name] = None if value is None else RULES[name].check(value)
        except Unfit as unfit:
            raise Trouble(f"{name} {unfit}.") from unfit
    _, notes = _read(path)
    text = read_text_forgiving(path) if path.exists() else ""
    document = tomlkit.parse(text)
    for name, value in checked.items():
        if value is None:
            document.pop(name, None)
        else:
            document[name] = value
    make_folder(path.parent)
    write_atomically(path, tomlkit.dumps(document))
    loaded = load_settings(path)
    return replace(loaded, notes=notes + loaded.notes)


def _read(path: Path) -> tuple[dict[str, Any], tuple[str, ...]]:
    """What the file says, and a note if it had to be set aside. Raises OSError."""
    try:
        return tomllib.loads(read_text_forgiving(path)), ()
    except FileNotFoundError:
        return {}, ()
    except (tomllib.TOMLDecodeError, Trouble):
        aside = set_aside(path)
        return {}, (
            f"Your settings could not be understood and are set aside as {aside}. Nothing is chosen now.",
        )


def _names() -> Iterator[str]:
    return (each.name for each in fields(Settings))
