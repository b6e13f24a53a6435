"""Questions with the side tracks that hang on them."""

from __future__ import annotations

from dataclasses import replace

from player.cues.keys import Keys, ask_key
from player.cues.sheet import Ask, Reply, Track
from player.cues.tracks import Maker, Voicing, Where
from player.facts.place import Place
from player.script.told import Text, ToldQuestion, ToldReply


def ask_of(asked: ToldQuestion, where: Where, voicing: Voicing) -> Ask:
    """The question with its tracks. Which step tells the answer is not known yet."""
    key = ask_key(asked.place, asked.kind, asked.answers)
    tracks = _Tracks(key, where, voicing)
    reason_at = asked.answer.after if asked.answer is not None else asked.place
    return Ask(
        key=key,
        kind=asked.kind,
        place=asked.place,
        text=asked.text.shown,
        answer=asked.answer,
        told=None,
        answers=asked.answers,
        choices=asked.choices,
        also=tracks.replies("also", asked.also, asked),
        replies=tracks.replies("reply", asked.replies, asked),
        otherwise=tracks.track("otherwise", asked.otherwise, asked.place),
        because=tracks.track("because", asked.because, reason_at),
        because_given=asked.because_given,
        nudges=tuple(tracks.track("nudge", nudge, asked.place) for nudge in asked.nudges),
        about=asked.about,
        think_ms=asked.think_ms,
        again=asked.again,
        manner=asked.manner,
    )


class _Tracks:
    """Makes the tracks of one question; their keys are their own, so that the lesson's stay what they are."""

    def __init__(self, key: str, where: Where, voicing: Voicing) -> None:
        self._key = key
        self._where = where
        self._voicing = voicing
        self._makers: dict[str, Maker] = {}

    def track(self, role: str, text: Text | None, place: Place, line: int | None = None) -> Track:
        """The sentences of one text from this place on."""
        if text is None:
            return ()
        maker = self._makers.setdefault(role, Maker(self._voicing, Keys(f"{self._key} {role}")))
        where = self._where if line is None else replace(self._where, line=line)
        return tuple(maker.told(text, where, place))

    def replies(self, role: str, told: tuple[ToldReply, ...], asked: ToldQuestion) -> tuple[Reply, ...]:
        """One reply for every move; for other answers the words are the same, and so is the reply."""
        made: list[Reply] = []
        for reply in told:
            line = reply.spot.line
            if asked.kind != "move":
                made.append(Reply(reply.answers, self.track(role, reply.text, asked.place, line)))
                continue
            for number, (answer, place) in enumerate(zip(reply.answers, reply.places, strict=True)):
                text = reply.text if number == 0 else Text(reply.text.shown)
                made.append(Reply((answer,), self.track(f"{role} {answer}", text, place, line)))
        return tuple(made)
