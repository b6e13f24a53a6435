"""Answers about files, pawns, material, the state of the game, and what nobody can prove."""

from __future__ import annotations

import chess

from player.facts.balance import ahead_by, in_words
from player.facts.claim import Claim
from player.facts.place import is_playable
from player.facts.rights import times_stood
from player.facts.seen_lines import files_without, men_between, never_hit_by_pawns, pawns_that_are
from player.facts.seen_moves import way_to
from player.wording.asked.men import targets
from player.wording.asked.reply import BoardReply, Scene, capital, count, unknown, yes_no
from player.wording.claims import claim_of
from player.wording.names import colour_name, listed

_FILES = "abcdefgh"


def file(scene: Scene) -> BoardReply:
    number = next(int(t) for tag, t in scene.query.things if tag == "F" and isinstance(t, int))
    board = scene.board
    pawns = chess.SquareSet(board.pawns & chess.BB_FILES[number])
    word = "half-open" if scene.query.word == "half" else "open"
    if word == "half-open":
        sides = list(chess.COLORS) if scene.side is None else [scene.side]
        yes = any(number in files_without(board, side) for side in sides)
    else:
        yes = not pawns
        if any(one in scene.query.said.casefold() for one in ("closed", "blocked")):
            sides_there = {board.color_at(s) for s in pawns}
            yes, word = len(sides_there) == 2, "closed"
    what = (
        f"on the {_FILES[number]}-file stands {scene.the(pawns, sides=True)}"
        if pawns
        else f"no pawn stands on the {_FILES[number]}-file"
    )
    return BoardReply(f"{yes_no(yes)}: {what}.", yes=yes, squares=tuple(pawns))


def files(scene: Scene) -> BoardReply:
    half = scene.query.word == "half"
    sides: list[chess.Color | None] = [None]
    if half:
        sides = list(chess.COLORS) if scene.side is None else [scene.side]
    parts, numbers = [], []
    for side in sides:
        found = files_without(scene.board, side)
        numbers += found
        kind = "open" if side is None else f"half-open for {colour_name(side)}"
        said = listed([f"the {_FILES[one]}-file" for one in found])
        parts.append(
            f"{capital(said)} {'is' if len(found) == 1 else 'are'} {kind}."
            if found
            else f"No file is {kind}."
        )
    return BoardReply(" ".join(parts), number=len(numbers), yes=bool(numbers))


def _two(scene: Scene) -> tuple[int, int] | BoardReply:
    found = targets(scene)
    if isinstance(found, BoardReply):
        return found
    return (found[0], found[1]) if len(found) == 2 else unknown("Name two squares, such as g2 and b7.")


def between(scene: Scene) -> BoardReply:
    ends = _two(scene)
    if isinstance(ends, BoardReply):
        return ends
    found = men_between(scene.board, *ends)
    a, b = (chess.SQUARE_NAMES[s] for s in ends)
    if found is None:
        return BoardReply(f"{a} and {b} are not on one line.")
    if not found:
        return BoardReply(f"Nothing stands between {a} and {b}.", yes=False, number=0)
    return BoardReply(
        f"Between {a} and {b}: {scene.the(found, sides=True)}.",
        squares=tuple(found),
        number=len(found),
        yes=True,
    )


def line(scene: Scene) -> BoardReply:
    found = between(scene)
    if found.yes is None:
        return found
    closed = any(one in scene.query.said.casefold() for one in ("closed", "blocked"))
    yes = found.yes if closed else not found.yes
    return BoardReply(f"{yes_no(yes)}. {found.text}", squares=found.squares, yes=yes)


def long_diagonal(scene: Scene) -> BoardReply:
    shades = [str(t) for tag, t in scene.query.things if tag == "L"]
    if not shades:
        return unknown("Name a diagonal by its ends, such as g2 to b7.")
    ends = (chess.H1, chess.A8) if shades[0] == "light" else (chess.A1, chess.H8)
    found = men_between(scene.board, *ends) or []
    found = [s for s in (ends[0], *found, ends[1]) if scene.board.piece_at(s)]
    text = f"on it stand {scene.the(found, sides=True)}" if found else "nobody stands on it"
    return BoardReply(f"{yes_no(not found)}: {text}.", yes=not found, squares=tuple(found))


