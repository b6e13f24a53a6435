"""`moveteller say`: a move of a position in words."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

import chess
import click

from player.cli.boards import answer_lines, board_of, known_language, text_of
from player.wording.hear import Ambiguous, MoveHeard, hear
from player.wording.say import say
from player.world.trouble import Trouble
from player.world.world import World

DEPTHS = ("full", "short", "spelled")
NAMINGS = ("letters", "fide", "alphabet")


@click.command("say")
@click.argument("words", nargs=-1)
@click.option("--fen", default="start", help="The position; the starting position where none is given.")
@click.option("--language", default="en", help="The language to say it in.")
@click.option("--depth", type=click.Choice(DEPTHS), default="full", help="How much is said.")
@click.option("--naming", type=click.Choice(NAMINGS), default="letters", help="How the files are named.")
@click.option(
    "--json", "as_json", is_flag=True, help="Answer in JSON; with a lone - as WORDS, JSON lines in."
)
@click.pass_obj
def command(
    world: World, words: tuple[str, ...], fen: str, language: str, depth: str, naming: str, as_json: bool
) -> int:
    """Say a move in words: say --fen FEN Nf3. The move may be in any form that `hear` understands.

    With --json and a lone -, lines such as {"fen": "...", "uci": "g1f3"} are read and answered in order.
    """
    usual = {"language": known_language(language), "depth": depth, "naming": naming}
    if words == ("-",):
        return answer_lines(world, lambda asked: said({**usual, **asked}))
    if not words:
        raise Trouble("Name the move to say, such as: moveteller say Nf3")
    found = said({**usual, "fen": fen, "move": " ".join(words)})
    print(json.dumps(found, ensure_ascii=False) if as_json else found["spoken"], file=world.stdout)
    return 0


def said(asked: Mapping[str, Any]) -> dict[str, Any]:
    """The answer to one object with "fen" and "uci", or "move" in any form. Raises Trouble."""
    board = board_of(text_of(asked, "fen", "start"))
    language = known_language(text_of(asked, "language", "en"))
    depth, naming = text_of(asked, "depth", "full"), text_of(asked, "naming", "letters")
    if depth not in DEPTHS or naming not in NAMINGS:
        raise Trouble(f'"depth" is one of {", ".join(DEPTHS)}; "naming" is one of {", ".join(NAMINGS)}.')
    move = _move(board, asked)
    told = say(board, move, depth=depth, naming=naming, language=language)  # type: ignore[arg-type]
    return {"spoken": told.spoken, "shown": told.shown}


def _move(board: chess.Board, asked: Mapping[str, Any]) -> chess.Move:
    if "move" not in asked:
        uci = text_of(asked, "uci")
        try:
            move = chess.Move.from_uci(uci)
        except ValueError as error:
            raise Trouble(f'"{uci}" is no move in UCI.') from error
        if not board.is_legal(move):
            raise Trouble(f"{uci} is not legal in this position.")
        return move
    heard = hear(board, text_of(asked, "move"))
    if isinstance(heard, MoveHeard):
        return heard.move
    raise Trouble(heard.question if isinstance(heard, Ambiguous) else heard.sentence)
