"""`moveteller hear`: which move some words mean in a position."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

import chess
import click

from player.cli.boards import answer_lines, board_of, known_language, text_of
from player.wording.hear import Ambiguous, Illegal, MoveHeard, hear
from player.world.trouble import Trouble
from player.world.world import World


@click.command("hear")
@click.argument("words", nargs=-1)
@click.option("--fen", default="start", help="The position; the starting position where none is given.")
@click.option("--language", default="en", help="The language of the words.")
@click.option(
    "--json", "as_json", is_flag=True, help="Answer in JSON; with a lone - as WORDS, JSON lines in."
)
@click.pass_obj
def command(world: World, words: tuple[str, ...], fen: str, language: str, as_json: bool) -> int:
    """Tell which move WORDS mean: hear --fen FEN knight takes e5.

    With --json and a lone -, lines such as {"fen": "...", "said": "..."} are read and answered in order.
    """
    known_language(language)
    if words == ("-",):
        return answer_lines(world, lambda asked: heard(asked, language))
    if not words:
        raise Trouble("Say what was heard, such as: moveteller hear knight f3")
    found = heard({"fen": fen, "said": " ".join(words)}, language)
    if as_json:
        print(json.dumps(found, ensure_ascii=False), file=world.stdout)
    elif found["kind"] == "move":
        print(found["san"], file=world.stdout)
    else:
        print(found.get("sentence") or found.get("question"), file=world.stdout)
    return 0


def heard(asked: Mapping[str, Any], language: str = "en") -> dict[str, Any]:
    """The answer to one object with "fen" and "said". Raises Trouble."""
    board = board_of(text_of(asked, "fen", "start"))
    last = asked.get("last")
    if isinstance(last, str):
        board = _after(board, last)
    found = hear(board, text_of(asked, "said"), language=known_language(text_of(asked, "language", language)))
    if isinstance(found, MoveHeard):
        return {"kind": "move", "uci": found.move.uci(), "san": board.san(found.move)}
    if isinstance(found, Ambiguous):
        return {
            "kind": "ambiguous",
            "ucis": [move.uci() for move in found.moves],
            "question": found.question,
            "words": list(found.words),
        }
    if isinstance(found, Illegal):
        return {"kind": "illegal", "reason": found.reason, "sentence": found.sentence}
    return {"kind": "not-a-move", "sentence": found.sentence}


def _after(board: chess.Board, last: str) -> chess.Board:
    """The board after the last move, which is played on the given position. Raises Trouble."""
    try:
        board.push_uci(last)
    except ValueError as error:
        raise Trouble(f'"last" must be a legal move in UCI; "{last}" is none here.') from error
    return board
