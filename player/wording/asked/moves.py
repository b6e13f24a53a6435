"""Answers about moves: where men can go, what is threatened, and castling."""

from __future__ import annotations

import chess

from player.facts.exchange import OutOfNodes
from player.facts.mates import forced_mate
from player.facts.seen import given_move
from player.facts.seen_moves import forks, mates, moves_of, safe_moves, threats, way_to
from player.wording.asked.men import targets
from player.wording.asked.reply import BoardReply, Scene, capital, count, names, unknown, yes_no
from player.wording.changes import changed
from player.wording.hear import Ambiguous, Illegal, MoveHeard, hear
from player.wording.names import colour_name, listed, man_at

_TOO_LONG = "It would take more looking than there is time for; it is not known."
_SHOWN = 12


def _given(scene: Scene, side: chess.Color) -> chess.Board | BoardReply:
    """The board with `side` to move, or why there is none."""
    given = given_move(scene.board, side)
    if given is not None:
        return given
    if scene.board.is_check():
        return unknown(f"{colour_name(scene.board.turn)} is in check and must meet that first.")
    return unknown("Nobody can move on this board.")


def _movers(scene: Scene) -> list[chess.Square] | BoardReply:
    """The men a question of moves means; with no side said, those of the side to move where there are any."""
    found = scene.men()
    if not found:
        return BoardReply(scene.absent())
    man = scene.query.men[0]
    if not man.side and man.square is None:
        own = [
            s
            for s in found
            if scene.board.color_at(s) == (scene.board.turn if scene.side is None else scene.side)
        ]
        found = own or found
    return found


def _would(scene: Scene, square: chess.Square) -> str:
    return "can" if scene.board.color_at(square) == scene.board.turn else "could, with the move,"


def man_moves(scene: Scene) -> BoardReply:
    found = _movers(scene)
    if isinstance(found, BoardReply):
        return found
    parts, all_moves, squares = [], [], []
    for square in found[:8]:
        given = _given(scene, bool(scene.board.color_at(square)))
        if isinstance(given, BoardReply):
            return given
        moves = moves_of(given, square)
        to = list(dict.fromkeys(move.to_square for move in moves))
        all_moves += moves
        squares += to
        who = capital(scene.the([square], sides=True))
        takes = [s for s in to if any(given.is_capture(m) for m in moves if m.to_square == s)]
        quiet = [s for s in to if s not in takes]
        said = [f"take on {names(takes)}"] * bool(takes) + [f"go to {names(quiet)}"] * bool(quiet)
        number = f" ({count(len(moves), 'move')})" if scene.query.kind == "move count" else ""
        if moves:
            parts.append(f"{who} {_would(scene, square)} {' and '.join(said)}{number}.")
        else:
            pinned = given.is_pinned(given.turn, square)
            parts.append(f"{who} is pinned to the king and has no move." if pinned else f"{who} has no move.")
    return BoardReply(
        " ".join(parts),
        squares=tuple(squares),
        number=len(all_moves),
        yes=bool(all_moves),
        moves=tuple(all_moves),
    )


def safe(scene: Scene) -> BoardReply:
    """Squares a man can go to where no capture of it would pay."""
    found = _movers(scene)
    if isinstance(found, BoardReply):
        return found
    parts, squares, all_moves = [], [], []
    for square in found[:4]:
        given = _given(scene, bool(scene.board.color_at(square)))
        if isinstance(given, BoardReply):
            return given
        try:
            moves = safe_moves(given, square, scene.nodes)
        except OutOfNodes:
            return unknown(_TOO_LONG)
        to = list(dict.fromkeys(move.to_square for move in moves))
        squares += to
        all_moves += moves
        who = scene.the([square], sides=True)
        if to:
            parts.append(f"{count(len(to), 'safe square').capitalize()} for {who}: {names(to)}.")
        else:
            parts.append(f"No square is safe for {who} to go to.")
    return BoardReply(
        " ".join(parts),
        squares=tuple(squares),
        number=len(squares),
        yes=bool(squares),
        moves=tuple(all_moves),
    )


def is_safe(scene: Scene) -> BoardReply:
    """Whether a man would be safe on a square, or is safe where it stands: no capture of it pays."""
    from player.wording.asked.men import is_hanging

    squares = [thing for thing in scene.query.all("S") if isinstance(thing, int)]
    if not squares:
        reply = is_hanging(scene)
        if reply.yes is None:
            return reply
        said = reply.text.partition(". ")[2]
        return BoardReply(f"{yes_no(not reply.yes)}. {said}", squares=reply.squares, yes=not reply.yes)
    found = safe(scene)
    if found.standing == "unknown" or found.yes is None:
        return found
    yes = squares[0] in found.squares
    here = chess.SQUARE_NAMES[squares[0]]
    reach = man_moves(scene)
    if not yes and squares[0] not in reach.squares:
        return BoardReply(f"No: it cannot go to {here}.", yes=False)
    text = (
        f"once there, no capture of it would pay on {here}."
        if yes
        else f"on {here} it could be taken at a profit."
    )
    return BoardReply(f"{yes_no(yes)}: {text}", yes=yes, squares=(squares[0],) if yes else ())


