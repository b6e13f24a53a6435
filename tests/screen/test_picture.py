"""The picture in the README is drawn by the program itself, and needs nothing from elsewhere."""

from __future__ import annotations

import html
import re
import xml.etree.ElementTree as ElementTree
from pathlib import Path

from scripts.picture import PICTURE, drawn, main
from tests.screen.playing import LESSON


def words(svg: str) -> str:
    """All text of a picture."""
    return html.unescape("\n".join(re.findall(r"<text[^>]*>([^<]*)</text>", svg))).replace("\u00a0", " ")


async def test_a_script_is_drawn_at_its_first_question() -> None:
    svg = await drawn(LESSON)
    said = words(svg)
    for part in (
        "One Lamp, by Ines Calder",
        "knight to c3",
        "It likes long roads.",
        "White to move: your move?",
    ):
        assert part in said


def test_the_kept_picture_stands_alone(tmp_path: Path) -> None:
    kept = PICTURE.read_text("utf-8")
    ElementTree.fromstring(kept)
    assert re.findall(r"https?://[^\"' )]*", kept) == ["http://www.w3.org/2000/svg"]
    assert "Ines Calder" in words(kept)


def test_it_is_written_where_it_is_wanted(tmp_path: Path) -> None:
    assert main([str(tmp_path / "here.svg")]) == 0
    assert (tmp_path / "here.svg").read_text("utf-8").startswith("<svg")
