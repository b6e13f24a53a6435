"""Foreign text loses what could steer a terminal, and nothing else."""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from player.world.clean import clean, clean_line

ANYTHING = st.text(st.characters(), max_size=60) | st.text(
    st.sampled_from("ab\x1b[]m;0123\x07\\\x9b\x9d\x9c\n\r\t\u202e\u2066 P?x"), max_size=30
)


@pytest.mark.parametrize(
    ("foreign", "safe"),
    [
        ("\x1b[31mred\x1b[0m", "red"),
        ("\x1b[2J\x1b[1;1Hover", "over"),
        ("\x1b[?1049h", ""),
        ("\x9b31mred", "red"),
        ("\x1b]0;a title\x07text", "text"),
        ("\x1b]8;;file:///x\x1b\\link\x1b]8;;\x1b\\", "link"),
        ("\x9d0;title\x9ctext", "text"),
        ("\x1bPq#0\x1b\\after", "after"),
        ("\x1bcreset", "reset"),
        ("\x1b(0lqk", "lqk"),
        ("bell\x07 back\x08space null\x00 delete\x7f", "bell backspace null delete"),
        ("Nf3 \u202egnp.exe", "Nf3 gnp.exe"),
        ("\u2066isolate\u2069", "isolate"),
        ("\ufeffscript: 1", "script: 1"),
        ("one\r\ntwo\rthree\u2028four", "one\ntwo\nthree\nfour"),
        ("half \ud83d a pair", "half \ufffd a pair"),
    ],
)
def test_what_steers_goes(foreign: str, safe: str) -> None:
    assert clean(foreign) == safe


@pytest.mark.parametrize(
    "text",
    [
        "1.e4 e5 2.\u2658f3 \u2013 \u201cwell\u201d, 3:00\ttab\nline",
        "Fünf Läufer, été, Ладья, 馬",
        "می\u200cخواهم",  # the joiner that Persian spelling needs
        "[31m and ]0;title are only words",
    ],
)
def test_what_is_text_stays(text: str) -> None:
    assert clean(text) == text


def test_an_unfinished_string_loses_its_start_alone() -> None:
    assert clean("\x1b]0;never closed\nnext") == "0;never closed\nnext"


@given(ANYTHING)
@example("\x1b\x1b[31m[31m")
@example("\x1b\x9b\x1b]x")
def test_nothing_that_steers_is_left_and_cleaning_again_changes_nothing(text: str) -> None:
    once = clean(text)
    assert not [c for c in once if unicodedata.category(c) in ("Cc", "Cs") and c not in "\n\t"]
    assert not set(once) & set("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
    assert clean(once) == once
    once.encode("utf-8")


@given(ANYTHING)
def test_a_line_is_one_line(text: str) -> None:
    line = clean_line(text)
    assert len(line.splitlines()) <= 1
    assert line == line.strip()
    assert clean_line(line) == line
