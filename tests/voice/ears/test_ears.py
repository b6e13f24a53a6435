"""Verdicts, with a recogniser that says what it is told to, and for real on a few clips of our own voice."""

from __future__ import annotations

import array
import dataclasses
import math
from collections.abc import Collection, Iterator, Sequence

import chess
import pytest

from player.voice.choose import ESPEAK
from player.voice.ears.confidence import Confidence, learnt
from player.voice.ears.ears import Ears, open_ears
from player.voice.ears.heard import OFFER, Doubt, Heard, Listening, Names, Nothing, Silence
from player.voice.ears.recogniser import Decoded
from player.voice.ears.speech import trimmed
from player.voice.ears.vocabulary import VERBS, likely, listening, verb_words, what_can_be_said
from player.voice.ears.waves import at_our_rate
from player.voice.process import WorkerProcess
from player.voice.spoken import SpokenVoice
from player.wording.heard_words import Phrase, choice_phrases
from player.world.clock import RealClock

pytest.importorskip("pocketsphinx")

BEST = Decoded("rook ay one", ("h1a1",), -0.5, -300.0, 90, 3)
SECOND = Decoded("rook h one", ("a1h1",), -0.6, -310.0, 90, 3)
MARGIN = Confidence((0.0, 1.0, *[0.0] * 6), (6.0, *[0.0] * 6), (2.0, *[1.0] * 6), 0.3, 0.9)


class Told:
    """Decodes every clip as it was told to: the best, and where that is left out the second."""

    def __init__(self, best: Decoded | None, second: Decoded | None) -> None:
        self.best, self.second_best = best, second

    def decode(self, pcm: bytes, phrases: Sequence[Phrase], without: Collection[str] = ()) -> Decoded | None:
        return self.second_best if without else self.best

    def free(self, pcm: bytes) -> float:
        return -0.5


class Crowded(Told):
    """Finds no whole phrase as long as moves are among those listened for."""

    def decode(self, pcm: bytes, phrases: Sequence[Phrase], without: Collection[str] = ()) -> Decoded | None:
        if any(phrase.meaning == "h1a1" for phrase in phrases):
            return Decoded("tell", (), 0.0, 0.0, 0, 0)
        return super().decode(pcm, phrases, without)


@pytest.fixture(scope="module")
def voice() -> Iterator[SpokenVoice]:
    made = SpokenVoice(WorkerProcess(ESPEAK), RealClock(), name="en-us")
    yield made
    made.close()


@pytest.fixture(scope="module")
def clip(voice: SpokenVoice) -> bytes:
    return spoken(voice, "rook to Anna one")


def spoken(voice: SpokenVoice, words: str) -> bytes:
    sound = voice.make(words, 1.0)
    return at_our_rate(sound.frames(), sound.rate_hz)


def judged(best: Decoded | None, second: Decoded | None, clip: bytes, *, lenient: bool = False) -> object:
    listen = Listening((Phrase("h1a1", (("rook",),)),), lenient)
    return Ears(Told(best, second), MARGIN).judge(clip, listen)


def test_a_clear_margin_is_heard_and_a_small_one_is_asked_about(clip: bytes) -> None:
    sure = judged(BEST, dataclasses.replace(SECOND, score=-0.64), clip)
    assert isinstance(sure, Heard)
    assert (sure.phrase, sure.meanings, sure.other) == ("rook a one", ("h1a1",), "a1h1")
    doubt = judged(BEST, dataclasses.replace(SECOND, score=-0.56), clip)
    assert isinstance(doubt, Doubt)
    assert judged(BEST, dataclasses.replace(SECOND, score=-0.501), clip) == Nothing("rook a one", 0.0497)


def test_what_is_no_whole_phrase_is_never_acted_on(clip: bytes) -> None:
    part = dataclasses.replace(BEST, phrase="rook ay", meanings=())
    assert judged(part, SECOND, clip) == Nothing("rook a", 0.0)
    assert judged(None, None, clip) == Nothing("", 0.0)


@pytest.mark.parametrize("lost", ["part", "nothing", "worse"])
def test_where_the_first_search_lost_its_way_a_patient_one_is_asked(clip: bytes, lost: str) -> None:
    part = dataclasses.replace(BEST, phrase="rook ay", meanings=())
    far = dataclasses.replace(SECOND, score=-0.9)
    first = {"part": Told(part, None), "nothing": Told(None, None), "worse": Told(far, BEST)}[lost]
    made: list[Told] = []

    def patient() -> Told:
        made.append(Told(BEST, dataclasses.replace(SECOND, score=-0.64)))
        return made[-1]

    ears = Ears(first, MARGIN, patient)
    listen = Listening((Phrase("h1a1", (("rook",),)),))
    for _ in range(2):
        verdict = ears.judge(clip, listen)
        assert isinstance(verdict, Heard)
        assert verdict.meanings == ("h1a1",)
    assert len(made) == 1
    assert isinstance(
        Ears(Told(BEST, dataclasses.replace(SECOND, score=-0.64)), MARGIN, patient).judge(clip, listen), Heard
    )
    assert len(made) == 1


def test_long_talk_is_not_worth_a_second_look(clip: bytes) -> None:
    def patient() -> Told:
        raise AssertionError("asked")

    long = clip * 8
    assert len(trimmed(long)) > 3 * 32_000
    assert isinstance(Ears(Told(None, None), MARGIN, patient).judge(long, Listening(())), Nothing)


