"""The language files: each complete, each word meaning something, and adding one is adding a file."""

from __future__ import annotations

import tomllib
from importlib import resources

import chess
import pytest

from player.wording.languages import KINDS, codes, language, words_of

FOLDER = resources.files("player.wording") / "languages"


def _data(code: str) -> dict[str, dict[str, object]]:
    data: dict[str, dict[str, object]] = tomllib.loads((FOLDER / f"{code}.toml").read_text(encoding="utf-8"))
    return data


def _keys(table: object, path: str = "") -> set[str]:
    if not isinstance(table, dict):
        return {path}
    return set().union(*(_keys(value, f"{path}/{key}") for key, value in table.items())) if table else set()


def test_four_languages_have_files() -> None:
    assert set(codes()) >= {"en", "de", "fr", "es"}


@pytest.mark.parametrize("code", codes())
def test_a_file_has_every_table_that_english_has(code: str) -> None:
    needed = {
        "letters",
        "pieces",
        "files",
        "fide",
        "alphabet",
        "ranks",
        "hear",
        "said",
        "say",
        "prose",
        "glyphs",
        "ask",
    }
    data = _data(code)
    assert needed <= set(data)
    for table in ("letters", "pieces", "files", "fide", "alphabet", "say", "ask"):
        missing = _keys(_data("en")[table]) - _keys(data[table])
        assert not missing, (table, missing)
    said = {
        "take",
        "kingside",
        "queenside",
        "kingside_word",
        "queenside_word",
        "check",
        "mate",
        "mate_in",
        "passant",
    }
    assert said <= set(data["said"])
    assert set(data["hear"]) <= set(KINDS)
    assert {"take", "to", "from", "castle", "kingside", "queenside", "check", "mate", "promote"} <= set(
        data["hear"]
    )


@pytest.mark.parametrize("code", codes())
def test_what_is_said_is_also_heard(code: str) -> None:
    words = language(code)
    for kind in chess.PIECE_TYPES:
        assert any(token.value == kind for token in words.heard[words.pieces[kind].casefold()])
    for files in words.files.values():
        for index, name in enumerate(files):
            assert any((t.kind, t.value) == ("F", index) for t in words.heard[name.casefold()])
    for index, name in enumerate(words.ranks):
        assert any((t.kind, t.value) == ("R", index) for t in words.heard[name.casefold()])


@pytest.mark.parametrize("code", codes())
def test_the_vocabulary_is_told_by_what_it_means(code: str) -> None:
    groups = words_of(code)
    assert {
        "king",
        "queen",
        "rook",
        "bishop",
        "knight",
        "pawn",
        "file a",
        "file h",
        "rank 1",
        "rank 8",
    } <= set(groups)
    assert {"take", "to", "castle"} <= set(groups)
    for words in groups.values():
        assert words and all(word == word.casefold() and word.strip() == word for word in words)
        assert len(set(words)) == len(words)


def test_the_first_words_of_a_group_are_the_ones_to_teach() -> None:
    assert words_of("en")["knight"][0] == "knight"
    assert words_of("en")["rank 4"][0] == "four"
    assert words_of("de")["rook"][0] == "turm"


def test_there_is_no_language_of_that_code() -> None:
    with pytest.raises(ValueError, match="'xx'"):
        language("xx")