def side_moves(scene: Scene) -> BoardReply:
    side = scene.board.turn if scene.side is None else scene.side
    given = _given(scene, side)
    if isinstance(given, BoardReply):
        return given
    number = given.legal_moves.count()
    would = "has" if side == scene.board.turn else "would have, with the move,"
    return BoardReply(
        f"{colour_name(side)} {would} {count(number, 'legal move')}.", number=number, yes=bool(number)
    )


def reach(scene: Scene) -> BoardReply:
    """Whether, and how soon, a man reaches a square, the other men standing still and attacks left aside."""
    found = _movers(scene)
    if isinstance(found, BoardReply):
        return found
    goals = [thing for thing in scene.query.all("S") if isinstance(thing, int)]
    if not goals:
        return man_moves(scene)
    goal = goals[0]
    here = chess.SQUARE_NAMES[goal]
    best: tuple[int, chess.Square, list[chess.Square]] | None = None
    for square in found:
        way = way_to(scene.board, square, goal)
        if way is not None and (best is None or len(way) < best[0]):
            best = len(way), square, way
    once = scene.query.number == 1 or (
        " go " in f" {scene.query.said} " and "how" not in scene.query.said.casefold()
    )
    if best is not None and best[0] == 0:
        return BoardReply(f"It stands on {here} already.", number=0, yes=True)
    if best is not None and once and best[0] > 1:
        who = scene.the([best[1]], sides=True)
        return BoardReply(
            f"No, not in one move: {who} needs {best[0]}, by way of {names(best[2][:-1])}.",
            number=best[0],
            yes=False,
        )
    if best is None:
        return BoardReply(
            f"No: {scene.the(found, sides=True)} cannot reach {here} while the other men stand still.",
            yes=False,
        )
    who = scene.the([best[1]], sides=True)
    by = f", by way of {names(best[2][:-1])}" if best[0] > 1 else ""
    if best[0] == 1:
        given = given_move(scene.board, bool(scene.board.color_at(best[1])))
        if given is not None and not any(m.to_square == goal for m in moves_of(given, best[1])):
            return BoardReply(
                f"No: {who} may not move to {here}, for its king would stand in check.", yes=False
            )
    return BoardReply(
        f"Yes: {who} reaches {here} in {count(best[0], 'move')}{by}, if the other men stand still.",
        number=best[0],
        yes=True,
        squares=(goal,),
    )


def takes(scene: Scene) -> BoardReply:
    """Who can legally take on a square."""
    query = scene.query
    goals = [thing for thing in query.all("S") if isinstance(thing, int)]
    takers: list[chess.Square] | None = None
    men = list(query.men)
    if query.things and query.things[0][0] in "MK" and len(query.things) > 1 and query.things[1][0] in "SMK":
        takers = scene.men(men[0])
        if not takers:
            return BoardReply(scene.absent(men[0]))
        men = men[1:]
    for man in men:
        found = scene.men(man)
        if not found:
            return BoardReply(scene.absent(man))
        goals += found
    side = scene.side
    if side is None and takers:
        on = scene.board.color_at(goals[0]) if goals else None
        foes = [s for s in takers if scene.board.color_at(s) == (scene.board.turn if on is None else not on)]
        takers = foes or takers
        side = scene.board.color_at(takers[0])
    if side is None:
        on = scene.board.color_at(goals[0]) if goals else None
        side = scene.board.turn if on is None else not on
    given = _given(scene, side)
    if isinstance(given, BoardReply):
        return given
    moves = [
        m
        for m in given.generate_legal_captures()
        if m.to_square in goals and (takers is None or m.from_square in takers)
    ]
    what = listed(
        [
            chess.SQUARE_NAMES[s] if scene.board.piece_at(s) is None else scene.the([s], sides=True)
            for s in goals
        ]
    )
    if not moves:
        who = scene.the(takers, sides=True) if takers else colour_name(side)
        where = f"take on {what}" if scene.board.piece_at(goals[0]) is None else f"take {what}"
        return BoardReply(f"No: {who} cannot {where}.", yes=False)
    by = list(dict.fromkeys(m.from_square for m in moves))
    could = "" if side == scene.board.turn else " with the move"
    return BoardReply(
        f"Yes: {what} can be taken{could} by {scene.the(by, sides=True)}.",
        yes=True,
        moves=tuple(moves),
        number=len(by),
    )


