"""Forced mates, by trying everything."""

from __future__ import annotations

import chess

from player.facts.claim import Claim, Verdict, false
from player.facts.exchange import Nodes
from player.facts.scene import Scene, not_to_move, the_move, white_or_black


def mate_in(claim: Claim, scene: Scene) -> Verdict:
    """The side to move forces mate in at most N of its own moves, whatever the replies."""
    assert claim.number is not None
    if claim.move:
        return _mate_after(claim, scene)
    other = not_to_move(claim, scene.board)
    if other is not None:
        return other
    board = scene.board.copy(stack=False)
    side = white_or_black(board.turn)
    for moves in range(1, claim.number + 1):
        key = forced_mate(board, moves, scene.nodes)
        if key is not None:
            because = f"{board.san(key)} forces mate in {moves}."
            doubt = f"There is a mate in {moves}: {board.san(key)}." if moves < claim.number else ""
            return Verdict("true", because, doubt, key)
    return false(f"{side} cannot force mate in {claim.number}.")


def _mate_after(claim: Claim, scene: Scene) -> Verdict:
    """The move itself forces mate in at most N moves, counted with it."""
    assert claim.number is not None
    played = the_move(claim.move, scene)
    if isinstance(played, Verdict):
        return played
    for moves in range(claim.number):
        if _helpless(played.after.copy(stack=False), moves, scene.nodes, {}):
            doubt = f"It is mate in {moves + 1}." if moves + 1 < claim.number else ""
            return Verdict("true", f"{played.san} forces mate in {moves + 1}.", doubt, played.move)
    return false(f"{played.san} does not force mate in {claim.number}.")


def forced_mate(board: chess.Board, moves: int, nodes: Nodes) -> chess.Move | None:
    """A move that forces mate in at most `moves` moves of the side to move, or None. Raises OutOfNodes."""
    return _attack(board, moves, nodes, {})


def _attack(
    board: chess.Board, moves: int, nodes: Nodes, known: dict[object, chess.Move | None]
) -> chess.Move | None:
    key = (moves, board._transposition_key())
    if key in known:
        return known[key]
    found: chess.Move | None = None
    candidates = list(board.legal_moves)
    checks = [move for move in candidates if board.gives_check(move)]
    if moves > 1:
        marked = set(checks)
        checks += [move for move in candidates if move not in marked]
    for move in checks:
        nodes.spend()
        board.push(move)
        try:
            mated = _helpless(board, moves - 1, nodes, known)
        finally:
            board.pop()
        if mated:
            found = move
            break
    known[key] = found
    return found


def _helpless(board: chess.Board, moves: int, nodes: Nodes, known: dict[object, chess.Move | None]) -> bool:
    """Whether the side to move is mated, or will be in `moves` moves whatever it does."""
    if not moves:
        return board.is_checkmate()
    any_reply = False
    for reply in board.legal_moves:
        any_reply = True
        board.push(reply)
        try:
            # The draw by dead position needs no care here: a side that can mate is not dead.
            forced = _attack(board, moves, nodes, known)
        finally:
            board.pop()
        if forced is None:
            return False
    return any_reply or board.is_check()
