"""Reading a script: lines, keys, blocks, braces, stamps and the header."""

from __future__ import annotations

import pytest

from player.script.model import (
    Beat,
    Block,
    Brace,
    IdeaLine,
    Lesson,
    Line,
    Part,
    QuestionBlock,
    Spot,
    Words,
)
from player.script.read import read


def lesson(source: str) -> Lesson:
    """The lesson of a script that must have no faults."""
    made, faults = read(source)
    assert [fault for fault in faults if fault.severity == "fault"] == []
    return made


def beats(source: str) -> list[str]:
    """The words of the top beats, braces as `<deed|words>`."""
    return [shown(element) for element in lesson(source).body if isinstance(element, Beat)]


def shown(beat: Beat) -> str:
    return "".join(bit.text if isinstance(bit, Words) else f"<{bit.deed}|{bit.words}>" for bit in beat.bits)


@pytest.mark.parametrize(
    ("source", "expected"),
    [
        ("One\ntwo.", ["One two."]),
        ("One.\n\nTwo.", ["One.", "Two."]),
        ("One.\n[0:14] Two.", ["One.", "Two."]),
        ("One.\nshow: e4\nTwo.", ["One.", "Two."]),
        ("One.\n# Not a word of this.\nTwo.", ["One. Two."]),
        ("One.\n\\# Two.", ["One. # Two."]),
        ("One,\n   two,\nthree.", ["One, two, three."]),
        ("claim: a long\n  claim\nOne.", ["One."]),
        ("One   two \t three.", ["One two three."]),
        ("A \\{brace\\} and \\\\ more\\: so.", ["A {brace} and \\ more: so."]),
        ("C:\\temp stays.", ["C:\\temp stays."]),
        ("One {g3 Nf6:\n  a pawn *,\n  a knight *} two.", ["One <g3 Nf6|a pawn *, a knight *> two."]),
        ("One {knight\nto f3} two.", ["One <knight to f3|None> two."]),
        ("{d4:} {c4: one: two} {Nf3 @0:16.4: out}", ["<d4|> <c4|one: two> <Nf3|out>"]),
        ("{e4: {x}".replace("{x}", "\\{x\\}") + "}", ["<e4|\\{x\\}>"]),
    ],
)
def test_beats(source: str, expected: list[str]) -> None:
    assert beats(source) == expected


def test_a_key_takes_deeper_lines_and_no_others() -> None:
    body = lesson("idea the lamp: Light\n  in the\n    dark.\nAnd on.\n").body
    assert isinstance(body[0], IdeaLine)
    assert body[0].words == (Words("Light in the dark.", Spot(1, 16, 5)),)
    assert isinstance(body[1], Beat)


def test_the_parts_of_a_script_have_their_kinds_values_and_stamps() -> None:
    source = (
        "[0:01] part: One\n[0:02] board: after  7...Nf6\n[1:00:03.5] aside: Two\n  {e4}.\n  back: And so.\n"
        "mark: the fork\nretell: the fork\n  back: There.\n"
    )
    part, board, aside, mark, retell = lesson(source).body
    assert isinstance(part, Part)
    assert part.stamp_ms == 1000
    assert board == Line("board", "after 7...Nf6", Spot(2, 15, 14), 2000)
    assert isinstance(aside, Block)
    assert (aside.kind, aside.stamp_ms) == ("aside", 3_603_500)
    assert aside.back == (Words("And so.", Spot(5, 9, 7)),)
    assert isinstance(mark, Line)
    assert isinstance(retell, Block)
    assert (retell.kind, retell.value, retell.body) == ("retell", "the fork", ())
    assert retell.back is not None


def test_blocks_nest_and_end_by_their_indent() -> None:
    source = "aside: A\n  One.\n  instead: B\n    Two.\n\n    Three.\n  Four.\nFive.\n"
    aside, last = lesson(source).body
    assert isinstance(aside, Block)
    one, instead, four = aside.body
    assert isinstance(instead, Block)
    assert [shown(beat) for beat in instead.body if isinstance(beat, Beat)] == ["Two.", "Three."]
    assert isinstance(one, Beat)
    assert isinstance(four, Beat)
    assert isinstance(last, Beat)
    assert shown(last) == "Five."


def test_a_question_gathers_its_block() -> None:
    source = (
        "question: Where to?\n  ask: choice\n  choice: the lamp\n  choice: the kettle\n  answer: the lamp\n"
        "  also c4, the pawn to d4: Fine.\n  reply Nc3: No {Nf6}.\n  otherwise: Think.\n  because: So.\n"
        "  nudge: One.\n  nudge: Two\n    more.\n  about: the lamp\n  think: 20s\n  key: yes\n"
    )
    (question,) = lesson(source).body
    assert isinstance(question, QuestionBlock)
    assert question.ask is not None
    assert [choice.value for choice in question.choices] == ["the lamp", "the kettle"]
    assert [reply.moves for reply in (*question.also, *question.replies)] == ["c4, the pawn to d4", "Nc3"]
    assert [len(nudge) for nudge in question.nudges] == [1, 1]
    assert question.nudges[1] == (Words("Two more.", Spot(11, 10, 3)),)
    assert question.key is not None
    assert question.key.value == "yes"