def outpost(scene: Scene) -> BoardReply:
    square = scene.query.squares[0]
    sides = list(chess.COLORS) if scene.side is None else [scene.side]
    here = chess.SQUARE_NAMES[square]
    for side in sides:
        reply = scene.proved(Claim("outpost", colour=side, square=square))
        if reply.yes:
            guard = scene.the(chess.SquareSet(int(scene.board.attackers(side, square)) & scene.board.pawns))
            return BoardReply(
                f"Yes, {here} is an outpost for {colour_name(side)}: "
                f"{guard} guards it, and no enemy pawn can attack it.",
                yes=True,
                squares=(square,),
            )
    said = []
    for side in sides:
        why = scene.proved(Claim("outpost", colour=side, square=square)).text.removeprefix("No. ")
        extra = (
            " No enemy pawn can attack it, though."
            if never_hit_by_pawns(scene.board, square, not side)
            else ""
        )
        said.append(f"For {colour_name(side)} it is none. {why}{extra}")
    return BoardReply(f"No. {' '.join(said)}", yes=False)


def outposts(scene: Scene) -> BoardReply:
    sides = list(chess.COLORS) if scene.side is None else [scene.side]
    parts, squares = [], []
    for side in sides:
        found = [s for s in chess.SQUARES if scene.proved(Claim("outpost", colour=side, square=s)).yes]
        squares += found
        on = listed([chess.SQUARE_NAMES[s] for s in found])
        what = f"outposts on {on}" if len(found) > 1 else f"an outpost on {on}" if found else "no outpost"
        parts.append(f"{colour_name(side)} has {what}.")
    return BoardReply(" ".join(parts), squares=tuple(squares), number=len(squares), yes=bool(squares))


def pawns(scene: Scene) -> BoardReply:
    word = scene.query.word
    side = scene.side
    if side is None and scene.query.men and scene.query.men[0].side:
        side = scene.colour(scene.query.men[0].side)
    found = pawns_that_are(scene.board, word, side)
    whose = "" if side is None else f" of {colour_name(side)}'s"
    if not found:
        return BoardReply(f"No pawn{whose} is {word}.", yes=False, number=0)
    verb = "is" if len(found) == 1 else "are"
    return BoardReply(
        f"{capital(scene.the(found, sides=True))} {verb} {word}.",
        squares=tuple(found),
        number=len(found),
        yes=True,
    )


def pawn(scene: Scene) -> BoardReply:
    found = targets(scene)
    if isinstance(found, BoardReply):
        return found
    word = scene.query.word
    asked = [s for s in found if scene.board.piece_type_at(s) == chess.PAWN]
    if not asked:
        return BoardReply(f"No: {scene.stands(found[0])}", yes=False)
    good = [s for s in asked if s in pawns_that_are(scene.board, word, None)]
    if good:
        return BoardReply(
            f"Yes: {scene.the(good, sides=True)} {'is' if len(good) == 1 else 'are'} {word}.",
            yes=True,
            squares=tuple(good),
        )
    because = (
        scene.proved(Claim("pawn", square=asked[0], word=word)).text.removeprefix("No. ")
        if len(asked) == 1
        else ""
    )
    return BoardReply(f"No. {because}".strip(), yes=False)


def _runner(scene: Scene) -> int | BoardReply:
    found = [
        s for man in scene.query.men for s in scene.men(man) if scene.board.piece_type_at(s) == chess.PAWN
    ]
    if not found and not any(man.square is not None for man in scene.query.men):
        found = list(chess.SquareSet(scene.board.pawns))
    if not found:
        return BoardReply(scene.absent())
    if len(found) > 1:
        return unknown("Name the pawn, such as the pawn on h2.")
    return found[0]


def queens(scene: Scene) -> BoardReply:
    """By the rule of the square alone: whether the enemy king is inside it."""
    square = _runner(scene)
    if isinstance(square, BoardReply):
        return square
    colour = bool(scene.board.color_at(square))
    goal = chess.square(square & 7, 7 if colour else 0)
    reply = scene.proved(Claim("in the square", square=square, man=chess.PAWN))
    if reply.yes is None:
        return reply
    there = f"It queens on {chess.SQUARE_NAMES[goal]}"
    king = "the enemy king is inside its square" if reply.yes else "the enemy king is outside its square"
    proved = scene.proved(Claim("wins with best play", colour=colour))
    known = ""
    if proved.yes is not None:
        known = f" With best play {colour_name(colour)} {'wins' if proved.yes else 'does not win'}."
    return BoardReply(
        f"{there} if nothing stops it: {king}. {reply.text.partition('. ')[2]}{known}", yes=reply.yes
    )


