"""Answers about which moves do a thing that few do; and two questions answered together."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

import chess

from player.facts.claim import Claim
from player.wording.asked.forms import query_of
from player.wording.asked.moves import given_to
from player.wording.asked.played import plainly
from player.wording.asked.reply import BoardReply, Scene, capital, count, unknown
from player.wording.names import colour_name, listed

_SHOWN = 8
_DOES: dict[str, Callable[[chess.Board, chess.Move], bool]] = {
    "stalemate": lambda then, move: then.is_stalemate(),
    "double check": lambda then, move: len(then.checkers()) > 1,
    "discovered check": lambda then, move: any(s != move.to_square for s in then.checkers()),
}


def _does(board: chess.Board, move: chess.Move, word: str) -> bool:
    then = board.copy(stack=False)
    then.push(move)
    return _DOES[word](then, move)


def moves_that(scene: Scene) -> BoardReply:
    """Which legal moves would be stalemate, double check or discovered check."""
    word = scene.query.word
    man = scene.query.men[0] if scene.query.men else None
    side = scene.side if man is None or not man.side else scene.colour(man.side)
    given = given_to(scene, scene.board.turn if side is None else side)
    if isinstance(given, BoardReply):
        return given
    found = [move for move in given.legal_moves if _does(given, move, word)]
    if man is not None:
        found = [move for move in found if move.from_square in scene.men(man)]
    who = colour_name(given.turn)
    if not found:
        return BoardReply(f"None: {who} has no such move.", yes=False, number=0)
    said = listed([plainly(given, move) for move in found[:_SHOWN]])
    more = f", and {len(found) - _SHOWN} more" if len(found) > _SHOWN else ""
    would = "would be" if word == "stalemate" else "gives" if len(found) == 1 else "give"
    text = f"{capital(count(len(found), 'move'))} of {who}'s {would} {word}: {said}{more}."
    return BoardReply(text, moves=tuple(found), number=len(found), yes=True)


def discovered(scene: Scene) -> BoardReply:
    """Whether the check given now is a discovered one, by the move that was made."""
    by = scene.board.checkers()
    if not by:
        return BoardReply("No: nobody is in check.", yes=False)
    if scene.last is None:
        return unknown("Which move gave the check is not known here.")
    others = [s for s in by if s != scene.last.move.to_square]
    castled = scene.last.before.is_castling(scene.last.move)
    if others and not castled:
        text = f"Yes: the check comes from {scene.the(others)}, which did not move."
        return BoardReply(text, yes=True, squares=tuple(others))
    return BoardReply(f"No: {scene.the(by)} moved to give it.", yes=False)


def skewers(scene: Scene) -> BoardReply:
    """Which moves skewer: attack a man with one worth no more behind it, which is then won."""
    given = given_to(scene, scene.board.turn if scene.side is None else scene.side)
    if isinstance(given, BoardReply):
        return given
    sliders = given.bishops | given.rooks | given.queens
    for move in given.legal_moves:
        if not chess.BB_SQUARES[move.from_square] & sliders:
            continue
        for front, behind in _lines(given, move):
            claim = Claim("skewers", move=given.san(move), squares=(front, behind))
            found = replace(scene, board=given).proved(claim)
            if found.yes:
                text = f"Yes: {plainly(given, move)}. {found.text.partition('. ')[2]}".strip()
                return BoardReply(text, yes=True, moves=(move,), squares=(front, behind))
    return unknown(f"None that captures prove, for {colour_name(given.turn)}.")


def _lines(board: chess.Board, move: chess.Move) -> list[tuple[chess.Square, chess.Square]]:
    """The pairs of enemy men, one behind the other, that the man would look through after its move."""
    then = board.copy(stack=False)
    then.push(move)
    out = []
    for front in chess.SquareSet(then.attacks(move.to_square) & then.occupied_co[then.turn]):
        bare = then.copy(stack=False)
        bare.remove_piece_at(front)
        fresh = bare.attacks(move.to_square) - then.attacks(move.to_square)
        out += [(front, behind) for behind in fresh & then.occupied_co[then.turn]]
    return out


def two(scene: Scene) -> BoardReply:
    """Two questions in one: both answered, or the first, and so said."""
    from player.wording.asked import answer_query

    replies = []
    for line in scene.query.inner.splitlines():
        query = query_of(line)
        if query is None or query.kind == "two":
            return unknown("One question at a time, please.")
        replies.append(
            answer_query(query, scene.board, me=scene.me, before=scene.before, language=scene.language)
        )
    if scene.query.word == "first":
        return replace(replies[0], text=f"{replies[0].text} That answers the first of two questions.")
    one, other = replies
    one = replace(one, moves=one.moves + other.moves, squares=one.squares or other.squares)
    if re.search(r"\bor (?:not )?(?:a )?\w+$", scene.query.said.strip(" ?.")) and {one.yes, other.yes} == {
        True,
        False,
    }:
        reply = one if one.yes else other
        return replace(reply, text=capital(re.sub(r"^Yes[,:.] ", "", reply.text)))
    said = [part for part in re.split(r"(?<=\.) ", other.text) if part not in one.text]
    text = " ".join([one.text, *said])
    standings = {one.standing, other.standing}
    if standings == {"unknown"}:
        return replace(one, text=text, standing="unknown")
    return replace(one, text=text, standing="search" if "search" in standings else "board")
