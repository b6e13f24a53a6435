"""`moveteller describe`: a position in words."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

import chess
import click

from player.cli.boards import answer_lines, board_of, text_of
from player.wording.asked import CAN_BE_ASKED, ask_board
from player.wording.describe import changed, describe
from player.world.trouble import Trouble
from player.world.world import World

DEPTHS = ("gist", "pieces", "around", "line", "square", "changed")


@click.command("describe")
@click.argument("words", nargs=-1)
@click.option("--depth", default="", metavar="DEPTH", help="gist, pieces, around, line, square or changed.")
@click.option("--fen", default="start", help="The position; the starting position where none is given.")
@click.option("--before", default="start", help="For 'changed': the position as it was.")
@click.option(
    "--json", "as_json", is_flag=True, help="Answer in JSON; with a lone - as WORDS, JSON lines in."
)
@click.pass_obj
def command(world: World, words: tuple[str, ...], depth: str, fen: str, before: str, as_json: bool) -> int:
    """Describe a position: describe --fen FEN, or with WORDS: gist, pieces, around e4,
    line d-file, square e4, changed. The first word may also be given as --depth.
    Or ask the board: describe --fen FEN what attacks e5.

    With --json and a lone -, lines such as {"fen": "...", "depth": "gist"} or
    {"fen": "...", "words": "what attacks e5"} are read and answered in order.
    """
    if words == ("-",):
        return answer_lines(world, described)
    asked: dict[str, Any] = {"fen": fen, "before": before}
    words = (*depth.split(), *words)
    if words and words[0] in DEPTHS:
        asked |= {"depth": words[0], "about": " ".join(words[1:])}
    elif words:
        asked |= {"words": " ".join(words)}
    found = described(asked)
    print(json.dumps(found, ensure_ascii=False) if as_json else found["text"], file=world.stdout)
    return 0


def described(asked: Mapping[str, Any]) -> dict[str, Any]:
    """The answer to one object with "fen" and perhaps "depth", "about" and "before". Raises Trouble."""
    board = board_of(text_of(asked, "fen", "start"))
    depth, about = text_of(asked, "depth", ""), text_of(asked, "about", "")
    if "words" in asked:
        return answered(board, text_of(asked, "words"))
    if not depth:
        return {"text": describe(board, "whole")}
    if depth not in DEPTHS:
        raise Trouble(f"A position is described by one of {', '.join(DEPTHS)}; '{depth}' is none.")
    if depth == "changed":
        return {"text": changed(board_of(text_of(asked, "before", "start")), board)}
    try:
        return {"text": describe(board, depth, about=about)}  # type: ignore[arg-type]
    except ValueError as error:
        raise Trouble(f"'{about}' is no square, file, rank or diagonal of the board.") from error


def answered(board: chess.Board, words: str) -> dict[str, Any]:
    """The answer to a question about the board, with its facts. Raises Trouble for no known form."""
    reply = ask_board(board, words)
    if reply is None:
        raise Trouble(f"'{words}' is no question that can be answered, and no depth. {CAN_BE_ASKED}")
    facts: dict[str, Any] = {"text": reply.text, "standing": reply.standing, "kind": reply.kind}
    facts |= {"squares": [chess.SQUARE_NAMES[square] for square in reply.squares]} if reply.squares else {}
    facts |= {"number": reply.number} if reply.number is not None else {}
    facts |= {"yes": reply.yes} if reply.yes is not None else {}
    facts |= {"moves": [move.uci() for move in reply.moves]} if reply.moves else {}
    return facts
