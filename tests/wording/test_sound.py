"""How a voice pronounces what it is given: no article for the file a, no sign read out by its name."""

from __future__ import annotations

import random

import pytest

from player.wording.prose import speakable
from player.wording.say import Depth, Naming, say
from tests.wording.phonemes import phonemes
from tests.wording.positions import positions

pytest.importorskip("espeakng_loader")

# eSpeak NG 1.52, voice "en": what must not be heard in a move. "ɐ" alone is the article.
_FORBIDDEN_WORDS = {"ɐ", "ɐn", "ɹˈad", "ɹˈæd", "ɹˈeɪd"}
_FORBIDDEN_PARTS = ("plˈʌs", "hˈaʃ", "ˈiːkwəl", "zˈiəɹəʊ", "dˈaʃ", "hˈaɪfən", "ˈastəɹɪsk", "stˈɒp", "slˈaʃ")


def _shapes(number: int, seed: int) -> list[str]:
    """Notation of every shape, legal or not: what a coach may write in a sentence."""
    source = random.Random(seed)
    out = []
    for _ in range(number):
        square = source.choice("abcdefgh") + source.choice("12345678")
        man = source.choice(["", "N", "B", "R", "Q", "K"])
        origin = source.choice(["", "", "a", source.choice("abcdefgh"), source.choice("12345678"), "a1"])
        take = source.choice(["", "x"])
        if not man:
            origin = source.choice("abcdefgh") if take else source.choice(["", "a2-", "d4-"])
        turn = source.choice(["=Q", "=N", "Q", "(R)"]) if not man and square[1] in "18" else ""
        move = f"{man}{origin}{take}{square}{turn}{source.choice(['', '', '+', '#', '!', '?', '++', '+!'])}"
        move = source.choice([move] * 9 + ["0-0", "O-O-O", "0-0-0+", "O-O", "exd6 e.p."])
        before = source.choice(["", "", "12.", "12...", "...", "(", "7. "])
        out.append(f"{before}{move}{')' if before == '(' else ''}")
    return out


def _clean(texts: list[str]) -> None:
    for text, heard in zip(texts, phonemes(texts), strict=True):
        assert not _FORBIDDEN_WORDS & set(heard.split()), (text, heard)
        assert not any(part in heard for part in _FORBIDDEN_PARTS), (text, heard)


def test_notation_in_prose_is_never_read_by_its_signs() -> None:
    _clean([speakable(shape).spoken for shape in _shapes(2000, seed=1)])


@pytest.mark.large
def test_twenty_thousand_shapes_of_notation() -> None:
    _clean([speakable(shape).spoken for shape in _shapes(20_000, seed=2)])


@pytest.mark.parametrize("depth", ["full", "short", "spelled"])
def test_said_moves_are_never_read_by_their_signs(depth: Depth) -> None:
    namings: list[Naming] = ["letters", "fide", "alphabet"]
    texts = {
        say(board, move, depth=depth, naming=naming).spoken
        for board in positions(8, seed=5)
        for move in board.legal_moves
        for naming in namings
    }
    _clean(sorted(texts))


@pytest.mark.parametrize(
    ("shown", "heard"),
    [
        ("Rad1", "ɹˈʊk ˈeɪ dˈiː wˈɒn"),
        ("axb5", "ˈeɪ tˈeɪks bˈiː fˈaɪv"),
        ("a4", "ˌeɪ fˈɔː"),
        ("0-0", "kˈasəlz kˈɪŋsaɪd"),
        ("the a-pawn", "ðɪ ˈeɪpˈɔːn"),
        ("Nf3", "nˈaɪt ˈɛf θɹˈiː"),
        ("Qh7#", "kwˈiːn ˈeɪtʃ sˈɛvən tʃˈɛkmeɪt"),
    ],
)
def test_what_is_heard(shown: str, heard: str) -> None:
    assert phonemes([speakable(shown).spoken]) == [heard]


def test_the_built_in_respellings_sound_as_the_words_do() -> None:
    """Usual English pronunciations as in general dictionaries (from memory): the consonants are what
    matters.
    """
    texts = ["fianchetto", "zugzwang", "en passant", "en prise", "zwischenzug"]
    fianchetto, zugzwang, passant, prise, zwischenzug = phonemes([speakable(text).spoken for text in texts])
    assert "k" in fianchetto and "tʃ" not in fianchetto
    assert zugzwang.startswith("zˈuː") and "zw" in zugzwang
    assert not passant.startswith("ˈɛn") and "prˈaɪz" not in prise
    assert prise.endswith("z") and "iː" in prise
    assert zwischenzug.startswith("ts") and "v" in zwischenzug
