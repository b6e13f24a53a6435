"""When steps begin: by the pace of the words, the silences, the thinking, and the stamps."""

from __future__ import annotations

import pytest

from player.wording.pace import word_times
from tests.cues.compiled import sheet_of, words


def begun(body: str) -> dict[str, int]:
    """The start of every step that all hear, by its words; the end is "end"."""
    sheet = sheet_of(body)
    heard = [*words(sheet.steps), "end"]
    return dict(zip(heard, sheet.starts, strict=True))


def test_a_sentence_takes_its_words_and_a_silence() -> None:
    said = begun("First words here. Second.\n\nThird.")
    first, second = (word_times(text)[1] for text in ("First words here.", "Second."))
    assert said["Second."] == first + 180
    assert said["Third."] == first + 180 + second + 450


@pytest.mark.parametrize(
    ("more", "think"),
    [
        ("", 12_000),
        ("  think: 20s\n", 20_000),
        ("  ask: square\n  answer: e4\n", 6_000),
        ("  ask: count\n  answer: 3\n", 6_000),
        ("  ask: words\n  answer: a pin\n", 25_000),
        ("  choice: yes\n  choice: no\n  answer: no\n", 12_000),
    ],
)
def test_a_question_takes_its_thinking(more: str, think: int) -> None:
    sheet = sheet_of(f"question: Which?\n{more}\n{{e4}} it is.")
    (asked,) = sheet.questions
    say = sheet.steps[asked].say
    assert say is not None
    assert sheet.starts[asked + 1] - sheet.starts[asked] == word_times(say.spoken)[1] + 450 + think


def test_a_stamp_is_where_its_step_begins_and_the_others_fit_between() -> None:
    said = begun("[0:10] One. Two.\n\nThree.\n\n[1:00] Four. Five.")
    assert said["One."] == 10_000
    assert said["Four."] == 60_000
    lengths = [word_times(text)[1] for text in ("One.", "Two.", "Three.")]
    whole = sum(lengths) + 180 + 450 + 450
    assert said["Two."] == 10_000 + (lengths[0] + 180) * 50_000 // whole
    assert said["Three."] == 10_000 + (lengths[0] + lengths[1] + 630) * 50_000 // whole
    assert said["Five."] == 60_000 + word_times("Four.")[1] + 180


def test_what_is_only_listened_to_takes_no_time() -> None:
    sheet = sheet_of("One.\n\npart: Two\n\nThree.")
    assert words(sheet.steps)[1:] == ["One.", "Part: Two.", "Three."]
    assert sheet.starts[2] == sheet.starts[3]


def test_a_sheet_knows_what_is_told_at_a_time() -> None:
    sheet = sheet_of("[0:10] One.\n\n[0:20] Two.")
    assert words(sheet.steps[sheet.at(10_000) :])[0] == "One."
    assert words(sheet.steps[sheet.at(19_999) :])[0] == "One."
    assert words(sheet.steps[sheet.at(20_000) :])[0] == "Two."
    assert sheet.at(10**9) == len(sheet.steps) - 1
    assert sheet.at(-1) == 0
