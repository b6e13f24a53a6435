"""The `moveteller` command: which file does which command, and how troubles are told."""

from __future__ import annotations

import contextlib
import gc
import importlib
import os
import re
import sys
from collections.abc import Sequence
from typing import Any

import click

import player
from player.cli.codes import Code
from player.world.trouble import Trouble, in_words
from player.world.world import World, real_world

COMMANDS: dict[str, tuple[str, str]] = {
    "play": ("play", "Play a lesson."),
    "revisit": ("revisit", "Ask again what waits for today."),
    "selftest": ("selftest", "Ask the questions of a lesson, or the moves of any game, untold."),
    "progress": ("progress", "Say how you stand with each idea."),
    "record": ("record", "Write out or erase what is kept of your answers."),
    "answers": ("answers", "Write your anonymous answers to a lesson, for the coach."),
    "group": ("group", "Merge answer sheets: where a class fails."),
    "new": ("new", "Write a five-line lesson that already plays."),
    "check": ("check", "Check what lessons say against the board."),
    "time": ("time", "Measure a lesson with the voice and write its time stamps."),
    "cues": ("cues", "Print the told lesson on a clock, one happening a line."),
    "say": ("say", "Say a move of a position in words."),
    "hear": ("hear", "Tell which move some words mean in a position."),
    "listen": ("listen", "Tell what the ears make of a sound file."),
    "describe": ("describe", "Describe a position in words."),
    "prove": ("prove", "Tell whether a claim about a position is true, and why."),
    "settings": ("settings", "List, show and change what you chose once and for all."),
    "ready": ("ready", "Try what works on this machine, and say what to do about the rest."),
    "help": ("help", "Print a page of help."),
}


class Lazy(click.Group):
    """A group whose commands are imported when they are used, and not to be listed."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, name: str) -> click.Command | None:
        if name not in COMMANDS:
            return None
        command: click.Command = importlib.import_module(f"player.cli.{COMMANDS[name][0]}").command
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        try:
            return super().resolve_command(ctx, args)
        except click.UsageError as error:
            near = _near(args[0])
            hint = f" Did you mean '{near}'?" if near else " 'moveteller help' lists the commands."
            raise click.UsageError(f"There is no command '{args[0]}'.{hint}", ctx) from error

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Commands"):
            formatter.write_dl([(name, about) for name, (_, about) in COMMANDS.items()])


@click.command(cls=Lazy, invoke_without_command=True)
@click.version_option(player.__version__, prog_name="moveteller", message="%(prog)s %(version)s")
@click.pass_context
def group(ctx: click.Context) -> None:
    """Narrated chess lessons, told and asked in a terminal. Without a command: the shelf of lessons."""
    if ctx.invoked_subcommand is None:
        from player.cli.shelf import shelf

        ctx.exit(shelf(ctx.obj))


def run(arguments: Sequence[str], world: World) -> int:
    """Run the command in this world and return its exit code; troubles are told in a sentence or two."""
    try:
        code = group.main(args=list(arguments), prog_name="moveteller", standalone_mode=False, obj=world)
        return int(code) if isinstance(code, int) else Code.FINE
    except click.ClickException as error:
        return _told(world, _sentence(error))
    except click.exceptions.Exit as ended:
        return ended.exit_code
    except (click.Abort, KeyboardInterrupt):
        return Code.STOPPED
    except Trouble as trouble:
        return _told(world, str(trouble))
    except (BrokenPipeError, SystemExit):
        # Whoever read our output has had enough; click makes an exit of it.
        _silence(world)
        return Code.FINE
    except OSError as error:
        return _told(world, in_words(error))


def collect_seldom() -> None:
    """Look for cyclic garbage after every 20,000 new objects, not 700: start-up makes many and drops none."""
    gc.set_threshold(20_000, *gc.get_threshold()[1:])


def main() -> int:
    """The entry of the `moveteller` command."""
    collect_seldom()
    try:
        world = real_world()
    except Trouble as trouble:
        print(trouble, file=sys.stderr)
        return Code.UNUSABLE
    code = run(sys.argv[1:], world)
    try:
        world.stdout.flush()
    except BrokenPipeError:
        _silence(world)
    except OSError as error:
        return _told(world, in_words(error))
    return code


def _told(world: World, sentence: str) -> int:
    with contextlib.suppress(OSError):
        print(f"moveteller: {sentence}", file=world.stderr, flush=True)
    return Code.UNUSABLE


_PLAINER = (
    (re.compile(r" is not a valid (?:integer|integer range)\b"), " is no whole number"),
    (re.compile(r" is not a valid (?:float|float range)\b"), " is no number"),
    (re.compile(r" is not in the range ([\d.]+)<=x<=([\d.]+)"), r" is not from \1 to \2"),
    (re.compile(r" is not in the range x>=([\d.]+)"), r" is less than \1"),
    (re.compile(r" is not in the range x>([\d.]+)"), r" is not more than \1"),
)
"""What is said of numbers, in plain words."""


def _sentence(error: click.ClickException) -> str:
    if isinstance(error, click.exceptions.NoArgsIsHelpError) and isinstance(error.ctx.command, click.Group):
        words = " or ".join(
            f"'moveteller {error.ctx.info_name} {name}'" for name in error.ctx.command.commands
        )
        return f"Say what to do with the {error.ctx.info_name}: {words}."
    text = error.format_message().strip()
    for form, plainer in _PLAINER:
        text = form.sub(plainer, text)
    text = text if text.endswith((".", "?", "!")) else f"{text}."
    ctx: Any = getattr(error, "ctx", None)
    if isinstance(error, click.UsageError) and ctx is not None and ctx.parent is not None:
        return f"{text} 'moveteller {ctx.info_name} --help' tells how it is used."
    return text


def _near(name: str) -> str | None:
    from rapidfuzz import fuzz, process

    found = process.extractOne(name, list(COMMANDS), scorer=fuzz.ratio, score_cutoff=60)
    return found[0] if found else None


def _silence(world: World) -> None:
    """Have the output lead nowhere, so that nothing is complained of when the program ends."""
    with contextlib.suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), world.stdout.fileno())
