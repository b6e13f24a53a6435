"""Answers about winning something, trading men, and whether a king is safe."""

from __future__ import annotations

import chess

from player.facts.exchange import OutOfNodes, profit
from player.facts.seen_moves import Threat, mates, threats
from player.wording.asked.against import worth_words
from player.wording.asked.moves import given_to
from player.wording.asked.played import short, taken_at
from player.wording.asked.reply import BoardReply, Scene, capital, unknown
from player.wording.names import colour_name, listed, name

_TOO_LONG = "It would take more looking than there is time for; it is not known."


def _least(scene: Scene) -> tuple[int, str]:
    """How much is asked about, in pawns, and the words for it."""
    low = scene.query.said.casefold()
    if "piece" in low or "knight" in low or "bishop" in low:
        return 2, "a piece"
    if "rook" in low or "queen" in low or "exchange" in low:
        return 2, "that"
    return 1, "a pawn" if "pawn" in low else "anything"


def wins_something(scene: Scene) -> BoardReply:
    """Whether a side can win something with its move, by captures or a mate in one; or threatens to."""
    threat = "threat" in scene.query.said.casefold()
    side = scene.board.turn if scene.side is None else scene.side
    given = given_to(scene, side)
    if isinstance(given, BoardReply):
        return given
    found, whole = threats(given, scene.nodes)
    least, what = _least(scene)
    kind = next((man.kind for man in scene.query.men if man.kind not in (None, chess.PAWN)), None)
    fits = [one for one in found if one.gain is None or (one.gain >= least and _of_kind(given, one, kind))]
    who = colour_name(side)
    if not fits:
        if not whole:
            return unknown(_TOO_LONG)
        verb = "threatens to win" if threat else "wins"
        nothing = "nothing" if what == "anything" else "no such thing"
        return unknown(f"By captures alone {who} {verb} {nothing}; more than that is not looked at.")
    first = fits[0]
    if first.gain is None:
        lead = "threatens mate" if threat else "Better, there is mate"
        return BoardReply(
            capital(f"{'Yes, ' + who + ' ' if threat else ''}{lead}: {short(given, first.move)}."), yes=True,
            moves=(first.move,),
        )  # fmt: skip
    said = listed([short(given, one.move) for one in fits[:2]], "or")
    worth = worth_words(first.gain)
    verb = "would win" if threat or side != scene.board.turn else "wins"
    return BoardReply(
        f"Yes, by captures: {said} {verb} {worth}.", yes=True, moves=tuple(one.move for one in fits)
    )


def _of_kind(board: chess.Board, one: Threat, kind: chess.PieceType | None) -> bool:
    victim = taken_at(board, one.move)
    return kind is None or (victim is not None and board.piece_type_at(victim) == kind)


def trade(scene: Scene) -> BoardReply:
    """Whether a side can take a man with a man of its own kind, and what then takes back."""
    side = scene.board.turn if scene.side is None else scene.side
    given = given_to(scene, side)
    if isinstance(given, BoardReply):
        return given
    kind = scene.query.men[0].kind if scene.query.men else None
    if kind is None or kind == chess.KING:
        return unknown("Name a kind of man, such as the queens.")
    moves = [
        m
        for m in given.generate_legal_captures()
        if given.piece_type_at(m.from_square) == kind and given.piece_type_at(taken_at(given, m) or 0) == kind
    ]
    who, men = colour_name(side), f"{name(kind)}s"
    if not moves:
        return BoardReply(f"No: no {name(kind)} of {who}'s can take {'one' if kind else ''} now.", yes=False)
    move = moves[0]
    after = given.copy(stack=False)
    after.push(move)
    back = [m.from_square for m in after.generate_legal_captures() if m.to_square == move.to_square]
    could = "can" if side == scene.board.turn else "could, with the move,"
    if not back:
        text = f"{who} {could} do better: {short(given, move)}, and nothing takes back."
        return BoardReply(text, moves=tuple(moves), yes=True)
    scene_after = Scene(after, scene.query, scene.me)
    text = f"Yes: {short(given, move)}, and {scene_after.the(list(dict.fromkeys(back)))} can take back."
    assert men
    return BoardReply(text, moves=tuple(moves), yes=True)


