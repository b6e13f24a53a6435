"""Asking the board: a question in words, answered proved or as not known; never a guess."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import chess

from player.wording.asked import blows, danger, game, lines, men, moves, pawns, places, rules
from player.wording.asked.forms import Query, kinds, looks_asked, query_of
from player.wording.asked.reply import BoardReply, Scene

__all__ = [
    "CAN_BE_ASKED",
    "BoardReply",
    "Query",
    "answer_query",
    "ask_board",
    "kinds",
    "looks_asked",
    "query_of",
]

CAN_BE_ASKED = (
    "You can ask what attacks or guards a square, what is pinned, hanging or undefended, where a man can go, "
    "which squares are safe for it, what is threatened, what "
    "changed, which checks, captures and mates there are, "
    "about files, pawns, castling and material, or why not a move."
)

_ANSWERS: dict[str, Callable[[Scene], BoardReply]] = {
    "attackers": men.attackers,
    "guards": men.guards,
    "attack count": men.attack_count,
    "guard count": men.guard_count,
    "is attacked": men.is_attacked,
    "is guarded": men.is_guarded,
    "hits": men.hits,
    "sees": men.sees,
    "unguarded": danger.unguarded_men,
    "attacked men": danger.men_attacked,
    "hanging": danger.hanging_men,
    "is hanging": danger.is_hanging,
    "pins": danger.all_pins,
    "is pinned": danger.is_pinned,
    "pinned to": danger.pinned_to,
    "what on": places.what_on,
    "shade": places.shade,
    "where": places.where,
    "how many men": places.how_many_men,
    "worth": places.worth,
    "moves": moves.man_moves,
    "move count": moves.man_moves,
    "safe": moves.safe,
    "is safe": moves.is_safe,
    "side moves": moves.side_moves,
    "reach": moves.reach,
    "takes": moves.takes,
    "captures of": blows.captures_of,
    "captures": blows.captures,
    "checks": blows.checks,
    "mates": blows.mate_moves,
    "forks": blows.fork_moves,
    "threats": blows.threatened,
    "last move": rules.last_move,
    "changed": rules.what_changed,
    "legal": rules.legal,
    "castle": rules.castle,
    "why not castle": rules.why_not_castle,
    "en passant": rules.en_passant,
    "file": lines.file,
    "files": lines.files,
    "line": lines.line,
    "long diagonal": lines.long_diagonal,
    "between": lines.between,
    "outpost": pawns.outpost,
    "outposts": pawns.outposts,
    "pawns": pawns.pawns,
    "pawn": pawns.pawn,
    "queens": pawns.queens,
    "run length": pawns.run_length,
    "turn": game.turn,
    "is turn": game.is_turn,
    "material": game.material,
    "in check": game.in_check,
    "is mate": game.is_mate,
    "stalemate": game.stalemate,
    "draw": game.draw,
    "best result": game.best_result,
    "repetition": game.repetition,
    "fifty": game.fifty,
    "opposition": game.opposition,
    "bishop pair": game.bishop_pair,
    "opposite bishops": game.opposite_bishops,
    "rooks connected": game.rooks_connected,
    "move number": game.move_number,
    "prove": game.prove_it,
    "judgement": game.judgement,
}


def ask_board(
    board: chess.Board,
    words: str,
    *,
    me: chess.Color | None = None,
    before: chess.Board | None = None,
    language: str = "en",
) -> BoardReply | None:
    """The answer to a question about a board with its moves, or None where it has no known form.

    `me` is the side of the one who asks ("my", "I"; the side to move where it is None); `before` is an
    earlier board that "what changed" compares with. "why not MOVE" gets a reply whose `kind` is "why not" and
    whose `about` has the move's words: `learn` knows more of that than the board alone. Never raises.
    """
    query = query_of(words)
    return None if query is None else answer_query(query, board, me=me, before=before, language=language)


def answer_query(
    query: Query,
    board: chess.Board,
    *,
    me: chess.Color | None = None,
    before: chess.Board | None = None,
    language: str = "en",
) -> BoardReply:
    """The answer to a question already understood."""
    if query.kind == "why not":
        return BoardReply("", "unknown", kind="why not", about=query.word)
    scene = Scene(board.copy(), query, board.turn if me is None else me, before, language)
    return replace(_ANSWERS[query.kind](scene), kind=query.kind)
