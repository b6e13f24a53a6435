"""Every finding judged a second time, slowly, from what it is meant to say.

Attacks are counted with the oracle; captures, mates and orders are played out anew. `False` or a sentence in
`wrong` means that something was said that is not so.
"""

from __future__ import annotations

import chess

from player.facts.replies.finding import Deed, Drawback, Finding
from player.facts.replies.question import Question
from tests.oracle import exact
from tests.oracle.material import TooLong, balance

VALUES = {1: 1, 2: 3, 3: 3, 4: 5, 5: 9, 6: 0}


def wrong(asked: Question, found: Finding) -> list[str]:
    """What is not so in a finding; [] where all is (TooLong where the captures cannot be played out)."""
    board = asked.board.copy(stack=False)
    after = played(board, found.move)
    bad: list[str] = []
    if found.kind == "stalemate":
        bad += [] if after.is_stalemate() else ["no stalemate"]
    if found.kind == "mate":
        assert found.reply is not None
        bad += [] if mates(after, found.reply, found.count) else ["no mate"]
        if found.cause == "stands":
            bad += [] if mates(passed(board), found.reply, 1) else ["no threat of mate before"]
    if found.kind in ("wins", "fork", "pin", "skewer", "attack"):
        bad += punished(board, after, found)
    if found.kind in ("missed mate", "mates too"):
        bad += mate_missed(asked, board, found)
    if found.kind in ("missed win", "wins too"):
        bad += win_missed(asked, board, found)
    if found.kind == "order":
        bad += order(asked, found)
    if found.kind == "sound" and asked.answer is not None and found.misses:
        bad.append("sound, and yet something is missing")
    answer = asked.answer.move if asked.answer is not None else None
    bad += [f"does not do {deed}" for deed in found.merits if not does(board, found.move, deed)]
    for deed in found.misses:
        if answer is None or not does(board, answer, deed):
            bad.append(f"the answer does not do {deed}")
        if not left_undone(board, after, found.move, deed):
            bad.append(f"does it all the same: {deed}")
    bad += [f"not so: {one}" for one in found.drawbacks if not spoils(board, found.move, one)]
    return bad


def played(board: chess.Board, move: chess.Move) -> chess.Board:
    after = board.copy(stack=False)
    after.push(move)
    return after


def passed(board: chess.Board) -> chess.Board:
    return played(board, chess.Move.null())


def mates(board: chess.Board, move: chess.Move, moves: int) -> bool:
    """Whether a move mates in exactly or at most so many moves, whatever the other side does."""
    if move not in board.legal_moves:
        return False
    after = played(board, move)
    if after.is_checkmate():
        return True
    answers = list(after.legal_moves)
    return moves > 1 and bool(answers) and all(
        any(mates(played(after, answer), again, moves - 1) for again in played(after, answer).legal_moves)
        for answer in answers
    )  # fmt: skip


def gain(board: chess.Board, move: chess.Move) -> int:
    taken = 0
    if board.is_capture(move):
        taken = 1 if board.is_en_passant(move) else VALUES[board.piece_type_at(move.to_square) or 1]
    return taken + (VALUES[move.promotion] - 1 if move.promotion else 0)


def best_captures(
    board: chess.Board, low: int = -1000, high: int = 1000, left: list[int] | None = None
) -> int:
    """What the side to move gains by captures, both sides free to stop."""
    left = [60_000] if left is None else left
    left[0] -= 1
    if left[0] < 0:
        raise TooLong
    best, stands = 0, balance(board, board.turn)
    takes = [move for move in board.legal_moves if board.is_capture(move)]
    takes.sort(key=lambda move: VALUES[board.piece_type_at(move.from_square) or 1] - 10 * gain(board, move))
    for move in takes:
        if best >= high:
            break
        then = played(board, move)
        got = balance(then, board.turn) - stands
        best = max(best, got - best_captures(then, got - high, got - max(best, low), left))
    return best


def keeps(board: chess.Board, move: chess.Move, amount: int) -> bool:
    """Whether a move wins so much against every answer, none of which mates."""
    after = played(board, move)
    answers = list(after.legal_moves)
    if not answers:
        return after.is_checkmate()
    for answer in answers:
        then = played(after, answer)
        if then.is_checkmate() or then.is_stalemate():
            return False
        ahead = gain(board, move) - gain(after, answer)
        if ahead < amount and ahead + best_captures(then, amount - ahead - 1, amount - ahead) < amount:
            return False
    return True


