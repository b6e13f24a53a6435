"""Built-in respellings, and the words a voice would have to guess."""

from __future__ import annotations

import pytest

from player.wording.languages import codes
from player.wording.lexicon import built_in, unsure
from player.wording.prose import speakable


@pytest.mark.parametrize("term", ["fianchetto", "zugzwang", "en passant", "en prise", "zwischenzug"])
def test_foreign_terms_of_the_game_are_built_in(term: str) -> None:
    assert built_in("en")[term] != term
    assert speakable(f"A {term}.").spoken == f"A {built_in('en')[term]}."


@pytest.mark.parametrize("code", codes())
def test_keys_are_in_lower_case_and_respellings_are_plain_letters(code: str) -> None:
    for word, said in built_in(code).items():
        assert word == word.casefold()
        assert said.replace("-", "").replace(" ", "").isalpha() and said.isascii()


@pytest.mark.parametrize(
    ("text", "guessed"),
    [
        ("Good evening, and welcome to the reading room.", ()),
        ("Ines Calder speaks of Bratislava.", ("Ines", "Calder", "Bratislava")),
        ("Here Calder's idea is new, and Calder knows it.", ("Calder",)),
        ("White castles and Black replies at once.", ()),
        ("Knights nibble; Pawns push.", ()),
        ("Then Nf3 and Rad1 follow.", ()),
        ("A fianchetto, then zugzwang, en passant.", ()),
        ("The manœuvre and the naïve plan", ("manœuvre", "naïve")),
        ("A Wojciechowski-Grzegorz game", ("Wojciechowski", "Grzegorz")),
        ("I’d say it isn't so; They’ll see, Don't they?", ()),
        ("FIDE rules, PGN files", ()),
        ("", ()),
    ],
)
def test_names_and_foreign_spellings_are_guessed(text: str, guessed: tuple[str, ...]) -> None:
    assert unsure(text) == guessed


def test_what_the_lexicon_has_is_not_guessed() -> None:
    assert unsure("Ines Calder plays.", {"Calder": "KAWL-der"}) == ("Ines",)
    assert unsure("Ines Calder plays.", {"ines calder": "ee-NEZ KAWL-der"}) == ()
    assert unsure("Ines Calder spricht.", language="de") == ()
