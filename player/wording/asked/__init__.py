"""Asking the board: a question in words, answered proved or as not known; never a guess."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import chess

from player.facts.place import is_playable
from player.wording.asked import (
    after,
    against,
    blows,
    captured,
    danger,
    escapes,
    finds,
    forked,
    game,
    history,
    judged,
    kinds_of,
    lines,
    men,
    moves,
    pawns,
    places,
    promoting,
    rules,
    shades,
    standing,
    taking,
    trades,
    verdicts,
)
from player.wording.asked.forms import Query, kinds, looks_asked, query_of
from player.wording.asked.near import CAN_BE_ASKED, nearby
from player.wording.asked.reply import BoardReply, Scene, unknown

__all__ = [
    "ALL_CAN_BE_ASKED",
    "CAN_BE_ASKED",
    "BoardReply",
    "Query",
    "answer_query",
    "ask_board",
    "kinds",
    "looks_asked",
    "nearby",
    "query_of",
]

ALL_CAN_BE_ASKED = (
    "You can ask what attacks or guards a square, what is pinned, hanging or undefended, where a man can go, "
    "which squares are safe for it, what is threatened, what changed, which checks, captures and mates there "
    "are, the ways out of check, what happens after a move, what has been played, about files, pawns, "
    "castling and material, or why not a move."
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
    "moves that": finds.moves_that,
    "discovered": finds.discovered,
    "skewers": finds.skewers,
    "two": finds.two,
    "just took": captured.just_took,
    "has both": kinds_of.has_both,
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
    "takes": taking.takes,
    "captures of": blows.captures_of,
    "captures": blows.captures,
    "checks": blows.checks,
    "mates": blows.mate_moves,
    "forks": blows.fork_moves,
    "threats": blows.threatened,
    "last move": rules.last_move,
    "changed": rules.what_changed,
    "legal": verdicts.legal,
    "only move": verdicts.only_move,
    "after": after.after,
    "stops": after.stops,
    "safe move": after.safe_move,
    "wins": after.wins,
    "hits by move": standing.hits,
    "then": standing.then_asked,
    "each has": kinds_of.each_has,
    "more of": kinds_of.more_of,
    "who has": kinds_of.who_has,
    "on shade": shades.on_shade,
    "shade bishop": kinds_of.shade_bishop,
    "trapped": kinds_of.trapped,
    "why stuck": kinds_of.why_stuck,
    "balance of": trades.enough,
    "hits by": men.hits_by,
    "checkers": escapes.checkers,
    "double check": escapes.double_check,
    "ways out": escapes.ways_out,
    "stop mate": escapes.stop_mate,
    "where to go": escapes.where_to_go,
    "has move": escapes.has_move,
    "moves so far": history.so_far,
    "nth move": history.nth_move,
    "moves made": history.moves_made,
    "last taken": history.last_taken,
    "any taken": history.any_taken,
    "castled": history.castled,
    "has moved": history.has_moved,
    "who won": history.who_won,
    "is over": history.is_over,
    "wins something": trades.wins_something,
    "trade": trades.trade,
    "king safe": trades.king_safe,
    "weak": trades.weak,
    "promotes": promoting.promotes,
    "pawn hits": promoting.pawn_hits,
    "on file": promoting.on_file,
    "on open file": promoting.on_open_file,
    "behind": promoting.behind,
    "islands": promoting.islands,
    "is fork": forked.is_fork,
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
    "opposite bishops": shades.opposite_bishops,
    "rooks connected": game.rooks_connected,
    "move number": game.move_number,
    "can be asked": lambda _: BoardReply(ALL_CAN_BE_ASKED, "unknown"),
    "prove": game.prove_it,
    "judgement": judged.judgement,
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
    whose `about` has the move's words: at a question `learn` knows more of that than the board alone. Never
    raises.
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
        reply = unknown("Nobody can move on this board.")
        if is_playable(board):
            reply = against.against_words(board.copy(), query.word, language=language)
        return replace(reply, kind="why not", about=query.word)
    asker = _asker(query, board, board.turn if me is None else me)
    scene = Scene(board.copy(), query, asker, before, language)
    return replace(_ANSWERS[query.kind](scene), kind=query.kind)


def _asker(query: Query, board: chess.Board, me: chess.Color) -> chess.Color:
    """Who asks: the other side where "my" man is one that only the other side has."""
    mine = [man for man in query.men if man.side == "me"]
    for man in mine:
        scene = Scene(board, query, me)
        if not scene.men(man) and Scene(board, query, not me).men(man):
            return not me
    return me