def punished(board: chess.Board, after: chess.Board, found: Finding) -> list[str]:
    reply = found.reply
    assert reply is not None
    if reply not in after.legal_moves:
        return ["the reply is not legal"]
    bad: list[str] = []
    if not keeps(after, reply, found.gain + gain(board, found.move)):
        bad.append(f"it does not win {found.gain}")
    then = played(after, reply)
    backs = {one.from_square for one in then.legal_moves if one.to_square == reply.to_square}
    if found.kind == "wins":
        if (found.back is None) != (not backs) or (found.back is not None and found.back not in backs):
            bad.append("who takes back is not so")
        guards = [at for at in board.piece_map() if at == found.move.from_square]
        if found.cause == "stands" and not keeps_by_captures(passed(board), reply):
            bad.append("it did not stand attacked")
        if found.cause == "goes there" and found.square != found.move.to_square:
            bad.append("it goes elsewhere")
        if found.cause == "unguarded":
            had = found.square in board.attacks(guards[0])
            has = exact.hitting(after, board.turn, found.square)
            bad += [] if had and not has else ["it was not the guard, or others are left"]
        return bad
    if found.kind == "fork" and any(square not in then.attacks(reply.to_square) for square in found.men):
        bad.append("it does not hit them all")
    if found.kind in ("pin", "skewer"):
        front, behind = found.men
        step = exact.direction(reply.to_square, front)
        line = exact.walk(front, step) if step else []
        if front not in then.attacks(reply.to_square) or behind not in line:
            bad.append("they are not on one line")
    return bad


def keeps_by_captures(board: chess.Board, move: chess.Move) -> bool:
    return move in board.legal_moves and gain(board, move) - best_captures(played(board, move)) >= 1


def mate_missed(asked: Question, board: chess.Board, found: Finding) -> list[str]:
    assert asked.answer is not None
    bad = [] if mates(board, asked.answer.move, found.count) or found.kind == "mates too" else ["no mate"]
    if mates(board, found.move, found.count) != (found.kind == "mates too"):
        bad.append("it mates too, or not")
    return bad


def win_missed(asked: Question, board: chess.Board, found: Finding) -> list[str]:
    assert asked.answer is not None
    bad = [] if keeps(board, asked.answer.move, found.gain) else ["the answer does not win that"]
    if keeps(board, found.move, found.gain) != (found.kind == "wins too"):
        bad.append("it wins as much, or not")
    return bad


def order(asked: Question, found: Finding) -> list[str]:
    told = asked.told[: found.count * 2 + 1]
    ends = []
    mine, theirs = [told[-1], *told[:-1:2]], list(told[1::2])
    mixed = [mine.pop(0) if index % 2 == 0 else theirs.pop(0) for index in range(len(told))]
    for line in (told, mixed):
        board = asked.board.copy(stack=False)
        for move in line:
            if move not in board.legal_moves:
                return ["an order is not legal"]
            board.push(move)
        ends.append(board.epd())
    return [] if ends[0] == ends[1] and told[-1] == found.move else ["it is not the same position"]


def free(board: chess.Board, square: int) -> set[int]:
    """The empty squares that the man there looks at."""
    return {at for at in board.attacks(square) if board.piece_at(at) is None}


def does(board: chess.Board, move: chess.Move, deed: Deed) -> bool:
    """Whether a move does this, from the meaning of the words."""
    after, us, square = played(board, move), board.turn, deed.square
    mover = board.piece_type_at(move.from_square)
    fresh = set(after.attacks(move.to_square)) - set(board.attacks(move.from_square))
    if deed.kind in ("check", "mate"):
        return exact.checks(board, move, "check") and (deed.kind == "check" or after.is_checkmate())
    if deed.kind == "castles":
        return board.is_castling(move)
    if deed.kind == "promotes":
        return move.promotion == deed.other
    if deed.kind == "takes":
        return board.is_capture(move) and after.piece_at(square) != board.piece_at(square)
    if deed.kind == "meets mate":
        could = [one for one in passed(board).legal_moves if played(passed(board), one).is_checkmate()]
        return bool(could) and not any(played(after, one).is_checkmate() for one in after.legal_moves)
    if deed.kind == "meets":
        now = move.to_square if square == move.from_square else square
        could = [one for one in passed(board).legal_moves if one.to_square == square]
        still = [one for one in after.legal_moves if one.to_square == now and after.is_capture(one)]
        before = any(keeps_by_captures(passed(board), one) for one in could)
        stood = board.color_at(square) == us
        return stood and before and not any(keeps_by_captures(after, one) for one in still)
    if deed.kind == "outpost":
        return exact.outpost(after, square, us) and square == move.to_square
    if deed.kind == "pins":
        return after.is_pinned(not us, square) and not board.is_pinned(not us, square)
    if deed.kind in ("hits", "chases", "presses"):
        return square in fresh and after.color_at(square) == (not us)
    if deed.kind == "uncovers":
        return exact.discovers(board, move, square)
    if deed.kind == "guards":
        return square in fresh and after.color_at(square) == us and exact.hitting(after, not us, square) > 0
    if deed.kind == "centre":
        return (
            mover == chess.PAWN and square == move.to_square and chess.SQUARE_NAMES[square] in "d4 e4 d5 e5"
        )
    if deed.kind == "develops":
        home = "b1 g1 c1 f1" if us else "b8 g8 c8 f8"
        return mover in (2, 3) and chess.SQUARE_NAMES[square] in home and square == move.from_square
    if deed.kind == "opens":
        more = len(free(after, square)) > len(free(board, square))
        return more and len(free(after, square) - free(board, square)) >= 2 and square != move.to_square
    if deed.kind == "file":
        state = "half-open" if deed.other else "open"
        return mover == chess.ROOK and exact.file_state(after, square & 7, state, us)
    if deed.kind == "seventh":
        return mover == chess.ROOK and square >> 3 == (6 if us else 1)
    if deed.kind == "connects":
        return exact.rooks_connected(after, us) and not exact.rooks_connected(board, us)
    if deed.kind == "passed":
        return exact.pawn_is(after, square, "passed")
    if deed.kind == "opposition":
        return exact.opposition(after, us)
    if deed.kind == "nearer":
        return mover == chess.KING
    if deed.kind == "room":
        king = after.king(us)
        stepped = after.copy(stack=False)
        stepped.turn = us
        return king is not None and chess.Move(king, square) in stepped.pseudo_legal_moves
    if deed.kind == "bars":
        pawns = [at for at in board.pieces(chess.PAWN, us) if square in board.attacks(at)]
        return not pawns and square in fresh and square in after.attacks(deed.other)
    assert deed.kind in ("eyes", "looks")
    return square in fresh and after.color_at(square) is None


