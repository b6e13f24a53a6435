"""`moveteller ready`: what works on this machine, and what to do about the rest."""

from __future__ import annotations

import click

from player.cli.lessons import demo_scripts
from player.world.files import make_folder
from player.world.trouble import in_words
from player.world.world import World

SAMPLE = "\u265e \u2654 \u2500 \u2022"
"""Chess men, a line and a dot, as the screen shows them (Unicode 15, blocks 2600, 2500 and 2000)."""


@click.command("ready")
@click.pass_obj
def command(world: World) -> int:
    """Try the terminal, voice, sound, microphone and the rest. None of it is needed to read a lesson told."""
    from player.voice.ears.ready import probe as probe_ears
    from player.voice.ready import Fact, probe

    found = (_terminal(world), _letters(world), _keeping(world), _demos())
    heard = (*probe_ears(), _engine(world))
    voice = probe(world.clock, platform=world.platform)
    for fact in (*(Fact(*one) for one in found), *voice, *(Fact(*one) for one in heard)):
        print(
            f"{fact.subject}: {'works' if fact.works else 'does not work'}. {fact.found}", file=world.stdout
        )
        if fact.remedy:
            print(f"{fact.subject}: what to do: {fact.remedy}", file=world.stdout)
        if fact.subject == "voice" and (chosen := _chosen_voice(world)):
            print(f"voice: {chosen}", file=world.stdout)
        world.stdout.flush()
    return 0


def _chosen_voice(world: World) -> str:
    """What the learner's own settings make of the voice; "" where they leave it as it is."""
    from player.voice.choose import SILENT
    from player.world.settings import load_settings, settings_path

    settings = load_settings(settings_path(world.folders.config)).settings
    if settings.mute or settings.voice == SILENT:
        return "your settings ask for none, so lessons are told in text."
    return f"your settings ask for {settings.voice} instead." if settings.voice else ""


_Found = tuple[str, bool, str, str]


def _terminal(world: World) -> _Found:
    if not (world.stdin_is_terminal and world.stdout_is_terminal):
        found = "Input or output is no terminal, so lessons are told line by line."
        return "terminal", False, found, "Start it in a terminal window, without a pipe, for the screen."
    if world.terminal_is_plain:
        found = "TERM is 'dumb', so lessons are told line by line."
        return "terminal", False, found, "Set TERM to the kind of your terminal for the screen."
    size = world.terminal_size()
    found = f"It has {size.columns} columns and {size.lines} lines."
    if size.columns < 80 or size.lines < 24:
        return (
            "terminal",
            True,
            found,
            "80 columns and 24 lines or more show the board and the words together.",
        )
    return "terminal", True, found, ""


def _letters(world: World) -> _Found:
    if world.can_show(SAMPLE):
        return "letters", True, f"The output can have chess men: {SAMPLE}", ""
    name = world.stdout.encoding or "unknown"
    found = f"The output's encoding is {name}, so plain letters are used."
    return "letters", False, found, "Set LANG to a UTF-8 locale, or PYTHONIOENCODING to utf-8, for chess men."


def _keeping(world: World) -> _Found:
    for folder in (world.folders.state, world.folders.cache):
        try:
            make_folder(folder)
            probe = folder / ".ready"
            probe.write_bytes(b"")
            probe.unlink()
        except OSError as error:
            remedy = "Let yourself write there, or set MOVETELLER_HOME to a folder of your own."
            return "places", False, in_words(error), remedy
    return "places", True, f"Where lessons stopped is kept in {world.folders.state}.", ""


def _demos() -> _Found:
    count = len(demo_scripts())
    if not count:
        return "lessons", False, "The demo lessons are not there.", "Install the program anew to have them."
    return "lessons", True, f"{count} demo lessons: 'moveteller play 1' plays the first.", ""


def _engine(world: World) -> _Found:
    """Start the engine that lessons would use, and have it look at the first position."""
    from player.engine.choose import KNOWN, choose_engine
    from player.world.settings import load_settings, settings_path

    settings = load_settings(settings_path(world.folders.config)).settings
    path = choose_engine(None, settings.engine, world.env)
    remedy = f"Install one named {' or '.join(KNOWN)}, or give its path with --engine or in the settings."
    if path is None:
        found = (
            "There is none; what the coach wrote, what the board proves and a short search answer every move."
        )
        return "engine", False, found, "Nothing is needed. " + remedy
    from player.engine.uci import EngineTrouble, UciEngine
    from player.facts.place import Place

    engine = UciEngine(path)
    try:
        name = engine.name
        views = engine.judge(Place(), ["e2e4"])
    except EngineTrouble as trouble:
        return "engine", False, str(trouble), remedy
    finally:
        engine.close()
    if not views:
        return "engine", False, f"{name} is there, and says nothing about a move.", remedy
    return "engine", True, f"{name}, at {path}, may add its opinion.", ""