def test_where_no_whole_phrase_is_found_it_looks_among_the_commands_alone(clip: bytes) -> None:
    move, command = Phrase("h1a1", (("rook",),)), Phrase("skip", (("skip",),))
    skip = Decoded("skip", ("skip",), -0.5, -300.0, 60, 1)
    asked: list[tuple[Phrase, ...]] = []

    class Lost(Told):
        def decode(
            self, pcm: bytes, phrases: Sequence[Phrase], without: Collection[str] = ()
        ) -> Decoded | None:
            asked.append(tuple(phrases))
            if without:
                return None
            return skip if len(phrases) == 1 else dataclasses.replace(BEST, phrase="rook ay", meanings=())

    verdict = Ears(Lost(None, None), MARGIN).judge(clip, Listening((move, command)))
    assert isinstance(verdict, Heard)
    assert verdict.meanings == ("skip",)
    assert asked == [(move, command), (command,), (command,)]


def test_an_answer_to_a_question_back_is_taken_more_readily(clip: bytes) -> None:
    near = dataclasses.replace(SECOND, score=-0.52)
    assert isinstance(judged(BEST, near, clip), Nothing)
    assert isinstance(judged(BEST, near, clip, lenient=True), Heard)


@pytest.mark.parametrize("pcm", [b"", bytes(64_000)])
def test_silence_is_no_speech(pcm: bytes) -> None:
    assert judged(BEST, SECOND, pcm) == Silence()


def test_trimming_leaves_soft_beginnings_and_takes_long_quiet_away(clip: bytes) -> None:
    quiet_ms = 1500
    quiet = bytes(quiet_ms * 32)
    whole = quiet + clip + quiet
    kept = trimmed(whole)
    assert kept in whole
    begin_ms = whole.index(kept) // 32
    first_sound_ms = next(at for at, byte in enumerate(whole) if byte) // 32
    assert 200 <= begin_ms <= first_sound_ms - 200
    assert len(kept) < len(clip) + 2 * len(quiet) // 3


def test_a_very_short_answer_is_no_silence() -> None:
    speech = array.array("h", [round(9000 * math.sin(at * at / 4000)) for at in range(3_000)]).tobytes()
    assert trimmed(bytes(32_000) + speech + bytes(32_000)) != b""


def test_a_doubt_asks_in_names_that_cannot_be_confused() -> None:
    board = chess.Board("4k3/8/8/8/8/8/8/R3K2R w - - 0 1")
    assert Doubt("", "a1b1", "a1d1", 0.5).question(board) == "Did you mean rook Bella one or rook David one?"
    assert Doubt("", "hold", "", 0.5).question(board) == 'Did you mean "hold"?'


def test_names_are_offered_once_after_two_mishearings_in_a_row() -> None:
    names, doubt = Names(), Doubt("", "a1b1", "a1d1", 0.5)
    assert [names.note(doubt), names.note(Heard("", ("a1b1",), 1.0)), names.note(doubt)] == ["", "", ""]
    assert names.refused() == OFFER
    assert [names.note(doubt), names.refused()] == ["", ""]


def test_likely_moves_weigh_gently_more() -> None:
    board = chess.Board("4k3/8/8/3p4/4P3/8/8/4K2Q w - - 0 1")
    weights = likely(board, answer="e4d5", replies=["e4e5"])
    assert weights["e4d5"] > weights["e4e5"] > weights["e1e2"] == 1.0
    assert weights["h1h8"] > 1.0
    assert max(weights.values()) < 5


def test_what_can_be_said_lists_moves_and_every_verb() -> None:
    board = chess.Board()
    listen = listening(board, VERBS["asked"])
    said = what_can_be_said(listen, board)
    assert said.startswith("A move, such as knight to h three; ")
    for name in VERBS["asked"]:
        assert verb_words([name])[name][0] in said
    for name in VERBS["asked"]:
        assert name in listen.meanings(verb_words([name])[name][0])


def test_a_verb_that_is_none_is_named() -> None:
    with pytest.raises(ValueError, match="sing"):
        verb_words(["sing"])


def test_our_own_voice_is_understood(voice: SpokenVoice) -> None:
    board, ears = chess.Board(), open_ears()
    wanted = {"knight to Felix three": "g1f3", "pawn to Eva four": "e2e4", "repeat": "repeat"}
    listen = listening(board, ("repeat", "hold", "go on"))
    for words, meaning in wanted.items():
        verdict = ears.judge(spoken(voice, words), listen)
        assert isinstance(verdict, Heard | Doubt), words
        assert meaning in (verdict.meanings if isinstance(verdict, Heard) else (verdict.first,)), words
    choice = Listening(tuple(choice_phrases(board, "g1f3", "g1h3")), lenient=True)
    settled = ears.judge(spoken(voice, "Felix three"), choice)
    assert isinstance(settled, Heard)
    assert settled.meanings == ("g1f3",)


def test_other_speech_is_not_acted_on(voice: SpokenVoice) -> None:
    verdict = open_ears().judge(
        spoken(voice, "my sister lost the umbrella on the way to the station"),
        listening(chess.Board(), VERBS["asked"]),
    )
    assert not isinstance(verdict, Heard)


def test_the_learnt_model_holds_together() -> None:
    model = learnt()
    assert len(model.means) == len(model.spreads) == len(model.weights) - 1 == 7
    assert 0 < model.ask <= model.act < 1
    low, high = (model.sure((margin, 0.0, -30.0, 3.0, 4.0, -4.0, 0.5)) for margin in (0.0, 15.0))
    assert low < high


def test_a_command_that_is_lost_among_the_moves_is_looked_for_alone(clip: bytes) -> None:
    said = Decoded("tell me", ("tell me",), -0.5, -300.0, 90, 2)
    listen = listening(chess.Board("7k/8/8/8/8/8/8/K6R w - - 0 1"), VERBS["asked"])
    verdict = Ears(Crowded(said, None), MARGIN).judge(clip, listen)
    assert isinstance(verdict, Heard) and verdict.meanings == ("tell me",)