def test_every_header_key_is_taken() -> None:
    source = (
        "script: 1\ntitle: A: B\nseries: The Room, at Night, 2 of 5\ncoach: Ines\nside: black\nlevel: club\n"
        "language: en\nrecording: sound/evening.wav\nvoice: low\npronounce Calder: KAWL-der\n"
        "pronounce Orme: orm\n\nOn.\n"
    )
    header = lesson(source).header
    assert header.series == ("The Room, at Night", 2, 5)
    assert (header.title, header.coach, header.side, header.level) == ("A: B", "Ines", "black", "club")
    assert (header.recording, header.voice) == ("sound/evening.wav", "low")
    assert header.pronounce == {"Calder": "KAWL-der", "Orme": "orm"}
    assert header.spots["pronounce Orme"] == Spot(11, 17, 3)


def test_side_after_the_beginning_is_a_line_of_its_own() -> None:
    assert lesson("side: white\n\nOn.\n\nside: black\n").body[1] == Line("side", "black", Spot(5, 7, 5))


@pytest.mark.parametrize(
    "path", ["/tmp/a.wav", "..\\a.wav", "a/../../b.wav", "C:\\a.wav", "~/a.wav", "http://a/b.wav", "a/.."]
)
def test_a_recording_outside_the_folder_is_refused(path: str) -> None:
    made, faults = read(f"title: x\nrecording: {path}\n\nOn.")
    assert [fault.code for fault in faults] == ["recording-outside"]
    assert made.header.recording == ""


@pytest.mark.parametrize("path", ["a.wav", "sound/a b.wav", "a..b.wav", "..a.wav"])
def test_a_recording_in_the_folder_is_taken(path: str) -> None:
    assert lesson(f"recording: {path}\n\nOn.").header.recording == path


@pytest.mark.parametrize(
    "mark", ["\u2019", "\u201c", "\xa0", "\u2009", "\u2026", "\u2212", "\ufeff", "\xad", "\u2028", "\x0b"]
)
def test_what_word_processors_leave_behind_is_no_fault_and_keeps_its_column(mark: str) -> None:
    made, faults = read(f"title: x\n\nA {mark} lamp {{oops.")
    assert [(fault.code, fault.column) for fault in faults] == [("unclosed-brace", 10)]
    assert made.body


@pytest.mark.parametrize(
    ("written", "read_as"),
    [
        ("g2\u2013b7", "g2-b7"),
        ("{0\u20130}", "<0-0|None>"),
        ("{O\u2014O\u2014O}", "<O-O-O|None>"),
        ("{Nf3\u2011}", "<Nf3-|None>"),
        ("7\u2026Nf6", "7...Nf6"),
        ("the knight\u2014our friend", "the knight\u2014our friend"),
        ("quiet \u2013 so quiet", "quiet \u2013 so quiet"),
        ("on e4\u2014and more", "on e4\u2014and more"),
    ],
)
def test_long_dashes_are_hyphens_inside_notation_and_dashes_in_speech(written: str, read_as: str) -> None:
    assert beats(f"Say {written} now.") == [f"Say {read_as} now."]


def test_line_ends_do_not_matter() -> None:
    text = "title: x\n\naside: A\n  {e4} one\n  two.\n\nThree.\n"
    first = read(text)[0].body
    assert read(text.replace("\n", "\r\n"))[0].body == first
    assert read(text.replace("\n", "\r"))[0].body == first
    assert read("\ufeff" + text)[0].body == first


@pytest.mark.parametrize(
    "stamp", ["[0:00]", "[59:59]", "[61:00]", "[0:14.2]", "[0:14.25]", "[0:14.250]", "[9:59:59]"]
)
def test_stamps(stamp: str) -> None:
    (beat,) = lesson(f"{stamp} On.").body
    assert beat.stamp_ms is not None


@pytest.mark.parametrize(
    "stamp", ["[0:60]", "[0:7]", "[:14]".replace(":", "1,"), "[0:14.2500]", "[1:60:00]", "[0:14"]
)
def test_what_is_no_stamp_is_a_fault_and_not_spoken(stamp: str) -> None:
    made, faults = read(f"title: x\n\n{stamp} On.")
    assert [fault.code for fault in faults] == ["bad-stamp"]
    (beat,) = made.body
    assert isinstance(beat, Beat)
    assert shown(beat) == "On."


def test_other_square_brackets_are_spoken() -> None:
    assert beats("[laughs] Good evening [all].") == ["[laughs] Good evening [all]."]


def test_an_unclosed_brace_does_no_harm_beyond_its_beat() -> None:
    made, faults = read("title: x\n\nNow {Nf3 and on.\n\nThen {d5}.\n")
    assert [fault.code for fault in faults] == ["unclosed-brace"]
    assert [shown(beat) for beat in made.body if isinstance(beat, Beat)] == [
        "Now <Nf3|None> and on.",
        "Then <d5|None>.",
    ]


def test_what_is_wrongly_put_into_a_question_is_told_after_it() -> None:
    made, faults = read("title: x\n\nquestion: Where?\n  nudge: There.\n  {e4}. Yes.\n  show: e5\n\nOn.\n")
    assert {fault.code for fault in faults} == {"not-in-question"}
    assert [type(element) for element in made.body] == [QuestionBlock, Beat, Line, Beat]


def test_a_deed_keeps_notation_with_a_colon_of_its_own() -> None:
    (beat,) = lesson("{N:f3} and {e4:f5}").body
    assert isinstance(beat, Beat)
    assert [bit.deed for bit in beat.bits if isinstance(bit, Brace)] == ["N:f3", "e4:f5"]
