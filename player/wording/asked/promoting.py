"""Answers about promoting, pawns that could attack a man, islands, and men on files."""

from __future__ import annotations

import re

import chess

from player.facts.seen_lines import files_without, never_hit_by_pawns
from player.wording.asked.men import targets
from player.wording.asked.moves import given_to
from player.wording.asked.pawns import queens
from player.wording.asked.played import short
from player.wording.asked.reply import BoardReply, Scene, capital, count, unknown
from player.wording.names import colour_name, listed, name, with_article

_FILES = "abcdefgh"
_YES_NO = re.compile(r"(?:and |so )?(?:can|could|is|may|does|do)\b", re.IGNORECASE)
_NOW = re.compile(r"\b(?:now|next|at once|immediately|this move)\b", re.IGNORECASE)


def promotes(scene: Scene) -> BoardReply:
    """Whether a pawn can promote with its next move; to a kind of man where one is named."""
    men = [man for man in scene.query.men if man.kind in (None, chess.PAWN)]
    named = [man.kind for man in scene.query.men if man.kind not in (None, chess.PAWN)]
    side = scene.board.turn if scene.side is None else scene.side
    pawns = scene.men(men[0]) if men else list(scene.board.pieces(chess.PAWN, side))
    if men and not pawns:
        return BoardReply(scene.absent(men[0]))
    if men and scene.side is None:
        own = [s for s in pawns if scene.board.color_at(s) == scene.board.turn]
        side = scene.board.turn if own else not scene.board.turn
        pawns = own or pawns
    given = given_to(scene, side)
    if isinstance(given, BoardReply):
        return given
    moves = [m for m in given.legal_moves if m.promotion and m.from_square in pawns]
    wanted = named[0] if named else chess.QUEEN
    moves = [m for m in moves if m.promotion == wanted]
    could = "" if side == scene.board.turn else ", with the move"
    if moves:
        said = listed([short(given, m) for m in moves[:4]], "or")
        if _YES_NO.match(scene.query.said.strip()):
            return BoardReply(f"Yes{could}: {said}.", moves=tuple(moves), number=len(moves), yes=True)
        return BoardReply(capital(f"{said}."), moves=tuple(moves), number=len(moves), yes=True)
    if men and not named and not _NOW.search(scene.query.said):
        # Asked without "now": whether it will get there.
        reply = queens(scene)
        if reply.standing == "board":
            return reply
    return BoardReply(f"No: {_why_not_now(scene, pawns, side)}.", yes=False, number=0)


def _why_not_now(scene: Scene, pawns: list[chess.Square], side: bool) -> str:
    """What keeps the foremost pawn from promoting now."""
    own = [s for s in pawns if scene.board.color_at(s) == side]
    who = colour_name(side)
    if not own:
        return f"{who} has no pawn"
    best = max(own, key=lambda s: (s >> 3) if side else 7 - (s >> 3))
    last = chess.square(best & 7, 7 if side else 0)
    steps = abs((last >> 3) - (best >> 3))
    if steps > 1:
        return f"no pawn of {who}'s is one step away"
    if scene.board.piece_at(last):
        colour = "its own" if scene.board.color_at(last) == side else "the enemy"
        kind = name(scene.board.piece_type_at(last) or chess.KING)
        return f"{colour} {kind} stands on {chess.SQUARE_NAMES[last]}"
    if scene.board.is_check():
        return f"{who} is in check"
    return "it may not move now"


def pawn_hits(scene: Scene) -> BoardReply:
    """Whether a pawn can attack a man with its next move, or ever could."""
    found = targets_of(scene)
    if isinstance(found, BoardReply):
        return found
    square = found
    colour = scene.board.color_at(square)
    asked = scene.query.men[0].side if scene.query.men and scene.query.men[0].kind == chess.PAWN else ""
    side = scene.colour(asked) if asked else scene.side
    if side is None or side == colour:
        side = (not colour) if colour is not None else scene.board.turn
    what = scene.the([square]) if colour is not None else chess.SQUARE_NAMES[square]
    now = [s for s in scene.board.attackers(side, square) if scene.board.piece_type_at(s) == chess.PAWN]
    if now:
        return BoardReply(f"Yes: {scene.the(now)} attacks {what} already.", yes=True, squares=tuple(now))
    given = given_to(scene, side)
    if isinstance(given, BoardReply):
        return given
    moves = []
    for move in given.legal_moves:
        if given.piece_type_at(move.from_square) != chess.PAWN or move.to_square == square or move.promotion:
            continue
        after = given.copy(stack=False)
        after.push(move)
        if square in after.attacks(move.to_square):
            moves.append(move)
    who = colour_name(side)
    if moves:
        said = listed([short(given, m) for m in moves[:3]], "or")
        could = "" if side == scene.board.turn else ", with the move"
        return BoardReply(f"Yes{could}: {said} attacks {what}.", moves=tuple(moves), yes=True)
    if never_hit_by_pawns(scene.board, square, side):
        return BoardReply(
            f"No: no pawn of {who}'s can attack {what}, now or by going straight on.", yes=False
        )
    return BoardReply(f"No: no pawn of {who}'s can attack {what} with its next move.", yes=False)


