"""Every example on the printed page about scripts is read by the reader it describes."""

from __future__ import annotations

import re
from importlib.resources import files

import pytest

from player.script.boards import NoBoard, board_of
from player.script.heads import head_of, time_ms
from player.script.here import beginning
from player.script.keys import BLOCK_KEYS, HEADER_KEYS, KEYS, NAMED_KEYS, QUESTION_KEYS
from tests.script.corpora import outcome_of

PAGE = files("player").joinpath("help", "script.md").read_text(encoding="utf-8")
FENCE = re.compile(r"^```lesson ?(?P<code>\S*)\n(?P<text>.*?)^```$", re.MULTILINE | re.DOTALL)
BLOCKS = [(found["code"], found["text"]) for found in FENCE.finditer(PAGE)]
INLINE = sorted(
    set(re.findall(r"`([^`\n]+)`", re.sub(r"^```.*?^```$", "", PAGE, flags=re.MULTILINE | re.DOTALL)))
)


@pytest.mark.parametrize(("code", "text"), BLOCKS, ids=[f"{n}-{code}" for n, (code, _) in enumerate(BLOCKS)])
def test_block(code: str, text: str) -> None:
    """A whole example has no fault and no query; one that shows a mistake has that fault and no other."""
    said = outcome_of(text if "title:" in text else "title: x\n\n" + text)
    if code:
        assert {fault.code for fault in said.faults} == {code}
    else:
        assert said.faults + said.queries == ()


@pytest.mark.parametrize("example", INLINE)
def test_example_in_a_sentence(example: str) -> None:
    if example == ".lesson" or re.fullmatch(r"\\[!-/:-@\[-`{-~]", example):
        return
    if example == "#":
        assert outcome_of("title: x\n\nOn.\n# no word of this\n").told == outcome_of("title: x\n\nOn.\n").told
    elif example.startswith("["):
        assert time_ms(example.strip("[]")) is not None
    elif example.startswith("{"):
        said = outcome_of(f"title: x\n\n{_board_for(example)}{example}\n")
        assert said.faults == ()
    else:
        _key_line(example)


def _board_for(brace: str) -> str:
    """A position in which the example's move can be made."""
    if "takes on c6" in brace:
        return "board: 4k3/8/2n5/1B6/8/8/8/4K3 w - - 0 1\n\n"
    if "castle" in brace:
        return "board: 4k2r/5p2/8/8/8/8/5P2/4K2R w Kk - 0 1\n\n"
    return ""


def _key_line(example: str) -> None:
    """A key alone, or a whole line with a key; the names in capitals stand for any word."""
    head = head_of(example)
    assert head.key in KEYS
    assert head.slip == ""
    if example.endswith(":"):
        assert (head.key in NAMED_KEYS) == bool(head.name)
        return
    said = outcome_of(_script_with(example, head.key))
    assert said.faults == (), example


def _script_with(line: str, key: str) -> str:
    before = "{Nf3} {d5} {g3} {Nf6}.\n\nmark: the fork\n\n{Bg2}.\n\n"
    if key in HEADER_KEYS:
        return f"title: x\n{line}\n\nGood evening.\n"
    if key in QUESTION_KEYS:
        choices = "  answer: e4\n" if key == "ask" and "ask: move" not in line else ""
        if line == "ask: count":
            choices = "  answer: 3\n"
        if line == "ask: choice":
            choices = "  choice: yes\n  choice: no\n  answer: yes\n"
        ask = "  ask: square\n" if key == "answer" else ""
        return f"title: x\n\nquestion: Where to?\n{ask}  {line}\n{choices}\n{{d4}}.\n"
    if key == "game":
        return f"title: x\n\n{line}\n\n{{e4}}.\n"
    if key == "mark":
        return f"title: x\n\n{line}\n"
    if key == "back":
        return f"title: x\n\n{before}aside: x\n  {{e6}}.\n  {line}\n"
    if line.startswith("imagine: remove"):
        return f"title: x\n\n{{Nf3}} {{d5}}.\n\n{line}\n  Look.\n"
    if key in BLOCK_KEYS:
        return f"title: x\n\n{before}{line}\n  Look.\n"
    return f"title: x\n\n{before}{line}\n"


def test_the_page_lists_every_key() -> None:
    listed = set(re.findall(r"`([a-z]+)(?: [A-Z]+)?:`", PAGE))
    assert listed == KEYS


def test_the_page_has_the_eight_rules_in_order() -> None:
    assert re.findall(r"^(\d)\. ", PAGE, flags=re.MULTILINE) == list("12345678")


def test_the_page_is_one_page() -> None:
    text = PAGE.split("## When something is wrong")[0]
    assert len(text.splitlines()) <= 110
    assert max(map(len, PAGE.splitlines())) <= 135


def test_the_boards_on_the_page_are_boards() -> None:
    boards = [example.removeprefix("board: ") for example in INLINE if example.startswith("board: ")]
    absolute = [value for value in boards if not value.startswith(("after", "back"))]
    assert absolute
    for value in absolute:
        assert not isinstance(board_of(value, beginning(), {}, "en"), NoBoard)
