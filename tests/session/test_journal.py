"""A journal brings a lesson back to the very step, whatever became of the file or the script."""

from __future__ import annotations

import random
from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st

from player.session.codec import input_line, line_input, packed, telling_of
from player.session.journal import Journal, journal_path, script_hash
from player.session.opening import replay
from player.stage.happenings import Over, Put, Say
from player.stage.inputs import Did, Finished, Heard, Input, Learnt, Typed, Woke
from player.stage.state import Telling
from player.voice.speaker import Notice
from player.world.line_log import LineLog
from tests.session.sessions import Playing
from tests.stage.sheets import LESSON, sheet_of

SILENT = Telling(voice=False)
WORDS = """\
|Bg2|Nc3|a3|Ke2|knight|nudge|tell me|what if h4 h5|home|back|skip|pause|go on|repeat|aside 1|faster
|go to part 2|where|turn|d3|voice off""".replace("\n", "").split("|")

numbers = st.integers(0, 10**9)
inputs: st.SearchStrategy[Input] = st.one_of(
    st.builds(Heard, numbers, numbers, numbers),
    st.builds(Finished, numbers, numbers),
    st.builds(Woke, numbers),
    st.builds(Learnt, numbers, st.text(), st.text()),
    st.builds(Typed, st.text()),
    st.builds(Did, st.text(), st.text()),
)


@given(inputs)
def test_an_input_comes_back_from_its_line(given_one: Input) -> None:
    import json

    line = packed(input_line(given_one))
    assert "\n" not in line
    assert line_input(json.loads(line)) == given_one


@given(st.recursive(st.none() | st.booleans() | st.integers() | st.text(), lambda x: st.lists(x, max_size=4)))
def test_no_other_list_is_an_input_or_breaks_the_reading(value: object) -> None:
    if isinstance(value, list):
        line_input(value)
    assert telling_of(value) is None


def wander(playing: Playing, seed: int, count: int = 12) -> None:
    """Do this and that, a while apart."""
    chance = random.Random(seed)
    for _ in range(count):
        playing.run(chance.choice((0, 400, 3_000, 30_000)))
        playing.feed(Typed(chance.choice(WORDS)))
        if playing.session.state.over:
            return


def test_a_journal_cut_anywhere_resumes_from_the_inputs_that_are_whole(tmp_path: Path) -> None:
    file = tmp_path / "whole.log"
    playing = Playing(SILENT, journal=file)
    wander(playing, 7)
    whole = file.read_bytes()
    sheet = sheet_of(LESSON)
    chance = random.Random(1)
    cuts = sorted(chance.sample(range(1, len(whole)), 60))
    for cut in cuts:
        torn = tmp_path / "torn.log"
        torn.write_bytes(whole[:cut])
        kept, damaged = Journal(torn).look()
        assert not damaged
        resumed = Playing(SILENT, journal=torn)
        if kept is None or not kept.moves:
            assert resumed.step == sheet.steps[0].key
            resumed.session.close()
            continue
        state, reached, _ = replay(kept, sheet)
        assert resumed.session.state.frames == state.frames
        assert kept.reached in reached or not kept.reached
        resumed.run()
        assert not resumed.seen(Notice)
        resumed.session.close()


def test_the_next_run_goes_on_and_the_run_after_that_too(tmp_path: Path) -> None:
    for seed in range(12):
        file = tmp_path / f"{seed}.log"
        first = Playing(SILENT, journal=file)
        wander(first, seed, 4)
        for turn in range(3):
            state, step = first.session.state, first.step
            if state.over or state.quit:
                break
            first.session.close()
            second = Playing(SILENT, journal=file)
            assert second.step == step
            assert second.session.state.place == state.place
            assert [f.why for f in second.session.state.frames] == [f.why for f in state.frames]
            wander(second, 100 * turn + seed, 3)
            first = second


def test_a_sentence_that_was_cut_off_is_told_from_its_start(tmp_path: Path) -> None:
    file = tmp_path / "j.log"
    first = Playing(SILENT, journal=file).run(4_000)
    last = first.seen(Say)[-1]
    first.session.close()
    again = Playing(SILENT, journal=file)
    again.session.start()
    said = again.seen(Say)
    assert isinstance(last, Say) and isinstance(said[0], Say)
    assert said[0].step == last.step and said[0].from_word == 0 and said[0].from_ms is None


def test_a_question_stands_again_with_its_tries(tmp_path: Path) -> None:
    file = tmp_path / "j.log"
    Playing(SILENT, journal=file).run().feed(Typed("a3")).run().session.close()
    again = Playing(SILENT, journal=file)
    again.session.start()
    assert again.seen(Put)
    assert again.session.state.asked is not None and again.session.state.asked.tries == 1


