"""Judging a claim: its definition applied to the board, exactly, within a budget; never a guess."""

from __future__ import annotations

from collections.abc import Mapping

import chess

from player.facts import attacks, balance, checks, lines, mates, pawns, results, rights, strikes
from player.facts.budgets import BUDGET
from player.facts.claim import Claim, Last, Verdict, false
from player.facts.exchange import Nodes, OutOfNodes
from player.facts.place import is_playable
from player.facts.scene import Played, Prover, Scene, named, the_move, white_or_black

_ON_THE_BOARD: dict[str, Prover] = {
    "attacked": attacks.attacked,
    "attacks": attacks.attacks,
    "guarded": attacks.guarded,
    "man attacks": attacks.man_attacks,
    "pinned": attacks.pinned,
    "file": lines.file_state,
    "line": lines.line_state,
    "rooks connected": lines.rooks_connected,
    "outpost": pawns.outpost,
    "pawn": pawns.pawn_state,
    "material": balance.material,
    "bishop pair": balance.bishop_pair,
    "opposite bishops": balance.opposite_bishops,
    "in check": checks.in_check,
    "lost castling": rights.lost_castling,
    "castling right": rights.castling_right,
    "has the move": rights.has_move,
    "opposition": rights.opposition,
    "in the square": rights.in_square,
    "repetition": rights.repetition,
    "fifty": rights.fifty,
    "same": rights.same_as,
}
_BY_MOVES: dict[str, Prover] = {
    "legal": checks.legal,
    "check": checks.check,
    "mate": checks.mate,
    "only move": checks.only_move,
    "moves of side": checks.moves_of_side,
    "moves of man": checks.moves_of_man,
    "stalemate": checks.stalemate,
    "checkmate": checks.checkmate,
    "forks": strikes.forks,
    "discovers": strikes.discovers,
    "skewers": strikes.skewers,
    "threatens": strikes.threatens,
    "wins": strikes.wins,
    "mate in": mates.mate_in,
    "wins with best play": results.wins_with_best_play,
    "drawn": results.drawn,
    "may castle": rights.may_castle,
    "en passant": rights.en_passant,
}
KINDS = (*_ON_THE_BOARD, *_BY_MOVES, "after", "pass")
"""Every kind of claim there is a definition for."""


def prove(
    claim: Claim,
    board: chess.Board,
    last: Last | None = None,
    *,
    labels: Mapping[str, chess.Board] | None = None,
    budget: int = BUDGET,
) -> Verdict:
    """Whether a claim is true of a board with its move stack, exactly by its definition.

    `last` is the move just told, which a claim may name or mean; `labels` has the boards of the marks. Where
    `budget` positions do not settle it, or nobody can move on the board, it is unproved. Never raises.
    """
    scene = Scene(board.copy(), last, labels or {}, Nodes(budget))
    try:
        return _judge(claim, scene)
    except OutOfNodes:
        return Verdict("unproved", "It would take more looking than there is time for.")


def _judge(claim: Claim, scene: Scene) -> Verdict:
    if claim.kind == "after":
        return _after(claim, scene)
    if claim.kind == "pass":
        return _passed(claim, scene)
    if claim.kind in _ON_THE_BOARD:
        return _ON_THE_BOARD[claim.kind](claim, scene)
    prover = _BY_MOVES.get(claim.kind)
    if prover is None:
        return Verdict("not-understood", f"There is no claim of the kind '{claim.kind}'.")
    if not is_playable(scene.board):
        return Verdict("unproved", "Nobody can move on this board, so nothing about moves can be proved.")
    return prover(claim, scene)


def _after(claim: Claim, scene: Scene) -> Verdict:
    """The claim inside, on the board after some moves; the first may be the one just told."""
    if not is_playable(scene.board):
        return Verdict("unproved", "Nobody can move on this board, so nothing about moves can be proved.")
    line = list(claim.line)
    if scene.last is not None and isinstance(named(scene.board, line[0]), Verdict):
        told = the_move(line[0], scene)
        if isinstance(told, Played) and told.before.turn == scene.last.before.turn:
            line = line[1:]
    for text in line:
        move = named(scene.board, text)
        if isinstance(move, Verdict):
            return move
        scene.last = Last(scene.board.copy(), move)
        scene.board.push(move)
    assert claim.inner is not None
    return _judge(claim.inner, scene)


def _passed(claim: Claim, scene: Scene) -> Verdict:
    """The claim inside, with the move given to the other side."""
    side = white_or_black(bool(claim.colour))
    if scene.board.turn != claim.colour:
        return false(f"It is {white_or_black(scene.board.turn)}'s move, so {side} has none to pass.")
    if scene.board.is_check():
        return false(f"{side} is in check and cannot pass.")
    scene.board.push(chess.Move.null())
    scene.last = None
    assert claim.inner is not None
    return _judge(claim.inner, scene)