def captures(scene: Scene) -> BoardReply:
    return _list(scene, lambda board: list(board.generate_legal_captures()), "capture")


def captures_of(scene: Scene) -> BoardReply:
    found = _movers(scene)
    if isinstance(found, BoardReply):
        return found
    given = _given(scene, bool(scene.board.color_at(found[0])))
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
    given = _given(scene, side)
    if isinstance(given, BoardReply):
        return given
    moves: list[chess.Move] = find(given)  # type: ignore[operator]
    return _moves_said(given, moves, word, side == scene.board.turn)


def _moves_said(board: chess.Board, moves: list[chess.Move], word: str, mine: bool) -> BoardReply:
    who, has = colour_name(board.turn), "has" if mine else "would have, with the move,"
    if not moves:
        return BoardReply(f"{who} {has} no {word}.", yes=False, number=0)
    said = [_plainly(board, move) for move in moves[:_SHOWN]]
    more = f", and {len(moves) - _SHOWN} more" if len(moves) > _SHOWN else ""
    return BoardReply(
        f"{who} {has} {count(len(moves), word)}: {listed(said)}{more}.",
        moves=tuple(moves),
        number=len(moves),
        yes=True,
    )


def _plainly(board: chess.Board, move: chess.Move) -> str:
    """A move in words a listener can place: "the knight on f6 takes e4"."""
    if board.is_castling(move):
        return f"castling {'kingside' if board.is_kingside_castling(move) else 'queenside'}"
    verb = "takes on" if board.is_capture(move) else "to"
    became = f", becoming a {chess.piece_name(move.promotion)}" if move.promotion else ""
    return f"the {man_at(board, move.from_square)} {verb} {chess.SQUARE_NAMES[move.to_square]}{became}"


def mate_moves(scene: Scene) -> BoardReply:
    """Whether there is a mate in one, or in as many moves as were said (at most three are looked at)."""
    if scene.board.is_checkmate():
        return BoardReply(f"It is mate already; {colour_name(not scene.board.turn)} has won.", yes=True)
    side = scene.board.turn if scene.side is None else scene.side
    given = _given(scene, side)
    if isinstance(given, BoardReply):
        return given
    number = scene.query.number or 1
    found = mates(given)
    if found:
        return _moves_said(given, found, "mate in one", side == scene.board.turn)
    if number > 1:
        try:
            key = forced_mate(given, min(number, 3), scene.nodes)
        except OutOfNodes:
            return unknown(_TOO_LONG)
        if key is not None:
            return BoardReply(
                f"Yes: it begins with {_plainly(given, key)}.", moves=(key,), number=number, yes=True
            )
        if number > 3:
            return unknown("There is no mate in three; further than that is not looked.")
        return BoardReply(f"No, {colour_name(side)} cannot force mate in {number}.", yes=False, number=0)
    return BoardReply(f"No, {colour_name(side)} has no mate in one.", yes=False, number=0)