def run_length(scene: Scene) -> BoardReply:
    square = _runner(scene)
    if isinstance(square, BoardReply):
        return square
    colour = bool(scene.board.color_at(square))
    goal = chess.square(square & 7, 7 if colour else 0)
    left = abs((goal >> 3) - (square >> 3))
    number = left - (square >> 3 == (1 if colour else 6))
    blocked = way_to(scene.board, square, goal) is None
    more = " Something stands in its way now." if blocked else ""
    return BoardReply(
        f"{capital(scene.the([square], sides=True))} is "
        f"{count(number, 'move')} from {chess.SQUARE_NAMES[goal]}.{more}",
        number=number,
    )


def turn(scene: Scene) -> BoardReply:
    return BoardReply(f"{colour_name(scene.board.turn)} is to move.")


def is_turn(scene: Scene) -> BoardReply:
    yes = scene.board.turn == (scene.me if scene.side is None else scene.side)
    return BoardReply(f"{yes_no(yes)}: {colour_name(scene.board.turn)} is to move.", yes=yes)


def material(scene: Scene) -> BoardReply:
    more = ahead_by(scene.board, chess.WHITE)
    text = in_words(more, chess.WHITE)
    low = scene.query.said.casefold()
    worth = sum(n * each for n, each in zip(more, (1, 3, 5, 9), strict=True))
    if low.lstrip().startswith("is ") and ("equal" in low or "even" in low or "balanced" in low):
        yes = not any(more)
        return BoardReply(f"{yes_no(yes)}: {text[0].lower() + text[1:] if yes else text}", yes=yes)
    if low.lstrip().startswith(("is ", "does ")) and scene.side is not None:
        up = worth if scene.side else -worth
        if "behind" in low or "down" in low:
            up = -up
        return BoardReply(f"{yes_no(up > 0)}: {text}", yes=up > 0)
    return BoardReply(text)


def in_check(scene: Scene) -> BoardReply:
    sides = [scene.board.turn, not scene.board.turn] if scene.side is None else [scene.side]
    for side in sides:
        king = scene.board.king(side)
        by = scene.board.attackers(not side, king) if king is not None else chess.SquareSet()
        if by:
            mate = " It is mate." if is_playable(scene.board) and scene.board.is_checkmate() else ""
            return BoardReply(
                f"Yes: {colour_name(side)} is in check from {scene.the(by)}.{mate}",
                yes=True,
                squares=tuple(by),
            )
    who = "nobody" if scene.side is None else colour_name(scene.side)
    return BoardReply(f"No, {who} is {'' if scene.side is None else 'not '}in check.", yes=False)


def _ended(scene: Scene, word: str) -> BoardReply:
    if not is_playable(scene.board):
        return unknown("Nobody can move on this board.")
    yes = scene.board.is_checkmate() if word == "mate" else scene.board.is_stalemate()
    side = scene.board.turn
    if yes and scene.side is not None and scene.side != side:
        return BoardReply(
            f"No: it is {colour_name(side)} who is {'mated' if word == 'mate' else 'stalemated'}.", yes=False
        )
    if yes:
        return BoardReply(
            f"Yes, {colour_name(side)} is {'mated' if word == 'mate' else 'stalemated'}.", yes=True
        )
    moves = count(scene.board.legal_moves.count(), "legal move")
    return BoardReply(
        f"No: {colour_name(side)} has {moves}{' and is in check' if scene.board.is_check() else ''}.",
        yes=False,
    )


def is_mate(scene: Scene) -> BoardReply:
    return _ended(scene, "mate")


def stalemate(scene: Scene) -> BoardReply:
    return _ended(scene, "stalemate")


def draw(scene: Scene) -> BoardReply:
    board = scene.board
    if not is_playable(board):
        return unknown("Nobody can move on this board.")
    stood = times_stood(board)
    for holds, why in (
        (board.is_stalemate(), "it is stalemate"),
        (board.is_insufficient_material(), "neither side has enough men to mate"),
        (stood >= 3, f"this position has stood here {stood} times, so a draw can be claimed"),
        (
            board.halfmove_clock >= 100,
            "fifty moves have passed without a capture or a pawn's move, so it can be claimed",
        ),
    ):
        if holds:
            return BoardReply(f"Yes: {why}.", yes=True)
    proved = scene.proved(Claim("drawn"))
    known = f" {proved.text.partition('. ')[2]}" if proved.yes is not None else ""
    return BoardReply(f"No rule makes it a draw now.{known}", yes=False)