def test_a_try_whose_answer_had_not_come_is_answered(tmp_path: Path) -> None:
    file = tmp_path / "j.log"
    Playing(SILENT, journal=file).run().feed(Typed("a3")).session.close()
    log = LineLog(file)
    lines = log.read()
    at = next(i for i, line in enumerate(lines) if line.startswith('["learnt"'))
    log.replace_all(lines[:at])
    again = Playing(SILENT, journal=file, learn=lambda place, move: ("It hangs.", "board"))
    again.session.start()
    assert "It hangs." in [one.what.shown for one in again.seen(Say) if isinstance(one, Say)]


def test_an_edited_script_goes_on_from_the_same_sentence(tmp_path: Path) -> None:
    file = tmp_path / "j.log"
    first = Playing(SILENT, journal=file, at="part 2").run(3_000)
    step = first.step
    first.session.close()
    edited = LESSON.replace("Good evening.", "Good evening to you all. It is late.")
    again = Playing(SILENT, journal=file, source=edited)
    again.run(0)
    assert again.step == step
    assert any(isinstance(one, Notice) and "changed" in one.sentence for one in again.told)


def test_a_sentence_that_is_gone_begins_the_lesson_anew_and_says_so(tmp_path: Path) -> None:
    file = tmp_path / "j.log"
    Playing(SILENT, journal=file).run(100).session.close()
    again = Playing(SILENT, journal=file, source="title: x\n\nQuite another {e4}. And {e5}.\n")
    again.session.start()
    assert any(isinstance(one, Notice) and "no longer" in one.sentence for one in again.told)
    assert again.seen(Say)


def test_a_damaged_journal_begins_the_lesson_anew_says_so_and_is_kept(tmp_path: Path) -> None:
    file = tmp_path / "j.log"
    Playing(SILENT, journal=file).run(6_000).session.close()
    data = bytearray(file.read_bytes())
    data[len(data) // 2] ^= 1
    file.write_bytes(data)
    again = Playing(SILENT, journal=file)
    assert again.step == sheet_of(LESSON).steps[0].key
    assert any(isinstance(one, Notice) and "damaged" in one.sentence for one in again.told)
    assert (tmp_path / "j.log.damaged").read_bytes() == bytes(data)
    again.run(2_000).session.close()
    assert Playing(SILENT, journal=file).step == again.step


def test_a_file_that_is_no_journal_is_set_aside(tmp_path: Path) -> None:
    file = tmp_path / "j.log"
    LineLog(file).append('["something", "else"]')
    again = Playing(SILENT, journal=file)
    assert any(isinstance(one, Notice) for one in again.told)
    assert (tmp_path / "j.log.damaged").exists()


def test_a_finished_lesson_and_a_fresh_one_begin_at_the_start(tmp_path: Path) -> None:
    file = tmp_path / "j.log"
    done = Playing(Telling(voice=False, wait=False), journal=file).run()
    assert isinstance(done.told[-1], Over)
    done.session.close()
    again = Playing(SILENT, journal=file)
    assert again.step == sheet_of(LESSON).steps[0].key
    again.run().session.close()
    assert Playing(SILENT, journal=file, fresh=True).step == sheet_of(LESSON).steps[0].key


def test_another_version_of_the_program_resumes_by_the_step(tmp_path: Path) -> None:
    file = tmp_path / "j.log"
    first = Playing(SILENT, journal=file, at="part 2").run(3_000)
    first.session.close()
    log = LineLog(file)
    lines = log.read()
    log.replace_all([lines[0].replace('"version":"', '"version":"0.0.'), *lines[1:]])
    again = Playing(SILENT, journal=file)
    again.run(0)
    assert again.step == first.step
    assert not again.seen(Notice)


def test_a_disk_that_refuses_costs_the_place_and_not_the_lesson(tmp_path: Path) -> None:
    blocked = tmp_path / "file"
    blocked.write_text("in the way", encoding="utf-8")
    playing = Playing(Telling(voice=False, wait=False), journal=blocked / "j.log").run()
    assert isinstance(playing.told[-1], Over)
    assert sum(isinstance(one, Notice) for one in playing.told) == 1


def test_every_script_has_a_journal_of_its_own(tmp_path: Path) -> None:
    one, two = journal_path(tmp_path, tmp_path / "a.lesson"), journal_path(tmp_path, tmp_path / "b.lesson")
    assert one != two and one == journal_path(tmp_path, tmp_path / "x" / ".." / "a.lesson")
    assert script_hash("a") != script_hash("b")


def test_two_runs_at_once_do_not_mix_their_places(tmp_path: Path) -> None:
    file = tmp_path / "j.log"
    first = Playing(SILENT, journal=file).run()
    kept = file.read_bytes()
    second = Playing(SILENT, journal=file)
    assert any(isinstance(one, Notice) and "elsewhere" in one.sentence for one in second.told)
    second.run().feed(Typed("Bg2")).run().session.close()
    assert file.read_bytes() == kept
    step = first.step
    first.session.close()
    third = Playing(SILENT, journal=file)
    assert third.step == step
    assert not third.seen(Notice)
