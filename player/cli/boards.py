"""What `say`, `hear` and `describe` share: a position to speak of, and JSON lines to answer."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from typing import Any

import chess

from player.script.fens import fen_trouble
from player.world.trouble import Trouble
from player.world.world import World

Answer = Callable[[Mapping[str, Any]], dict[str, Any]]


def board_of(fen: str) -> chess.Board:
    """The board of a FEN; "start" is the starting position. Raises Trouble where it is none."""
    if fen.strip().casefold() in ("", "start", "startpos"):
        return chess.Board()
    try:
        return chess.Board(fen)
    except ValueError as error:
        raise Trouble(f"This is no position in FEN. {fen_trouble(fen)}") from error


def answer_lines(world: World, answer: Answer) -> int:
    """Read JSON objects, one a line, and print an answer to each, in order; 0, or 2 where one was none.

    An object that cannot be answered gets {"kind": "error", "sentence": ...} in its place.
    """
    code = 0
    for line in world.stdin:
        if not line.strip():
            continue
        try:
            asked = json.loads(line)
            if not isinstance(asked, dict):
                raise ValueError
            found = answer(asked)
        except Trouble as trouble:
            found, code = {"kind": "error", "sentence": str(trouble)}, 2
        except (ValueError, RecursionError):
            found, code = {"kind": "error", "sentence": "This line is no JSON object."}, 2
        print(json.dumps(found, ensure_ascii=False), file=world.stdout, flush=True)
    return code


def text_of(asked: Mapping[str, Any], name: str, usual: str | None = None) -> str:
    """A text that an object must have, or may have where there is a usual one. Raises Trouble."""
    value = asked.get(name, usual)
    if not isinstance(value, str):
        raise Trouble(f'The object needs "{name}", a text.')
    return value


def known_language(language: str) -> str:
    """The language's code. Raises Trouble for one that there are no words of."""
    from player.wording.languages import language as language_of

    try:
        language_of(language)
    except ValueError as error:
        raise Trouble(f"There are no words here for the language '{language}'.") from error
    return language
