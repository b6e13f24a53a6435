"""Writing: stamps touch nothing else, and a lesson written as a script reads back as the same lesson."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from player.script.model import Beat, Block, Brace, Element, Header, IdeaLine, Lesson, Line, Part, Spot, Words
from player.script.read import read
from player.script.write import script_text, stamped
from tests.script.bare import bare
from tests.script.corpora import CORPUS, index
from tests.script.lessons import HERE, Drawn, lessons

GOOD = [f"rules/{record['file']}" for record in index("rules/index.jsonl") if record["expect"] == "good"]
GOOD += [f"returns/{record['good']}" for record in index("returns/index.jsonl")]
GOOD += [f"wordprocessor/{record['file']}" for record in index("wordprocessor/index.jsonl")]


@given(lessons())
def test_a_drawn_lesson_reads_back_as_itself(drawn: Drawn) -> None:
    again, _ = read(script_text(drawn.lesson))
    assert bare(again) == bare(drawn.lesson)


@pytest.mark.parametrize("file", GOOD)
def test_a_good_script_written_anew_says_the_same(file: str) -> None:
    lesson, _ = read((CORPUS / file).read_bytes().decode("utf-8"))
    text = script_text(lesson)
    again, faults = read(text)
    assert bare(again) == bare(lesson)
    assert [fault for fault in faults if fault.severity == "fault"] == []
    assert script_text(again) == text


PROSE = st.text(
    st.sampled_from("abc Nf3:{}[]\\*#@.,\"'-–—é\t0123:;!?()")
    | st.characters(codec="utf-8", exclude_characters="\r\n"),
    min_size=1,
    max_size=80,
)


@given(st.lists(PROSE, min_size=1, max_size=4), st.sampled_from(["beat", "part", "idea", "aside", "brace"]))
def test_prose_of_any_kind_comes_back_once_it_has_been_read(texts: list[str], kind: str) -> None:
    """Whatever a program puts into a lesson, a script of it reads back the same from the first reading on."""
    parts = tuple(Words(text, HERE) if number % 2 == 0 else _brace(text) for number, text in enumerate(texts))
    bodies: dict[str, Element] = {
        "beat": Beat(parts, 1234, HERE),
        "part": Part(parts, None, HERE),
        "idea": IdeaLine("the lamp", parts, None, HERE),
        "aside": Block("aside", parts, "", (Beat(parts, None, HERE),), parts, None, HERE),
        "brace": Beat(
            (Brace("e4", texts[0].replace("\\", ""), None, HERE), Words(" and on.", HERE)), None, HERE
        ),
    }
    first, _ = read(script_text(Lesson(Header(title="Any"), (bodies[kind], Line("show", "e4", HERE)))))
    text = script_text(first)
    second, _ = read(text)
    assert bare(second) == bare(first)
    assert script_text(second) == text


def _brace(text: str) -> Brace:
    return Brace(re.sub(r"\s+", " ", text).strip() or "e4", None, None, HERE)


def test_words_that_look_like_keys_stamps_and_comments_stay_words() -> None:
    said = [
        "claim: not a claim",
        "# no comment",
        "[0:14] no stamp",
        "Remember: me",
        "side:by",
        "a {brace} \\ here",
    ]
    lesson = Lesson(Header(title="Words"), tuple(Beat((Words(text, HERE),), None, HERE) for text in said))
    again, faults = read(script_text(lesson))
    assert faults == ()
    assert bare(again) == bare(lesson)


@pytest.mark.parametrize(
    ("source", "stamps", "expected"),
    [
        ("Good evening.\n", {1: 0}, "[0:00.000] Good evening.\n"),
        ("[0:14] Good evening.", {1: 61_500}, "[1:01.500] Good evening."),
        (
            "\ufeffGood.\r\n\r\n\tpart: Two\r\n",
            {1: 5, 3: 3_600_000},
            "\ufeff[0:00.005] Good.\r\n\r\n\t[1:00:00] part: Two\r\n",
        ),
        ("[0:01]\nGood.", {1: 2_000}, "[0:02.000]\nGood."),
        ("[0:01]   Good.\t \r", {1: 7_322_045}, "[2:02:02.045]   Good.\t \r"),
        ("aside: x\n\t[0:99] Hm.", {1: 1_000, 2: 2_000}, "[0:01.000] aside: x\n\t[0:02.000] Hm."),
        ("\xa0\u200bGood “evening”.", {1: 1_000}, "\xa0\u200b[0:01.000] Good “evening”."),
    ],
)
def test_stamps_are_put_or_replaced_and_nothing_else_is_touched(
    source: str, stamps: dict[int, int], expected: str
) -> None:
    assert stamped(source, stamps) == expected
    assert stamped(expected, stamps) == expected


@pytest.mark.parametrize("line", [0, 2, 3, 9])
def test_a_line_on_which_nothing_begins_takes_no_stamp(line: int) -> None:
    with pytest.raises(ValueError, match=f"line {line}"):
        stamped("Good.\n\n# a comment\n", {line: 1000})


@pytest.mark.parametrize("file", GOOD)
def test_stamping_a_good_script_stamps_its_beats_and_keeps_every_other_byte(file: str) -> None:
    source = (CORPUS / file).read_bytes().decode("utf-8")
    lesson, _ = read(source)
    lines = [element.spot.line for element in lesson.body if not isinstance(element, Line)]
    stamps = {line: 4_000 * number for number, line in enumerate(lines)}
    text = stamped(source, stamps)
    again, _ = read(text)
    written = [element for element in again.body if not isinstance(element, Line)]
    assert [element.stamp_ms for element in written] == list(stamps.values())
    assert [element.spot.line for element in written] == lines
    assert stamped(text, stamps) == text
    gone = re.compile(r"\[\d+:\d\d(?::\d\d)?(?:\.\d+)?\][ ]?")
    assert gone.sub("", text) == gone.sub("", source)


def test_a_stamp_goes_to_the_line_where_the_beat_begins() -> None:
    lesson, _ = read("[0:14]\nGood evening,\nall.\n\nAnd {e4}.")
    assert [element.spot for element in lesson.body] == [Spot(1, 1, 6), Spot(5, 1, 9)]