def king_safe(scene: Scene) -> BoardReply:
    """What the board proves of a king's safety: check, a mate in one; the rest is a judgement."""
    danger = scene.query.word == "danger"
    named = scene.query.men[0].side if scene.query.men else scene.query.side
    colour = scene.colour(named) if named else None
    side = scene.board.turn if colour is None else colour
    king = scene.board.king(side)
    who = colour_name(side)
    if king is None:
        return BoardReply(f"{who} has no king.")
    by = scene.board.attackers(not side, king)
    lead = "Yes" if danger else "No"
    if by:
        mate = " and mated" if scene.board.turn == side and scene.board.is_checkmate() else ""
        return BoardReply(
            f"{lead}: {who} is in check{mate}, from {scene.the(by)}.", yes=danger, squares=tuple(by)
        )
    given = given_to(scene, not side)
    if isinstance(given, BoardReply):
        return given
    found = mates(given)
    if found:
        verb = "threatens mate" if scene.board.turn == side else "has mate"
        text = f"{lead}: {colour_name(not side)} {verb} with {short(given, found[0])}."
        return BoardReply(text, yes=danger, moves=tuple(found))
    return unknown(
        f"{who} is not in check, and no mate in one is threatened. "
        "More than that is a judgement; it is not known."
    )


def weak(scene: Scene) -> BoardReply:
    """Weakness is a judgement: how often a square is attacked and guarded is not."""
    squares = scene.query.squares
    if not squares and scene.query.men:
        squares = scene.men()
    if len(squares) != 1:
        return unknown(
            "What is weak is a judgement; it is not known. Ask which men are unguarded or hanging."
        )
    square, board = squares[0], scene.board
    side = board.color_at(square)
    here = scene.the([square], sides=True) if side is not None else chess.SQUARE_NAMES[square]
    if side is None:
        white, black = (len(board.attackers(one, square)) for one in (True, False))
        counts = f"White looks at {here} {_times(white)}, Black {_times(black)}"
    else:
        attacked, guarded = len(board.attackers(not side, square)), len(board.attackers(side, square))
        counts = f"{here} is attacked {_times(attacked)} and guarded {_times(guarded)}"
    return unknown(f"Weak is a judgement; it is not known. {capital(counts)}.")


def _times(number: int) -> str:
    words = ("not at all", "once", "twice")
    return words[number] if number < len(words) else f"{number} times"


def enough(scene: Scene) -> BoardReply:
    """Whether a square is attacked more often than it is guarded, or guarded enough."""
    squares = scene.query.squares or scene.men()
    if not squares:
        return BoardReply(scene.absent())
    square, board = squares[0], scene.board
    side = board.color_at(square)
    if side is None:
        white, black = (len(board.attackers(one, square)) for one in (True, False))
        here = chess.SQUARE_NAMES[square]
        return BoardReply(f"White looks at {here} {_times(white)}, Black {_times(black)}.")
    attacked, guarded = len(board.attackers(not side, square)), len(board.attackers(side, square))
    word = scene.query.word
    yes = attacked > guarded if word == "more" else guarded >= attacked
    lead = "Yes" if yes else "No"
    counts = f"it is attacked {_times(attacked)} and guarded {_times(guarded)}"
    if word == "less":
        lead = "Yes" if guarded > attacked else "No"
        yes = guarded > attacked
    if word != "enough":
        return BoardReply(f"{lead}: {counts}.", yes=yes)
    given = given_to(scene, not side)
    if isinstance(given, BoardReply):
        return given
    takes = [m for m in given.generate_legal_captures() if taken_at(given, m) == square]
    try:
        gain = max((profit(given, m, scene.nodes) for m in takes), default=0)
    except OutOfNodes:
        return unknown(_TOO_LONG)
    if gain >= 1:
        return BoardReply(f"No: {counts}, and by captures taking it wins {worth_words(gain)}.", yes=False)
    return BoardReply(f"Yes, by captures: {counts}, and taking it wins nothing.", yes=True)
