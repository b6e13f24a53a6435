"""Where sentences end, in the prose of chess."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from player.cues.sentences import sentence_at, sentences


@pytest.mark.parametrize(
    "parts",
    [
        ["One.", "Two!", "Three?", "Four"],
        ["It begins 1. e4 e5 2. Nf3! Nc6? 3. Bb5.", "Then 12... Nf6 and 12...Nf6."],
        ["The pawn takes, 6. exd6 e.p. Nxd6 7. Bg5."],
        ["That was e4.", "d5 is next."],
        ["Where to?", "e4 or d4?"],
        ["It scored 3.5 of 4.", "The board is 2.4 feet wide."],
        ["Mr. Calder met Dr. Wren, e.g. on board No. 5."],
        ["No.", "The knight."],
        ["J. R. Wren and I. Calder play."],
        ["Played in 1998.", "Nf3 was new."],
        ["That was move 12.", "Then he won."],
        ["1. Develop.", "2. Castle."],
        ['"Go!" he said.', "(It ends.)", "Next."],
        ["He asked “Why?”", "Nobody knew."],
        ["He waits... and waits.", "Then Qh7#.", "Kxh7 fails."],
        ["He waits...", "Nothing comes."],
        ["It went O-O.", "O-O too."],
        ["A bishop?!", "Yes: c8!"],
        ["So it stands.  . . ."],
        ["…"],
    ],
)
def test_sentences_of_english(parts: list[str]) -> None:
    shown = " ".join(parts)
    assert [shown[start:end] for start, end in sentences(shown)] == parts


@pytest.mark.parametrize(
    ("language", "parts"),
    [
        ("de", ["„Nein.“", "Am 12. Mai kam z.B. Dr. Wolf.", "Sf3 folgt."]),
        ("fr", ["« Oui ! »", "M. Loup part.", "Cf3 suit."]),
        ("es", ["¿Cómo?", "¡Así!", "La Sra. Lobo juega.", "Cf3 sigue."]),
    ],
)
def test_sentences_of_other_languages(language: str, parts: list[str]) -> None:
    shown = " ".join(parts)
    assert [shown[start:end] for start, end in sentences(shown, language)] == parts


def test_nothing_written_is_no_sentence() -> None:
    assert sentences("") == sentences(" \n ") == ()


def test_white_space_belongs_to_the_next_sentence_and_the_end_to_the_last() -> None:
    spans = sentences("One.  Two.")
    assert spans == ((0, 4), (6, 10))
    assert [sentence_at(spans, offset) for offset in (0, 3, 4, 5, 6, 10)] == [0, 0, 1, 1, 1, 1]


PROSE = st.lists(
    st.sampled_from(
        ["e4", "Nf3", "12.", "...", "e.p.", "word", "Word", ".", "!", "?", "”", "“", " ", "…", "3", "»"]
    )
).map("".join)


@given(st.one_of(PROSE, st.text(max_size=80)), st.sampled_from(["en", "de", "fr", "es"]))
def test_sentences_leave_out_white_space_alone(shown: str, language: str) -> None:
    spans = sentences(shown, language)
    at = 0
    for start, end in spans:
        assert at <= start < end
        assert not shown[at:start].strip()
        assert shown[start:end] == shown[start:end].strip()
        at = end
    assert not shown[at:].strip()
    if len(spans) > 1:
        assert all(any(map(str.isalnum, shown[start:end])) for start, end in spans)
