"""The dresses: what is read stands out from what lies behind it."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from player.screen.dress import BARE, HIGH, PLAIN, Dress, dress_for
from tests.screen.contrast import contrast
from tests.screen.playing import lesson_in

# WCAG 2.2, success criteria 1.4.3 (4.5:1) and 1.4.6 (7:1).
LEAST = [(PLAIN, 4.5), (HIGH, 7.0)]


def test_the_formula_gives_the_published_extremes() -> None:
    # WCAG 2.2, glossary, "contrast ratio": from 1:1 to 21:1.
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#808080", "#808080") == pytest.approx(1)


@pytest.mark.parametrize(("dress", "least"), LEAST)
def test_men_stand_out_from_both_kinds_of_square(dress: Dress, least: float) -> None:
    for behind in (dress.paper, dress.slate, dress.light):
        assert contrast(dress.ink, behind) >= least


@pytest.mark.parametrize(("dress", "least"), LEAST)
def test_words_stand_out_from_the_room(dress: Dress, least: float) -> None:
    for behind in (dress.room, dress.desk):
        for ink in (dress.text, dress.quiet, dress.lamp):
            assert contrast(ink, behind) >= least


@pytest.mark.parametrize(("dress", "least"), LEAST)
def test_squares_stand_apart(dress: Dress, least: float) -> None:
    # WCAG 2.2, 1.4.11 asks 3:1 of what a picture needs; squares are also named by letters and digits outside.
    assert contrast(dress.paper, dress.slate) > 1.5
    assert contrast(dress.slate, dress.room) >= 3


def test_an_unknown_name_is_the_plain_dress_and_no_colour_is_the_bare_one() -> None:
    assert dress_for("velvet") is PLAIN
    assert dress_for("high contrast") is HIGH
    assert dress_for("high contrast", colour=False) is BARE


async def test_without_colour_nothing_on_the_screen_has_any(tmp_path: Path) -> None:
    app = lesson_in(tmp_path, colour=False)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        for strip in app.screen._compositor.render_strips():
            for segment in app._filters[0].apply(list(strip), app.screen.background_colors[1]):
                assert segment.style is None or segment.style.color is None
                assert segment.style is None or segment.style.bgcolor is None
        assert "rgb(" not in app.export_screenshot()


def test_the_wish_for_no_colour_outlives_the_first_screen(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    lesson_in(tmp_path, colour=False)
    assert os.environ["NO_COLOR"] == "1"
