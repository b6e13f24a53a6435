"""What README.md and DEVELOPERS.md show is so: the script is sound, the commands and files are there."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import click
import pytest

from player.cli.main import COMMANDS, group
from player.session.pages import page_names
from tests.cli.running import moveteller
from tests.script.corpora import outcome_of

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
EXAMPLE = re.compile(
    r"^    (?:python3 scripts/play\.py|moveteller) ([a-z][^\n]*?)(?:   +[^\n]*)?$", re.MULTILINE
)
INLINE = re.compile(r"`(?:python3 scripts/play\.py|moveteller) ([a-z][^`\n]*)`")
USES = sorted(
    {
        found[1].strip()
        for text in (README, DEVELOPERS)
        for form in (EXAMPLE, INLINE)
        for found in form.finditer(text)
    }
)


def first_script() -> str:
    block = README.partition("## A first script in ten lines\n")[2].partition("\nSave it as")[0]
    return "\n".join(line.removeprefix("    ") for line in block.strip("\n").splitlines()) + "\n"


def test_the_first_script_is_ten_lines_and_sound(tmp_path: Path) -> None:
    script = first_script()
    assert len([line for line in script.splitlines() if line.strip()]) <= 10
    said = outcome_of(script)
    assert not said.faults and not said.queries
    (tmp_path / "small-door.lesson").write_text(script, encoding="utf-8")
    ran = moveteller(tmp_path, "check", "small-door.lesson")
    assert ran.code == 0 and "no faults" in ran.out and "quer" not in ran.out
    out = moveteller(tmp_path, "play", "small-door.lesson", "--lines", typed="\ng3\n\n\n").out
    assert "Yes: g3." in out and "White plays Bg2" in out


@pytest.mark.parametrize("use", USES)
def test_a_command_that_is_named_is_there_with_its_options(use: str) -> None:
    name, *words = shlex.split(use)
    if name.isupper():
        return
    assert name in COMMANDS, use
    command = group.get_command(click.Context(group), name)
    while isinstance(command, click.Group) and words:
        command = command.get_command(click.Context(command), words.pop(0))
    assert command is not None, use
    options = {form for one in command.params for form in one.opts}
    assert {word for word in words if word.startswith("--")} <= options | {"--help"}, use
    if name == "help" and words and words[0].islower():
        assert words[0] in page_names(), use


def test_every_command_is_told_of() -> None:
    named = {use.split()[0] for use in USES if use in README}
    assert set(COMMANDS) <= named


def test_the_tools_of_one_line_do_what_is_said(tmp_path: Path) -> None:
    assert moveteller(tmp_path, "say", "Nf3").out == "knight to f3\n"
    assert moveteller(tmp_path, "hear", "knight", "to", "f3").out == "Nf3\n"
    assert moveteller(tmp_path, "describe", "what", "attacks", "e3").out.startswith("e3 is attacked by")
    assert moveteller(tmp_path, "prove", "White has the move").code == 0


@pytest.mark.parametrize("text", [README, DEVELOPERS])
def test_what_is_linked_or_named_as_a_file_is_there(text: str) -> None:
    linked = re.findall(r"\]\((?!https?:)([^)#]+)\)", text)
    named = re.findall(r"`((?:player|tests|scripts|demo_lessons)/[\w/.-]+)`", text)
    for path in linked + named:
        assert (ROOT / path).exists(), path
    for path in re.findall(r"python3 (scripts/\w+\.py)", text):
        assert (ROOT / path).exists(), path
