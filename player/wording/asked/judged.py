"""Answers to what the board cannot prove: that it is not known."""

from __future__ import annotations

import chess

from player.facts.balance import ahead_by, in_words
from player.facts.place import is_playable
from player.wording.asked.played import over_now
from player.wording.asked.reply import BoardReply, Scene, unknown

_JUDGED = {
    "best": "Which move is best is a judgement, and nobody has said. 'what if' lets you try one.",
    "answer": "Which move is best is a judgement, and nobody has said. 'what if' lets you try one.",
    "should": "That is a judgement, and nobody has said; it is not known. 'what if' lets you try a move.",
    "zugzwang": "Whether every move only harms is not known; the board cannot prove it.",
    "space": "That is a judgement the board cannot prove; it is not known.",
    "opening": "What the opening is called is not known here; the coach may tell.",
}


def judgement(scene: Scene) -> BoardReply:
    """What the board cannot prove: it is the coach's to judge."""
    word = scene.query.word
    if word in _JUDGED:
        return unknown(_JUDGED[word])
    text = "That is a judgement the board cannot prove; it is not known unless the coach has said."
    if word != "better":
        return unknown(text)
    if is_playable(scene.board) and scene.board.is_game_over():
        return BoardReply(over_now(scene.board))
    return unknown(f"{text} {in_words(ahead_by(scene.board, chess.WHITE), chess.WHITE)}")