def best_result(scene: Scene) -> BoardReply:
    found = scene.proved(Claim("drawn"))
    if found.yes is None:
        return found
    text = found.text.partition(". ")[2]
    if not scene.query.said.casefold().lstrip().startswith(("is ", "does ", "can ")):
        return BoardReply(text)
    if "draw" in scene.query.said.casefold():
        return BoardReply(f"{yes_no(found.yes)}. {text}", yes=found.yes)
    side = scene.board.turn if scene.side is None else scene.side
    yes = bool(scene.proved(Claim("wins with best play", colour=side)).yes)
    return BoardReply(f"{yes_no(yes)}. {text}", yes=yes)


def repetition(scene: Scene) -> BoardReply:
    stood = times_stood(scene.board)
    times = "once" if stood == 1 else "twice" if stood == 2 else f"{stood} times"
    return BoardReply(
        f"{yes_no(stood > 1)}: this position has stood here {times}, now included.",
        yes=stood > 1,
        number=stood,
    )


def fifty(scene: Scene) -> BoardReply:
    done = scene.board.halfmove_clock // 2
    text = (
        f"{count(done, 'full move')} of the fifty {'has' if done == 1 else 'have'} "
        f"passed without a capture or a pawn's move."
    )
    return BoardReply(capital(text), number=done, yes=done >= 50)


def opposition(scene: Scene) -> BoardReply:
    yes = [side for side in chess.COLORS if scene.proved(Claim("opposition", colour=side)).yes]
    if yes:
        who = colour_name(yes[0])
        text = (
            f"{who} has the opposition: the kings face each other and {colour_name(not yes[0])} is to move."
        )
        if scene.side is not None:
            holds = scene.side == yes[0]
            return BoardReply(f"{yes_no(holds)}: {text}", yes=holds)
        return BoardReply(text, yes=True)
    why = scene.proved(Claim("opposition", colour=not scene.board.turn)).text.removeprefix("No. ")
    return BoardReply(f"Neither side has it, it is not so here. {why}", yes=False)


def bishop_pair(scene: Scene) -> BoardReply:
    sides = list(chess.COLORS) if scene.side is None else [scene.side]
    for side in sides:
        reply = scene.proved(Claim("bishop pair", colour=side))
        if reply.yes:
            return BoardReply(f"Yes, {colour_name(side)} has it. {reply.text.partition('. ')[2]}", yes=True)
    return scene.proved(Claim("bishop pair", colour=sides[0]))


def opposite_bishops(scene: Scene) -> BoardReply:
    return scene.proved(Claim("opposite bishops"))


def rooks_connected(scene: Scene) -> BoardReply:
    side = scene.side
    if side is None and scene.query.men and scene.query.men[0].side:
        side = scene.colour(scene.query.men[0].side)
    return scene.proved(Claim("rooks connected", colour=scene.board.turn if side is None else side))


def move_number(scene: Scene) -> BoardReply:
    number = scene.board.fullmove_number
    return BoardReply(f"It is move {number}, {colour_name(scene.board.turn)} to move.", number=number)


def prove_it(scene: Scene) -> BoardReply:
    """Any claim of a known form, put as a question."""
    said = scene.query.said.strip(" ?.!")
    for lead in ("is it true that ", "is it so that ", "is it right that ", "prove that ", "prove "):
        if said.casefold().startswith(lead):
            claim = claim_of(said[len(lead) :])
            if claim is not None:
                return scene.proved(claim)
    return unknown("That is in no form that can be proved. 'help claims' lists the forms.")


def judgement(scene: Scene) -> BoardReply:
    """What the board cannot prove: it is the coach's to judge."""
    word = scene.query.word
    if word in ("best", "answer"):
        return unknown("Which move is best is a judgement, and nobody has said. 'what if' lets you try one.")
    if word == "opening":
        return unknown("What the opening is called is not known here; the coach may tell.")
    text = "That is a judgement the board cannot prove; it is not known unless the coach has said."
    return unknown(
        f"{text} {in_words(ahead_by(scene.board, chess.WHITE), chess.WHITE)}" if word == "better" else text
    )
