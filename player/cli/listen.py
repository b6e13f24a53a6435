"""`moveteller listen`: what the ears make of a sound file."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

import chess
import click

from player.cli.boards import answer_lines, board_of, text_of
from player.world.trouble import Trouble
from player.world.world import World


@click.command("listen")
@click.argument("lines", required=False)
@click.option("--wav", "wavs", multiple=True, help="A sound file (WAV with PCM); may be given several times.")
@click.option("--fen", default="start", help="The position; the starting position where none is given.")
@click.option("--naming", default="all", help="How files are named: letters, fide, alphabet, or all.")
@click.option("--verbs", help="The verbs listened for, parted by commas; none for moves alone.")
@click.option("--answer", default="", help="The question's answer in UCI, which is a little likelier.")
@click.option(
    "--json", "as_json", is_flag=True, help="Answer in JSON; with a lone - instead of --wav, JSON lines in."
)
@click.pass_obj
def command(
    world: World,
    lines: str | None,
    wavs: Sequence[str],
    fen: str,
    naming: str,
    verbs: str | None,
    answer: str,
    as_json: bool,
) -> int:
    """Tell what is heard in a sound file: listen --wav answer.wav --fen FEN.

    With a lone -, lines such as {"wav": "answer.wav", "fen": "..."} are read and answered in order.
    """
    usual = {"fen": fen, "naming": naming, "verbs": verbs, "answer": answer}
    ear = _Listener()
    if lines is not None:
        if lines != "-" or wavs:
            raise Trouble("Name sound files with --wav, or give a lone - to read JSON lines.")
        return answer_lines(world, lambda asked: ear.heard({**usual, **asked}))
    if not wavs:
        raise Trouble("Name a sound file, such as: moveteller listen --wav answer.wav")
    for wav in wavs:
        found = ear.heard({**usual, "wav": wav})
        print(
            json.dumps(found, ensure_ascii=False) if as_json else _sentence(found),
            file=world.stdout,
            flush=True,
        )
    return 0


class _Listener:
    """The ears, opened at the first clip."""

    def __init__(self) -> None:
        self._ears: Any = None

    def heard(self, asked: Mapping[str, Any]) -> dict[str, Any]:
        """The answer to one object with "wav" and "fen". Raises Trouble."""
        from player.voice.ears.ears import NoEars, open_ears
        from player.voice.ears.vocabulary import VERBS, listening
        from player.voice.ears.waves import UnreadableSound, read_clip

        board = board_of(text_of(asked, "fen", "start"))
        named = _namings(text_of(asked, "naming", "all"))
        verbs = asked.get("verbs")
        if verbs is not None and not isinstance(verbs, str):
            raise Trouble('"verbs" is one text, with commas between the verbs.')
        names = (
            VERBS["asked"] if verbs is None else [name.strip() for name in verbs.split(",") if name.strip()]
        )
        try:
            listen = listening(board, names, answer=text_of(asked, "answer", ""), namings=named)
        except ValueError as fault:
            raise Trouble(str(fault)) from fault
        if not listen.phrases:
            raise Trouble(
                "There is nothing to listen for: the position has no legal move, and no verb is named."
            )
        path = Path(text_of(asked, "wav"))
        try:
            pcm = read_clip(path.read_bytes(), str(path))
            if self._ears is None:
                self._ears = open_ears()
            return {"wav": str(path), **told(self._ears.judge(pcm, listen), board)}
        except (UnreadableSound, NoEars) as fault:
            raise Trouble(str(fault)) from fault
        except OSError as fault:
            raise Trouble(f"{path} cannot be read: {(fault.strerror or 'it is no file').lower()}.") from fault


def told(verdict: Any, board: chess.Board) -> dict[str, Any]:
    """A verdict as data; "second" is what else it may have been, a move in notation or a verb."""
    from player.voice.ears.heard import Doubt, Heard, Nothing

    out: dict[str, Any] = {
        "verdict": "silence", "heard": "", "san": None, "uci": None, "command": None,
        "sure": 0.0, "second": None,
    }  # fmt: skip
    if isinstance(verdict, Nothing):
        return {**out, "verdict": "other", "heard": verdict.phrase, "sure": verdict.sure}
    if isinstance(verdict, Heard):
        meanings, other, kind = verdict.meanings, verdict.other, ""
    elif isinstance(verdict, Doubt):
        meanings, other, kind = (verdict.first,), verdict.second, "doubt"
        out["question"] = verdict.question(board)
    else:
        return out
    san, uci, name = _named(board, meanings[0])
    second = _named(board, other) if other else (None, None, None)
    out |= {"heard": verdict.phrase, "sure": verdict.sure, "san": san, "uci": uci, "command": name}
    out |= {"verdict": kind or ("command" if name else "move"), "second": second[0] or second[2]}
    if len(meanings) > 1:
        out["ucis"] = list(meanings)
    return out


def _named(board: chess.Board, meaning: str) -> tuple[str | None, str | None, str | None]:
    """A meaning as notation, UCI and command: a move has the first two, a verb the last."""
    move = next((one for one in board.legal_moves if one.uci() == meaning), None)
    return (None, None, meaning) if move is None else (board.san(move), meaning, None)


def _namings(naming: str) -> Any:
    from player.wording.heard_words import NAMINGS

    if naming == "all":
        return NAMINGS
    if naming not in NAMINGS:
        raise Trouble(f"Squares are not named by '{naming}'; say letters, fide, alphabet or all.")
    return (naming,)


def _sentence(found: Mapping[str, Any]) -> str:
    if found["verdict"] == "silence":
        return "Nothing was said."
    if found["verdict"] == "other":
        return "That was not for the lesson."
    if found["verdict"] == "doubt":
        return str(found["question"])
    return str(found["san"] or found["command"])
