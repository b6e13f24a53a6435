"""`moveteller prove`: whether a claim about a position is true, and why."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

import chess
import click

from player.cli.boards import answer_lines, board_of, text_of
from player.cli.codes import Code
from player.facts.budgets import BUDGET, DEEP
from player.facts.claim import Last, Verdict
from player.facts.prove import prove
from player.facts.scene import named
from player.wording.claim_words import claim_plain
from player.wording.claims import claim_of, nearest_forms
from player.world.trouble import Trouble
from player.world.world import World

_CODES = {"true": Code.FINE, "false": Code.FAULTS, "unproved": Code.UNPROVED, "not-understood": Code.UNUSABLE}
_WORDS = {
    "true": "True.",
    "false": "False.",
    "unproved": "Not proved, neither true nor false.",
    "not-understood": "Not understood.",
}


@click.command("prove")
@click.argument("words", metavar="CLAIM", nargs=-1)
@click.option("--fen", default="start", help="The position; the starting position where none is given.")
@click.option("--moves", default="", help="Moves played from that position, such as: e4 e5 Nf3.")
@click.option(
    "--last", default="", help="One more move, the one just told, which the claim may name or mean."
)
@click.option("--deep", is_flag=True, help="Look much longer before leaving a claim unproved.")
@click.option(
    "--json", "as_json", is_flag=True, help="Answer in JSON; with a lone - as CLAIM, JSON lines in."
)
@click.pass_obj
def command(
    world: World, words: tuple[str, ...], fen: str, moves: str, last: str, deep: bool, as_json: bool
) -> int:
    """Tell whether CLAIM is true of a position, and why: prove --fen FEN "the knight on f6 is pinned".

    'moveteller help claims' has every kind of claim. It ends with 0 for true, 1 for false, 3 for not proved.

    With --json and a lone -, lines such as {"fen": "...", "claim": "..."} are read and answered in order;
    they may also have "moves" and "last".
    """
    if words == ("-",):
        return answer_lines(world, lambda asked: proved(asked, deep=deep))
    if not words:
        raise Trouble('Say what to prove, such as: moveteller prove "White has the move"')
    found = proved({"fen": fen, "claim": " ".join(words), "moves": moves, "last": last}, deep=deep)
    if as_json:
        print(json.dumps(found, ensure_ascii=False), file=world.stdout)
    else:
        said = (_WORDS[found["verdict"]], found["because"], found.get("doubt", ""))
        print(" ".join(part for part in said if part), file=world.stdout)
    return _CODES[found["verdict"]]


def proved(asked: Mapping[str, Any], *, deep: bool = False) -> dict[str, Any]:
    """The verdict on one object with "claim", and perhaps "fen", "moves", "last" and "marks". Raises Trouble.

    "moves" (UCI or SAN, a text or a list) are played from the position, then "last", which is the move just
    told; without it the last of "moves" is. "marks" has the FEN of each label that the claim may name.
    """
    sentence = text_of(asked, "claim")
    board = _possible(board_of(text_of(asked, "fen", "start")))
    played = _moves(board, asked.get("moves") or ())
    last = asked.get("last", "")
    if not isinstance(last, (str, type(None))):
        raise Trouble('"last" must be a move, a text.')
    last = last or ""
    if last.strip() and not (played and _same(played, last)):
        played = _play(board, last) or played
    claim = claim_of(sentence)
    if claim is None:
        forms = "; ".join(nearest_forms(sentence))
        return {
            "verdict": "not-understood",
            "because": f"This is no claim of a known form. The nearest: {forms}.",
        }
    found = prove(claim, board, played, labels=_labels(asked), budget=DEEP if deep else BUDGET)
    return _answer(found)


def _answer(found: Verdict) -> dict[str, Any]:
    answer: dict[str, Any] = {"verdict": found.kind, "because": found.because}
    if found.doubt:
        answer["doubt"] = found.doubt
    if found.move:
        answer["move"] = found.move.uci()
    return answer


def _possible(board: chess.Board) -> chess.Board:
    """The board without an en passant square that no pawn can have passed."""
    if board.ep_square is not None and board.status() & chess.STATUS_INVALID_EP_SQUARE:
        board.ep_square = None
    return board


def _moves(board: chess.Board, told: object) -> Last | None:
    """Play the moves on the board; the last of them, or None where there are none. Raises Trouble."""
    words = told.split() if isinstance(told, str) else told
    if not isinstance(words, (list, tuple)) or not all(isinstance(word, str) for word in words):
        raise Trouble('"moves" must be moves in UCI or SAN, a text or a list of texts.')
    last = None
    for word in words:
        last = _play(board, word) or last
    return last


def _play(board: chess.Board, word: str) -> Last | None:
    """Play one move; None where the word is only a move's number. Raises Trouble."""
    if not word.strip(" .0123456789"):
        return None
    before = board.copy()
    found = named(board, word)
    if isinstance(found, Verdict):
        raise Trouble(f'"{word}" is no legal move in {board.fen()}.')
    board.push(found)
    return Last(before, found)


def _same(played: Last, word: str) -> bool:
    """Whether the word names the move just played, said once more."""
    return named(played.before, word) == played.move


def _labels(asked: Mapping[str, Any]) -> dict[str, chess.Board]:
    marks = asked.get("marks") or {}
    if not isinstance(marks, dict) or not all(isinstance(fen, str) for fen in marks.values()):
        raise Trouble('"marks" must be an object with a FEN for each label.')
    return {claim_plain(name).casefold(): board_of(fen) for name, fen in marks.items()}
