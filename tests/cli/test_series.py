"""A folder of lessons played one after another."""

from __future__ import annotations

from pathlib import Path

from tests.cli.running import moveteller


def series(folder: Path) -> None:
    """Three lessons of a series, one sentence each, in the folder `club`."""
    (folder / "club").mkdir()
    for number, title in enumerate(("Gate", "Garden", "House"), 1):
        text = f"title: {title}\nseries: Club, {number} of 3\n\nThis is the {title.lower()}. So {{e4}}.\n"
        (folder / "club" / f"{number}.lesson").write_text(text, encoding="utf-8")


def test_the_first_unfinished_lesson_of_a_folder_is_played(tmp_path: Path) -> None:
    series(tmp_path)
    ran = moveteller(tmp_path, "play", "club", "--lines")
    assert ran.err == "Lesson 1 of 3: Gate\n" and "Gate" in ran.out
    assert moveteller(tmp_path, "play", "club", "--at-once").err == "Lesson 1 of 3: Gate\n"  # left unfinished
    assert moveteller(tmp_path, "play", "club", "--at-once").err == "Lesson 2 of 3: Garden\n"
    ran = moveteller(tmp_path, "play", "club", "--at-once")
    assert ran.err == "Lesson 3 of 3: House\n" and "This is the house." in ran.out
    ran = moveteller(tmp_path, "play", "club", "--at-once")
    assert ran.err == "All 3 lessons here are told; the first begins again.\nLesson 1 of 3: Gate\n"
    assert "This is the gate." in ran.out


def test_a_lesson_that_is_told_leads_to_the_next(tmp_path: Path) -> None:
    series(tmp_path)
    ran = moveteller(tmp_path, "play", "club", "--lines", typed="\n" * 5 + "where\n")
    told = ran.out
    assert "Enter goes on with the next one, Garden." in told
    assert (
        told.index("This is the gate.") < told.index("This is the garden.") < told.index("This is the house.")
    )
    assert "The lesson is told. Type quit to leave, or go to start to hear it again." in told  # the last
    assert told.count("Goodbye.") == 1 and ran.code == 0


def test_a_journal_of_one_s_own_is_for_one_lesson(tmp_path: Path) -> None:
    series(tmp_path)
    for wish in ("--journal", "--record-happenings"):
        ran = moveteller(tmp_path, "play", "club/1", "--lines", wish, "kept", typed="\n\n\n")
        assert "Enter goes on with the next" not in ran.out and "garden" not in ran.out
        assert (tmp_path / "kept").stat().st_size  # beside what else is named from where the learner stands