def targets_of(scene: Scene) -> chess.Square | BoardReply:
    """The one man, or square, a pawn is asked to attack: the last thing named."""
    things = scene.query.things
    tag, thing = things[-1]
    if tag == "S" and isinstance(thing, int):
        return thing
    men = scene.men(scene.query.men[-1])
    if not men:
        return BoardReply(scene.absent(scene.query.men[-1]))
    asked = scene.query.men[0].side if len(scene.query.men) > 1 else ""
    side = scene.colour(asked) if asked else scene.side if scene.side is not None else scene.board.turn
    enemies = [s for s in men if scene.board.color_at(s) != side] or men
    if len(enemies) > 1:
        return unknown(f"Name the {name(scene.board.piece_type_at(enemies[0]) or 1)} by its square.")
    return enemies[0]


def islands(scene: Scene) -> BoardReply:
    """How many groups of neighbouring files a side's pawns stand on."""
    sides = list(chess.COLORS) if scene.side is None else [scene.side]
    numbers = []
    for side in sides:
        files = {s & 7 for s in scene.board.pieces(chess.PAWN, side)}
        numbers.append(sum(1 for one in files if one - 1 not in files))
    said = [f"{colour_name(s)} has {count(n, 'pawn island')}" for s, n in zip(sides, numbers, strict=True)]
    return BoardReply(f"{listed(said)}.", number=sum(numbers))


def on_file(scene: Scene) -> BoardReply:
    """The men on a file, or only the rooks and queens where it is asked who holds it."""
    number = next(int(t) for tag, t in scene.query.things if tag == "F" and isinstance(t, int))
    squares = chess.SquareSet(scene.board.occupied & chess.BB_FILES[number])
    here = f"the {_FILES[number]}-file"
    if scene.query.word != "holds":
        if not squares:
            return BoardReply(f"Nothing stands on {here}.", yes=False, number=0)
        text = f"On {here}: {scene.the(squares, sides=True)}."
        return BoardReply(text, squares=tuple(squares), number=len(squares), yes=True)
    heavy = {
        side: [s for s in squares if scene.board.piece_type_at(s) in (chess.ROOK, chess.QUEEN)
               and scene.board.color_at(s) == side]
        for side in chess.COLORS
    }  # fmt: skip
    return _holds(scene, heavy, here)


def _holds(scene: Scene, heavy: dict[chess.Color, list[chess.Square]], here: str) -> BoardReply:
    white, black = heavy[chess.WHITE], heavy[chess.BLACK]
    if white and black:
        both = f"{scene.the(white, sides=True)} and {scene.the(black, sides=True)}"
        text = f"Neither alone: {both} stand on {here}."
    elif white or black:
        side = chess.WHITE if white else chess.BLACK
        stand = "stands" if len(white or black) == 1 else "stand"
        men = scene.the(white or black)
        text = f"{colour_name(side)}: {men} {stand} on {here}, and no rook or queen opposes."
    else:
        text = f"Nobody: no rook or queen stands on {here}."
    return BoardReply(text, squares=(*white, *black))


def on_open_file(scene: Scene) -> BoardReply:
    """Which rooks or queens stand on an open file."""
    kind = scene.query.men[0].kind if scene.query.men else None
    files = files_without(scene.board, None)
    men = [s for s in chess.SquareSet(scene.board.occupied) if s & 7 in files]
    wanted = (kind,) if kind else (chess.ROOK, chess.QUEEN)
    found = [s for s in men if scene.board.piece_type_at(s) in wanted]
    if scene.side is not None:
        found = [s for s in found if scene.board.color_at(s) == scene.side]
    what = with_article(kind) if kind else "a rook or a queen"
    if not files:
        return BoardReply("No file is open.", yes=False)
    if not found:
        return BoardReply(f"No open file has {what} on it.", yes=False)
    verb = "stands" if len(found) == 1 else "stand"
    text = f"{scene.the(found, sides=True)} {verb} on an open file."
    return BoardReply(capital(text), squares=tuple(found), number=len(found), yes=True)


def behind(scene: Scene) -> BoardReply:
    """The men behind a man on its file, both ways."""
    found = targets(scene)
    if isinstance(found, BoardReply):
        return found
    numbers = [int(t) for tag, t in scene.query.things if tag == "F" and isinstance(t, int)]
    square = found[0]
    if not numbers or square & 7 not in numbers:
        return unknown("Name the file the man stands on, such as: what is behind the king on the e-file.")
    others = [s for s in chess.SquareSet(scene.board.occupied & chess.BB_FILES[square & 7]) if s != square]
    here = f"the {_FILES[square & 7]}-file"
    if not others:
        return BoardReply(f"Nothing else stands on {here}.", yes=False)
    below = [s for s in others if s < square]
    above = [s for s in others if s > square]
    parts = [f"above it {scene.the(above, sides=True)}"] * bool(above)
    parts += [f"below it {scene.the(below, sides=True)}"] * bool(below)
    return BoardReply(capital(f"On {here}, {listed(parts)}."), squares=tuple(others))
