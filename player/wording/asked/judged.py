"""Answers to what the board cannot prove: that it is not known."""

from __future__ import annotations

import chess

from player.facts.balance import ahead_by, in_words
from player.facts.place import is_playable
from player.wording.asked.game import best_result
from player.wording.asked.played import over_now, short
from player.wording.asked.reply import BoardReply, Scene, capital, unknown
from player.wording.hear import MoveHeard, hear

_JUDGED = {
    "best": "Which move is best is a judgement, and nobody has said. 'what if' lets you try one.",
    "answer": "Which move is best is a judgement, and nobody has said. 'what if' lets you try one.",
    "should": "That is a judgement, and nobody has said; it is not known. 'what if' lets you try a move.",
    "zugzwang": "Whether every move only harms is not known; the board cannot prove it.",
    "space": "That is a judgement the board cannot prove; it is not known.",
    "opening": "What the opening is called is not known here; the coach may tell.",
}


def _ends(scene: Scene) -> str:
    """That the move a judgement is asked of is mate or stalemate; "" where it is neither."""
    named = next((str(thing) for tag, thing in scene.query.things if tag == "V"), "")
    heard = hear(scene.board, named, language=scene.language) if named and is_playable(scene.board) else None
    if not isinstance(heard, MoveHeard):
        return ""
    then = scene.board.copy(stack=False)
    then.push(heard.move)
    how = "mate" if then.is_checkmate() else "stalemate, a draw" if then.is_stalemate() else ""
    return capital(f"{short(scene.board, heard.move)} is {how}.") if how else ""


def judgement(scene: Scene) -> BoardReply:
    """What the board cannot prove: it is the coach's to judge."""
    word = scene.query.word
    ends = _ends(scene)
    if ends:
        return BoardReply(ends)
    if word in _JUDGED:
        return unknown(_JUDGED[word])
    text = "That is a judgement the board cannot prove; it is not known unless the coach has said."
    if word != "better":
        return unknown(text)
    asked = "winning" in scene.query.said.casefold()
    if asked and is_playable(scene.board) and not scene.board.is_game_over():
        known = best_result(scene)
        if known.standing != "unknown":
            return known
    if is_playable(scene.board) and scene.board.is_game_over():
        return BoardReply(over_now(scene.board))
    return unknown(f"{text} {in_words(ahead_by(scene.board, chess.WHITE), chess.WHITE)}")