def left_undone(board: chess.Board, after: chess.Board, move: chess.Move, deed: Deed) -> bool:
    """Whether the words for a deed left undone are so."""
    us, square = board.turn, deed.square
    new = {
        at
        for at, man in after.piece_map().items()
        if man.color == us and square >= 0 and square in after.attacks(at)
    }
    old = {
        at
        for at, man in board.piece_map().items()
        if man.color == us and square >= 0 and square in board.attacks(at)
    }
    if deed.kind == "check":
        return not after.is_check()
    if deed.kind == "castles":
        return after.king(us) == board.king(us)
    if deed.kind == "takes":
        return after.color_at(square) == (not us)
    if deed.kind == "promotes":
        return not move.promotion
    if deed.kind in ("hits", "uncovers", "chases", "presses"):
        return not new - old and after.color_at(square) == (not us)
    if deed.kind == "guards":
        return not new - old and after.color_at(square) == us
    if deed.kind in ("eyes", "looks"):
        return not new - old
    if deed.kind == "centre":
        return not {move.from_square, move.to_square} & {27, 28, 35, 36}
    if deed.kind == "outpost":
        minor = board.piece_type_at(move.from_square) in (2, 3)
        return after.color_at(square) != us and not (minor and exact.outpost(after, move.to_square, us))
    if deed.kind == "develops":
        return after.piece_at(square) == board.piece_at(square)
    if deed.kind == "opens":
        fresh = free(after, square) - free(board, square)
        return after.piece_at(square) == board.piece_at(square) and not fresh
    if deed.kind in ("file", "seventh"):
        rooks = after.pieces(chess.ROOK, us)
        return not any(
            at & 7 == square & 7 if deed.kind == "file" else at >> 3 == square >> 3 for at in rooks
        )
    if deed.kind == "connects":
        return not exact.rooks_connected(after, us)
    if deed.kind == "opposition":
        return not exact.opposition(after, us)
    if deed.kind == "room":
        return after.piece_at(square) is not None
    assert deed.kind == "bars"
    return not any(square in after.attacks(at) for at in after.pieces(chess.PAWN, us))


def spoils(board: chess.Board, move: chess.Move, one: Drawback) -> bool:
    """Whether the words for a drawback are so."""
    after, us, square = played(board, move), board.turn, one.square
    if one.kind == "castling gone":
        return not exact.lost_castling(board, us) and exact.lost_castling(after, us)
    if one.kind == "before king":
        king = after.king(us)
        return king is not None and abs((king & 7) - (move.from_square & 7)) <= 1
    if one.kind == "chased":
        steps = [step for step in after.legal_moves if step.to_square == one.other]
        return any(
            after.piece_type_at(step.from_square) == 1 and square in played(after, step).attacks(one.other)
            for step in steps
        )
    if one.kind == "unguards":
        return exact.hitting(after, us, square) == 0 < exact.hitting(board, us, square)
    if one.kind in ("gives bishop", "retaken"):
        return any(reply.to_square == move.to_square for reply in after.legal_moves)
    if one.kind == "in front":
        return move.to_square - square == (8 if us else -8) and after.piece_type_at(square) == 1
    if one.kind == "shuts":
        return len(after.attacks(square)) < len(board.attacks(square))
    if one.kind == "isolates":
        return exact.pawn_is(after, square, "isolated")
    if one.kind == "doubles":
        return exact.pawn_is(after, square, "doubled")
    if one.kind == "again":
        return after.piece_type_at(square) in (2, 3) and after.color_at(square) == us
    if one.kind == "rim":
        return square & 7 in (0, 7) and one.other == sum(
            after.color_at(at) != us for at in after.attacks(square)
        )
    assert one.kind == "home"
    return square >> 3 == (0 if us else 7)


__all__ = ["TooLong", "wrong"]
