"""The checker, through its one door: claims, `fine:` and words to guess."""

from __future__ import annotations

from pathlib import Path

import pytest

from player.check.check import check_lesson

HEAD = "script: 1\ntitle: A walk\ncoach: Ines\nside: white\npronounce Ines: ee-NESS\n\n"


@pytest.fixture
def codes(tmp_path: Path):  # type: ignore[no-untyped-def]
    def of(body: str) -> list[str]:
        path = tmp_path / "walk.lesson"
        path.write_text(HEAD + body, encoding="utf-8")
        return [fault.code for fault in check_lesson(path)]

    return of


def test_a_clean_script_has_nothing(codes) -> None:  # type: ignore[no-untyped-def]
    assert codes("White begins {Nf3} and {d5} comes.\n") == []


def test_a_claim_that_nothing_proved_is_a_query_never_a_pass(codes) -> None:  # type: ignore[no-untyped-def]
    assert codes("White begins {Nf3}.\nclaim: the knight on f3 is undefended\n") == ["claim-unproved"]


def test_fine_waves_off_a_doubt_about_these_words(codes) -> None:  # type: ignore[no-untyped-def]
    body = "White plays g3 one day. First {Nf3}.\n"
    assert len(codes(body)) == 1
    assert codes(body + "fine: g3\n") == []


def test_fine_that_waves_off_nothing_is_a_query(codes) -> None:  # type: ignore[no-untyped-def]
    assert codes("White begins {Nf3}.\nfine: the knight\n") == ["fine-without-doubt"]


def test_a_name_the_voice_must_guess_is_named_once(codes) -> None:  # type: ignore[no-untyped-def]
    assert codes("Old Wrzesniewska begins {Nf3}. Wrzesniewska smiles.\n") == ["word-guessed"]