def fork_moves(scene: Scene) -> BoardReply:
    side = scene.board.turn if scene.side is None else scene.side
    given = _given(scene, side)
    if isinstance(given, BoardReply):
        return given
    found = forks(given)
    if not found:
        return BoardReply(f"{colour_name(side)} has no move that forks two men.", yes=False, number=0)
    said = [
        f"{_plainly(given, m)}, which hits {listed([f'the {man_at(given, s)}' for s in hit])}"
        for m, hit in found[:4]
    ]
    return BoardReply(
        capital("; ".join(said)) + ".", moves=tuple(m for m, _ in found), number=len(found), yes=True
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
    given = _given(scene, side)
    if isinstance(given, BoardReply):
        return given
    found, whole = threats(given, scene.nodes)
    who = colour_name(side)
    if not found:
        if not whole:
            return unknown(_TOO_LONG)
        return BoardReply(
            f"By captures and mates in one, {who} threatens nothing; more than that is not looked at.",
            yes=False,
        )
    said = [
        f"{_plainly(given, t.move)}, {'mate' if t.gain is None else 'winning material'}" for t in found[:3]
    ]
    verb = "can play" if side == scene.board.turn else "threatens"
    more = f"; and {len(found) - 3} more" if len(found) > 3 else ""
    return BoardReply(
        f"{who} {verb} {'; '.join(said)}{more}.",
        moves=tuple(t.move for t in found),
        number=len(found),
        yes=True,
    )


def last_move(scene: Scene) -> BoardReply:
    last = scene.last
    if last is None:
        return BoardReply("No move has been made here yet.")
    after = scene.board
    parts = [changed(last.before, after)]
    to = last.move.to_square
    hits = [s for s in after.attacks(to) if after.color_at(s) == after.turn]
    if hits:
        parts.append(f"There it attacks {scene.the(hits)}.")
    if after.is_check():
        parts.append("It is mate." if after.is_checkmate() else "It is check.")
    return BoardReply(" ".join(parts), squares=(last.move.from_square, to), moves=(last.move,))


def what_changed(scene: Scene) -> BoardReply:
    said = scene.query.said.casefold()
    if "question" not in said and ("move" in said or scene.before is None) and scene.last is not None:
        return last_move(scene)
    if scene.before is None:
        return BoardReply("Nothing has changed: no move has been made here yet.")
    return BoardReply(changed(scene.before, scene.board))


def legal(scene: Scene) -> BoardReply:
    """Whether a move is legal, check, mate or a capture."""
    said = next(str(thing) for tag, thing in scene.query.things if tag == "V")
    if not given_move(scene.board, scene.board.turn):
        return unknown("Nobody can move on this board.")
    heard = hear(scene.board, said, language=scene.language)
    if isinstance(heard, Illegal):
        return BoardReply(f"No. {heard.sentence}", yes=False)
    if isinstance(heard, Ambiguous):
        return BoardReply(f"More than one move is {said} here. {heard.question}", moves=heard.moves, yes=True)
    if not isinstance(heard, MoveHeard):
        return unknown(heard.sentence)
    board, move, word = scene.board, heard.move, scene.query.word
    what = capital(_plainly(board, move))
    after = board.copy()
    after.push(move)
    holds = {
        "legal": True,
        "check": after.is_check(),
        "mate": after.is_checkmate(),
        "capture": board.is_capture(move),
    }[word]
    tail = {"legal": "is legal", "check": "is check", "mate": "is mate", "capture": "is a capture"}[word]
    text = f"{yes_no(holds)}: {what} {tail if holds else tail.replace('is', 'is not', 1)}."
    return BoardReply(text, moves=(move,), yes=holds)


def castle(scene: Scene) -> BoardReply:
    """Whether a side can castle now, by the rules; and why not."""
    side = scene.board.turn if scene.side is None else scene.side
    low = scene.query.said.casefold()
    wings = (
        ["kingside"] if ("king" in low.replace("king's", "king") and "side" in low) or "short" in low else []
    )
    wings += ["queenside"] if ("queen" in low and "side" in low) or "long" in low else []
    wings = wings or ["kingside", "queenside"]
    given = _given(scene, side)
    if isinstance(given, BoardReply) and scene.board.is_check():
        return given
    if isinstance(given, BoardReply):
        return given
    rights = bool(given.castling_rights & (chess.BB_RANK_1 if side else chess.BB_RANK_8))
    who = colour_name(side)
    legal_now = [
        wing
        for wing in wings
        if any(
            given.is_castling(m) and given.is_kingside_castling(m) == (wing == "kingside")
            for m in given.legal_moves
        )
    ]
    why = []
    if not rights:
        king = given.king(side)
        home = chess.E1 if side else chess.E8
        why.append(
            f"{who} has already lost the right to castle: the king stands on {chess.SQUARE_NAMES[king]}."
            if king is not None and king != home
            else f"{who} has already lost the right to castle."
        )
    else:
        for wing in wings:
            if wing not in legal_now:
                heard = hear(given, "O-O" if wing == "kingside" else "O-O-O")
                if isinstance(heard, Illegal):
                    why.append(f"{wing.capitalize()}: {heard.sentence}")
    can = (
        f"{who} can castle {' or '.join(legal_now)}."
        if legal_now
        else f"{who} cannot castle{'' if len(wings) == 2 else ' ' + wings[0]} now."
    )
    if "right" in low and rights and not legal_now:
        can = f"{who} has the right to castle, but cannot now."
    yes = rights if "right" in low else bool(legal_now)
    return BoardReply(f"{yes_no(yes)}: {' '.join([can, *why])}", yes=yes)


def why_not_castle(scene: Scene) -> BoardReply:
    reply = castle(scene)
    if reply.standing == "unknown":
        return reply
    text = reply.text.partition(": ")[2]
    return BoardReply(text, yes=reply.yes)


def en_passant(scene: Scene) -> BoardReply:
    moves = (
        [m for m in scene.board.legal_moves if scene.board.is_en_passant(m)]
        if given_move(scene.board, scene.board.turn)
        else []
    )
    if not moves:
        return BoardReply("Nothing can be taken en passant now.", yes=False, number=0)
    here = chess.SQUARE_NAMES[moves[0].to_square]
    by = scene.the([m.from_square for m in moves])
    return BoardReply(
        f"Yes: {here} is the en passant square; {by} can take there.",
        squares=(moves[0].to_square,),
        yes=True,
        moves=tuple(moves),
    )


__all__ = ["targets"]
