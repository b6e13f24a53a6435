"""Answers about captures, checks, mates, forks and threats."""

from __future__ import annotations

import re

import chess

from player.facts.exchange import Nodes, OutOfNodes
from player.facts.mates import forced_mate
from player.facts.seen_moves import forks, mates, threats
from player.wording.asked.moves import given_to, movers
from player.wording.asked.played import can_clause, plainly, short
from player.wording.asked.reply import BoardReply, Scene, capital, count, unknown
from player.wording.names import colour_name, listed, man_at

_TOO_LONG = "It would take more looking than there is time for; it is not known."
_SHOWN = 12
_IN_TWO, _IN_THREE = 8_000, 20_000


def captures(scene: Scene) -> BoardReply:
    return _list(scene, lambda board: list(board.generate_legal_captures()), "capture")


def captures_of(scene: Scene) -> BoardReply:
    found = movers(scene)
    if isinstance(found, BoardReply):
        return found
    given = given_to(scene, bool(scene.board.color_at(found[0])))
    if isinstance(given, BoardReply):
        return given
    moves = [m for m in given.generate_legal_captures() if m.from_square in found]
    who = scene.the(found, sides=True)
    if not moves:
        return BoardReply(f"{capital(who)} can take nothing.", yes=False)
    to = list(dict.fromkeys(m.to_square for m in moves))
    return BoardReply(
        f"{capital(who)} can take {scene.the(to)}.", squares=tuple(to), yes=True, moves=tuple(moves)
    )


def checks(scene: Scene) -> BoardReply:
    return _list(scene, lambda board: [m for m in board.legal_moves if board.gives_check(m)], "check")


def _list(scene: Scene, find: object, word: str) -> BoardReply:
    side = scene.board.turn if scene.side is None else scene.side
    given = given_to(scene, side)
    if isinstance(given, BoardReply):
        return given
    moves: list[chess.Move] = find(given)  # type: ignore[operator]
    return _moves_said(given, moves, word, side == scene.board.turn)


def _moves_said(
    board: chess.Board, moves: list[chess.Move], word: str, mine: bool, several: str = ""
) -> BoardReply:
    who, has = colour_name(board.turn), "has" if mine else "would have, with the move,"
    if not moves:
        return BoardReply(f"{who} {has} no {word}.", yes=False, number=0)
    said = [plainly(board, move) for move in moves[:_SHOWN]]
    more = f", and {len(moves) - _SHOWN} more" if len(moves) > _SHOWN else ""
    return BoardReply(
        f"{who} {has} {count(len(moves), word, several)}: {listed(said)}{more}.",
        moves=tuple(moves),
        number=len(moves),
        yes=True,
    )


def mate_moves(scene: Scene) -> BoardReply:
    """Whether there is a mate in one, or in as many moves as were said; with no number how far was looked.

    At most three moves are looked at.
    """
    if scene.board.is_checkmate():
        return BoardReply(f"It is mate already; {colour_name(not scene.board.turn)} has won.", yes=True)
    side = scene.board.turn if scene.side is None else scene.side
    given = given_to(scene, side)
    if isinstance(given, BoardReply):
        return given
    found = mates(given)
    if found:
        return _moves_said(given, found, "mate in one", side == scene.board.turn, "mates in one")
    if scene.query.word == "forced":
        return _forced(scene, given)
    number = scene.query.number or 1
    if number > 1:
        return _in_so_many(scene, given, number)
    return BoardReply(f"No, {colour_name(side)} has no mate in one.", yes=False, number=0)


def _in_so_many(scene: Scene, given: chess.Board, number: int) -> BoardReply:
    try:
        key = forced_mate(given, min(number, 3), scene.nodes)
    except OutOfNodes:
        return unknown(_TOO_LONG)
    if key is not None:
        return BoardReply(
            f"Yes: it begins with {plainly(given, key)}.", moves=(key,), number=number, yes=True
        )
    if number > 3:
        return unknown("There is no mate in three; further than that is not looked.")
    return BoardReply(f"No, {colour_name(given.turn)} cannot force mate in {number}.", yes=False, number=0)


