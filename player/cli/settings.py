"""`moveteller settings`: what was chosen once and for all, shown and changed."""

from __future__ import annotations

from pathlib import Path

import click

from player.world.setting_rules import ABOUT, RULES, Unfit, typed_as, value_of
from player.world.settings import Settings, change_settings, load_settings, settings_path
from player.world.trouble import Trouble
from player.world.world import World


@click.command("settings")
@click.argument("name", required=False)
@click.argument("value", required=False)
@click.option("--default", "default", is_flag=True, help="Take the choice back.")
@click.pass_obj
def command(world: World, name: str | None, value: str | None, default: bool) -> int:
    """List the settings; show the one called NAME; or set it to VALUE ("" is an empty name)."""
    path = settings_path(world.folders.config)
    if name is None:
        if default:
            raise Trouble("Name the setting to take back, such as: moveteller settings speed --default")
        _listed(world, path)
        return 0
    named = known(name)
    if value is not None and default:
        raise Trouble(f"Give {named} a value or --default, not both.")
    if value is not None or default:
        _changed(world, path, named, value)
    else:
        settings = _loaded(world, path)
        print(line(settings, named), ABOUT[named], sep="\n", file=world.stdout)
    return 0


def known(name: str) -> str:
    """The setting of this name, however it is parted. Trouble where there is none, with the nearest."""
    plain = name.strip().casefold().replace("-", "_").replace(" ", "_")
    if plain in RULES:
        return plain
    from rapidfuzz import fuzz, process

    near = process.extractOne(plain, list(RULES), scorer=fuzz.ratio, score_cutoff=55)
    hint = f"Did you mean {near[0]}?" if near else f"There are: {', '.join(RULES)}."
    raise Trouble(f"There is no setting called '{name}'. {hint}")


def checked(name: str, text: str) -> object:
    """The value that this text means for a setting. Trouble, with what it may be, where it is none."""
    try:
        return value_of(name, text)
    except Unfit as unfit:
        raise Trouble(f"{name} {unfit}.") from unfit


def line(settings: Settings, name: str) -> str:
    """A setting with its value, and what holds when nothing is chosen, where that differs."""
    now, usual = getattr(settings, name), getattr(Settings(), name)
    plainly = typed_as(now) or "(none chosen)"
    if now == usual:
        return f"{name}: {plainly}"
    return f"{name}: {plainly} (usual: {typed_as(usual) or 'none'})"


def _listed(world: World, path: Path) -> None:
    settings = _loaded(world, path)
    for name in RULES:
        print(f"{line(settings, name)}\n    {ABOUT[name]}", file=world.stdout)
    print(f"They are kept in {path}", file=world.stderr)


def _changed(world: World, path: Path, name: str, value: str | None) -> None:
    wanted = None if value is None else checked(name, value)
    loaded = change_settings(path, {name: wanted})
    for note in loaded.notes:
        print(note, file=world.stderr)
    print(line(loaded.settings, name), file=world.stdout)


def _loaded(world: World, path: Path) -> Settings:
    loaded = load_settings(path)
    for note in loaded.notes:
        print(note, file=world.stderr)
    return loaded.settings
