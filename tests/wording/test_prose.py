"""Prose for the voice: what is said, and that every spoken word is tied to what is shown."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from player.wording.languages import codes
from player.wording.prose import speakable
from player.wording.utterance import Utterance


@pytest.mark.parametrize(
    ("shown", "spoken"),
    [
        ("White plays Rad1.", "White plays rook eigh d1."),
        ("exd5 wins", "e takes d5 wins"),
        ("After 12...Nf6 he waits.", "After move 12, knight f6 he waits."),
        ("Now castles Nf6 Re1 castles, and so", "Now castles, knight f6, rook e1, castles, and so"),
        ("White castles early, as always", "White castles early, as always"),
        ("1.e4 e5 2. Nf3", "move 1, e4, e5, move 2, knight f3"),
        ("…c5 and ...Nf6", "c5 and knight f6"),
        ("0-0-0, O-O", "castles queenside, castles kingside"),
        ("Qh7#!", "queen h7, checkmate!"),
        ("It is +- now", "It is White is winning now"),
        ("f2-f4 and d4–d5", "f2 to f4 and d4 to d5"),
        ("Rd1-d8-a8", "rook d1 to d8 to a8"),
        ("$14 and $4", "White is slightly better and a very poor move"),
        ("an a4-a5 push", "an a4 to a5 push"),
        ("(a) or (b)", "eigh or b"),
        ("exd6 e.p. or exd6e.p.", "e takes d6 en passant or e takes d6 en passant"),
        ("1-0, ½-½, 0-1", "White wins, a draw, Black wins"),
        ("half a point, ½", "half a point, half"),
        ("e8=Q+ exd8=N#", "e8 queen, check, e takes d8 knight, checkmate"),
        ("the a- and h-pawns", "the eigh and h-pawns"),
        ("the a and b files", "the eigh and b files"),
        ("the b and a files", "the b and eigh files"),
        ("a knight and a bishop, or a rook", "a knight and a bishop, or a rook"),
        ("the a-file and a file", "the a-file and eigh file"),
        ("a knight on a1", "a knight on a1"),
        ("♘f3, ♛xd5", "knight f3, queen takes d5"),
        ("Black's Nf6", "Black's knight f6"),
        ("Nf3/Bg2", "knight f3, bishop g2"),
        ("Ng1-f3, R1a3, Qa6xb7#", "knight g1 to f3, rook one a3, queen a6 takes b7, checkmate"),
        ("Nf3??", "knight f3, a very poor move"),
        ("Really?! No!!", "Really? No!"),
        ("x < y | z * \x00 w_v", "x less than y z w v"),
        ("mate in 3 (#3)", "mate in 3 mate in 3"),
        ("1998–99, K+P", "1998 to 99, K and P"),
        ("yes — no – but", "yes, no, but"),
        ("“Quoted” ‘words’", "Quoted words"),
        ("", ""),
        ("***", ""),
    ],
)
def test_what_is_said(shown: str, spoken: str) -> None:
    said = speakable(shown)
    assert said.spoken == spoken
    assert said.shown == shown


def test_each_spoken_word_stands_for_its_place_in_what_is_shown() -> None:
    said = speakable("Then Rad1, check.")
    assert [
        (word, said.shown[a:b]) for word, (a, b) in zip(said.spoken.split(), said.words, strict=True)
    ] == [
        ("Then", "Then"),
        ("rook", "Rad1,"),
        ("eigh", "Rad1,"),
        ("d1,", "Rad1,"),
        ("check.", "check."),
    ]


def test_the_lexicon_respells_whole_words_with_what_follows_them() -> None:
    own = {"Calder": "KAWL-der", "Ines Calder": "ee-NEZ KAWL-der", "fianchetto": "my own"}
    said = speakable("Ines Calder asks; Calder's answer, (Calder), calders. A fianchetto!", lexicon=own)
    assert said.spoken == "ee-nez kawl-der asks; kawl-der's answer, kawl-der, calders. A my own!"
    assert said.shown[slice(*said.words[0])] == "Ines Calder" == said.shown[slice(*said.words[1])]


def test_files_may_be_said_by_name() -> None:
    assert speakable("Rad1, exd5", naming="fide").spoken == "rook Anna David one, Eva takes David five"
    assert speakable("Rad1, exd5", naming="alphabet").spoken == "rook Alfa Delta one, Echo takes Delta five"


@pytest.mark.parametrize(
    ("code", "shown", "spoken"),
    [
        ("de", "Nach Sf3 folgt Lxc6+.", "Nach Springer f3 folgt Läufer schlägt c6, Schach."),
        ("de", "0-0 und Tad1", "kurze Rochade und Turm a d1"),
        ("fr", "Après Cf3 vient Fxc6+.", "Après cavalier f3 vient fou prend c6, échec."),
        ("es", "Tras Cf3 viene Axc6+.", "Tras caballo f3 viene alfil toma c6, jaque."),
        ("es", "0-0-0 y 1-0", "enroque largo y ganan las blancas"),
    ],
)
def test_other_languages(code: str, shown: str, spoken: str) -> None:
    assert speakable(shown, language=code).spoken == spoken


def _holds(said: Utterance) -> None:
    words = said.spoken.split()
    assert len(words) == len(said.words)
    assert " ".join(words) == said.spoken
    assert all(0 <= a < b <= len(said.shown) for a, b in said.words)
    assert list(said.words) == sorted(said.words)
    assert all(any(c.isalnum() for c in word) for word in words)
    assert not re.search(r"[<>#+=*|\x00-\x1f$@^~\\{}\[\]()\"_]", said.spoken)


PIECES = """
Nf3 Rad1 exd5 12...Nf6 0-0-0 Qh7# +- f2-f4 $14 d4-d5 a4 (b) e.p. 1-0 ½ a the e8=Q+ Caïssa Calder's zugzwang —
, . ? 7. … Bg5, (a) 3* < | ♘f3 en passant prise x=3 #4 Nf3?? e4! d5/e5 🙂 naïve O'Kelly 50%
"""
_PIECES = st.sampled_from([*PIECES.split(), "\x00", "\u200b"])


@given(
    st.lists(_PIECES, max_size=12), st.sampled_from(codes()), st.sampled_from([" ", "  ", "\n", "\u00a0", ""])
)
def test_alignment_of_likely_texts(pieces: list[str], code: str, gap: str) -> None:
    _holds(
        speakable(gap.join(pieces), language=code, lexicon={"Calder": "KAWL-der", "en prise": "on preez!"})
    )


@given(st.text(max_size=40), st.sampled_from(codes()))
def test_alignment_of_any_text(text: str, code: str) -> None:
    _holds(speakable(text, language=code))


@given(st.text(alphabet="aNxd5+#=-0O.1e (½!?", max_size=25))
def test_alignment_of_text_like_notation(text: str) -> None:
    _holds(speakable(text))