def _forced(scene: Scene, given: chess.Board) -> BoardReply:
    """A mate in two or three, looked for within a budget; where there is none, how far was looked."""
    could = "Yes" if given.turn == scene.board.turn else "Yes, with the move"
    looked = 1
    for number, words, budget in ((2, "two", _IN_TWO), (3, "three", _IN_THREE)):
        try:
            key = forced_mate(given, number, Nodes(budget))
        except OutOfNodes:
            break
        if key is not None:
            return BoardReply(
                f"{could}: mate in {words}, beginning with {plainly(given, key)}.",
                moves=(key,), number=number, yes=True,
            )  # fmt: skip
        looked = number
    who = colour_name(given.turn)
    if looked == 1:
        return unknown(
            f"{who} has no mate in one; for a longer one it would take more looking than there is time for."
        )
    far = "two" if looked == 2 else "three"
    return unknown(f"{who} has no forced mate in {far}; further than that is not looked.")


def fork_moves(scene: Scene) -> BoardReply:
    side = scene.board.turn if scene.side is None else scene.side
    given = given_to(scene, side)
    if isinstance(given, BoardReply):
        return given
    found = forks(given)
    if not found:
        return BoardReply(f"{colour_name(side)} has no move that forks two men.", yes=False, number=0)
    said = [
        f"{plainly(given, m)}, which hits {listed([f'the {man_at(given, s)}' for s in hit])}"
        for m, hit in found[:4]
    ]
    asked = (
        scene.query.said.casefold()
        .lstrip()
        .startswith(("is ", "are ", "does ", "do ", "can ", "has ", "any "))
    )
    text = "; ".join(said) + "."
    return BoardReply(
        f"Yes: {text}" if asked else capital(text),
        moves=tuple(m for m, _ in found),
        number=len(found),
        yes=True,
    )


def threatened(scene: Scene) -> BoardReply:
    """What a side would mate with or win by captures alone, had it the move; the side not to move if
    none is said.
    """
    side = (not scene.board.turn) if scene.side is None else scene.side
    if side != scene.board.turn and scene.board.is_check():
        by = scene.the(scene.board.checkers())
        return BoardReply(
            f"{colour_name(scene.board.turn)} is in check from {by}; that comes first.", yes=True
        )
    given = given_to(scene, side)
    if isinstance(given, BoardReply):
        return given
    found, whole = threats(given, scene.nodes)
    who = colour_name(side)
    asked = scene.query.said.casefold().lstrip().startswith(("does ", "do ", "is ", "has ", "are ", "am "))
    if scene.query.word == "mate" or re.search(r"\b(?:check)?mat(?:e|es|ing)\b", scene.query.said, re.I):
        return _mate_threat(scene, given, [t.move for t in found if t.gain is None])
    if not found:
        if not whole:
            return unknown(_TOO_LONG)
        return BoardReply(
            f"By captures and mates in one, {who} threatens nothing; more than that is not looked at.",
            yes=False,
        )
    now = side == scene.board.turn
    said = []
    for threat in found[:3]:
        if threat.gain is None:
            said.append(f"mate by {short(given, threat.move)}")
        else:
            said.append(f"{can_clause(given, threat.move)} and win material" if now else
                        f"to {_do(given, threat.move)}, winning material")  # fmt: skip
    more = f"; and {len(found) - 3} more" if len(found) > 3 else ""
    lead = "Yes: " if asked else ""
    if now:
        text = f"{lead}{who} is to move: {'; '.join(said)}{more}."
    else:
        text = f"{lead}{who} threatens {'; '.join(said)}{more}."
    return BoardReply(text, moves=tuple(t.move for t in found), number=len(found), yes=True)


def _do(board: chess.Board, move: chess.Move) -> str:
    """ "take on f7 with the bishop on c4", as what is threatened."""
    man = man_at(board, move.from_square)
    verb = "take on" if board.is_capture(move) else "play to"
    became = f", becoming a {chess.piece_name(move.promotion)}" if move.promotion else ""
    return f"{verb} {chess.SQUARE_NAMES[move.to_square]} with the {man}{became}"


def _mate_threat(scene: Scene, given: chess.Board, found: list[chess.Move]) -> BoardReply:
    who = colour_name(given.turn)
    has = "has" if given.turn == scene.board.turn else "threatens"
    if not found:
        return BoardReply(f"No: {who} {has} no mate in one.", yes=False, number=0)
    said = listed([short(given, move) for move in found[:3]], "or")
    return BoardReply(f"Yes: {who} {has} mate, with {said}.", moves=tuple(found), number=len(found), yes=True)
