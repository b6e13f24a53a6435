"""Claims of every kind about a position, in many wordings, each with what the definitions make of it."""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator
from typing import NamedTuple

import chess

from tests.oracle import exact
from tests.oracle.material import TooLong


class Said(NamedTuple):
    """A claim as somebody may word it, its kind, and whether it is true."""

    kind: str
    words: str
    truth: bool


WORDS = (
    "zero",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
)
NAMES = {True: "White", False: "Black"}


class Teller:
    """Draws slots and wordings for one position."""

    def __init__(self, board: chess.Board, rng: random.Random) -> None:
        self.board, self.rng = board, rng
        self.moves = list(board.legal_moves)

    def pick(self, *forms: str) -> str:
        return self.rng.choice(forms)

    def colour(self) -> chess.Color:
        return self.rng.random() < 0.5

    def square(self) -> int:
        return self.rng.randrange(64)

    def man(self, side: chess.Color | None = None, *kinds: int) -> int | None:
        squares = [
            at
            for at, man in self.board.piece_map().items()
            if (side is None or man.color == side) and (not kinds or man.piece_type in kinds)
        ]
        return self.rng.choice(squares) if squares else None

    def piece(self, square: int) -> str:
        man = self.board.piece_at(square)
        assert man is not None
        kind, at, side = chess.piece_name(man.piece_type), chess.square_name(square), NAMES[man.color]
        return self.pick(
            f"the {kind} on {at}",
            f"the {kind} on {at}",
            f"the {side.lower()} {kind} on {at}",
            f"{side}'s {kind} on {at}",
            f"the {at} {kind}",
            f"{kind} {at}",
            f"the {at}-{kind}",
            f"the {kind} at {at}",
        )

    def move(self, move: chess.Move | None = None) -> str:
        board = self.board
        move = move or self.rng.choice(self.moves)
        san = board.san(move)
        bare = san.rstrip("+#")
        return self.pick(
            san, bare, bare.replace("x", ""), board.uci(move) if not board.is_castling(move) else san
        )

    def number(self, count: int, noun: str = "time") -> str:
        plural = noun if count == 1 else noun + "s"
        forms = [f"{count} {plural}", f"{WORDS[count] if count < 13 else count} {plural}"]
        if noun == "time" and count in (1, 2, 3):
            forms.append({1: "once", 2: "twice", 3: "thrice"}[count])
        return self.rng.choice(forms)

    def near(self, count: int) -> int:
        """The count itself half the time, or one beside it."""
        return count if self.rng.random() < 0.5 else max(0, count + self.rng.choice([-1, 1]))

    def dress(self, words: str) -> str:
        """Case, articles, "is" and the full stop are free."""
        kind = self.rng.random()
        if kind < 0.1:
            words = words.replace(" is ", " ").replace(" are ", " ")
        elif kind < 0.2:
            words = words.replace("the ", "")
        elif kind < 0.25:
            words = (
                words
                if any(letter.isdigit() for letter in words.split()[0])
                else words[0].upper() + words[1:]
            ) + "."
        elif kind < 0.3:
            words = words.replace("White", "white").replace("Black", "black")
        return words


Maker = Callable[[Teller], "Said | None"]
MAKERS: list[Maker] = []


def maker(function: Maker) -> Maker:
    MAKERS.append(function)
    return function


def claims_about(
    board: chess.Board, rng: random.Random, each: int = 1, makers: list[Maker] | None = None
) -> Iterator[Said]:
    """For each kind `each` claims, skipping what a position cannot be asked."""
    for make in makers or MAKERS:
        for _ in range(each):
            teller = Teller(board, rng)
            try:
                said = make(teller)
            except TooLong:
                continue
            if said:
                yield said._replace(words=teller.dress(said.words))


def yes(truth: object) -> bool:
    return bool(truth)


@maker
def attacked(t: Teller) -> Said | None:
    at = t.man()
    assert at is not None
    return Said(
        "attacked", f"{t.piece(at)} is {t.pick('attacked', 'under attack')}", exact.attacked(t.board, at)
    )


@maker
def attack_count(t: Teller) -> Said | None:
    side, at = t.colour(), t.square()
    have = exact.hitting(t.board, side, at)
    count = t.near(have)
    name, who, times = chess.square_name(at), NAMES[side], t.number(count)
    words = t.pick(
        f"{who} attacks {name} {times}",
        f"{who} attacks the square {name} {times}",
        f"{who} attacks {name} exactly {times}",
        f"{name} is attacked {times} by {who}",
        f"{who} attacks {name} with {count} men",
    )
    return Said("count", words, have == count)


@maker
def undefended(t: Teller) -> Said | None:
    at = t.man()
    assert at is not None
    word = t.pick("undefended", "unguarded", "unprotected")
    return Said("undefended", f"{t.piece(at)} is {word}", exact.guards(t.board, at) == 0)


@maker
def guarded(t: Teller) -> Said | None:
    at = t.man()
    assert at is not None
    have = exact.guards(t.board, at)
    count = t.near(have)
    return Said(
        "guarded", f"{t.piece(at)} is {t.pick('guarded', 'defended')} {t.number(count)}", have == count
    )


@maker
def pinned(t: Teller) -> Said | None:
    men = [at for at in t.board.piece_map() if exact.pinned_to(t.board, at)]
    at = t.rng.choice(men) if men and t.rng.random() < 0.6 else t.man()
    assert at is not None
    return Said("pinned", f"{t.piece(at)} is pinned", yes(exact.pinned_to(t.board, at)))


@maker
def pinned_to(t: Teller) -> Said | None:
    men = [at for at in t.board.piece_map() if exact.pinned_to(t.board, at)]
    at = t.rng.choice(men) if men and t.rng.random() < 0.7 else t.man()
    assert at is not None
    behind = exact.pinned_to(t.board, at)
    near = [s for step in exact.STEPS if (s := exact.first_man(t.board, at, step)) is not None]
    to = t.rng.choice(sorted(behind) if behind and t.rng.random() < 0.7 else near or [t.square()])
    name = chess.square_name(to)
    man = t.board.piece_at(to)
    if man and t.rng.random() < 0.3:
        name = f"the {chess.piece_name(man.piece_type)} on {name}"
    return Said("pinned to", f"{t.piece(at)} is pinned to {name}", to in behind)


@maker
def legal(t: Teller) -> Said | None:
    if t.moves and t.rng.random() < 0.5:
        return Said("legal", f"{t.move()} is legal", True)
    kind, at = t.rng.choice("NBRQK"), chess.square_name(t.square())
    try:
        t.board.parse_san(kind + at)
    except chess.IllegalMoveError:
        return Said("legal", f"{kind}{at} is {t.pick('legal', 'a legal move')}", False)
    except ValueError:
        return None
    return Said("legal", f"{kind}{at} is legal", True)


@maker
def check(t: Teller) -> Said | None:
    if not t.moves:
        return None
    kind = t.rng.choice(["check", "mate", "double check", "discovered check"])
    good = [move for move in t.moves if exact.checks(t.board, move, kind)]
    any_check = [move for move in t.moves if t.board.gives_check(move)]
    pool = (
        good
        if good and t.rng.random() < 0.5
        else any_check
        if any_check and t.rng.random() < 0.7
        else t.moves
    )
    move = t.rng.choice(pool)
    words = {
        "check": ["is check", "gives check", "is a check", "checks", "checks the king"],
        "mate": ["is mate", "is checkmate", "mates", "gives mate", "delivers checkmate"],
        "double check": ["is double check", "is a double check", "gives double check"],
        "discovered check": ["is discovered check", "is a discovered check", "gives discovered check"],
    }[kind]
    return Said(kind, f"{t.move(move)} {t.rng.choice(words)}", exact.checks(t.board, move, kind))


def _enemies(board: chess.Board, move: chess.Move) -> list[int]:
    next_board = exact.after(board, move)
    return [s for s in next_board.attacks(move.to_square) if next_board.color_at(s) == (not board.turn)]


@maker
def forks(t: Teller) -> Said | None:
    pairs = [(m, hit) for m in t.moves if len(hit := _enemies(t.board, m)) > 1]
    if not pairs:
        return None
    move, hit = t.rng.choice(pairs)
    one, other = t.rng.sample(hit, 2)
    name = chess.square_name
    words = f"{t.move(move)} forks {name(one)} and {name(other)}"
    return Said("forks", words, exact.forks(t.board, move, one, other))


@maker
def discovers(t: Teller) -> Said | None:
    good = [(m, s) for m in t.moves for s in t.board.piece_map() if exact.discovers(t.board, m, s)]
    enemies = [s for s, man in t.board.piece_map().items() if man.color != t.board.turn]
    if good and t.rng.random() < 0.6:
        move, at = t.rng.choice(good)
    elif t.moves:
        move, at = t.rng.choice(t.moves), t.rng.choice(enemies)
    else:
        return None
    words = t.pick("discovers an attack on", "discovers an attack on", "discovers attack on")
    return Said(
        "discovers", f"{t.move(move)} {words} {chess.square_name(at)}", exact.discovers(t.board, move, at)
    )


def _in_line(board: chess.Board, move: chess.Move) -> list[tuple[int, int]]:
    """Pairs of enemy men on one line with a slider of ours after the move."""
    next_board = exact.after(board, move)
    found = []
    for at, man in next_board.piece_map().items():
        if man.color != board.turn:
            continue
        for step in exact.STEPS:
            if not exact.slides(next_board, at, step):
                continue
            front = exact.first_man(next_board, at, step)
            behind = None if front is None else exact.first_man(next_board, front, step)
            if front is not None and behind is not None:
                found.append((front, behind))
    return found


@maker
def skewers(t: Teller) -> Said | None:
    if not t.moves:
        return None
    for move in t.rng.sample(t.moves, min(len(t.moves), 12)):
        pairs = _in_line(t.board, move)
        if pairs:
            one, other = t.rng.choice(pairs)
            if t.rng.random() < 0.1:
                one, other = other, one
            words = f"{t.move(move)} skewers {chess.square_name(one)} and {chess.square_name(other)}"
            return Said("skewers", words, exact.skewers(t.board, move, one, other))
    return None


@maker
def threatens(t: Teller) -> Said | None:
    for move in t.rng.sample(t.moves, min(len(t.moves), 10)):
        free = exact.passed_turn(exact.after(t.board, move), in_check=True)
        if free is None:
            continue
        then = [
            m
            for m in free.legal_moves
            if free.is_capture(m) or m.promotion or exact.after(free, m).is_checkmate()
        ]
        if not then:
            continue
        second = t.rng.choice(then)
        san = free.san(second)
        if t.rng.random() < 0.3:
            san = san.rstrip("+#")
        return Said("threatens", f"{t.move(move)} threatens {san}", exact.threatens(t.board, move, second))
    return None


@maker
def threatens_mate(t: Teller) -> Said | None:
    if not t.moves:
        return None
    some = t.rng.sample(t.moves, min(len(t.moves), 15))
    move = next((m for m in some if exact.threatens_mate(t.board, m)), some[0])
    return Said(
        "threatens mate",
        f"{t.move(move)} threatens {t.pick('mate', 'checkmate')}",
        exact.threatens_mate(t.board, move),
    )


@maker
def only(t: Teller) -> Said | None:
    if not t.moves:
        return None
    move = t.rng.choice(t.moves)
    return Said("only", f"{t.move(move)} is the only legal move", len(t.moves) == 1)


@maker
def legal_moves(t: Teller) -> Said | None:
    side = t.board.turn if t.rng.random() < 0.9 else not t.board.turn
    count = t.near(len(t.moves))
    noun = t.pick("legal move", "move")
    words = f"{NAMES[side]} has {t.number(count, noun)}"
    return Said("legal moves", words, side == t.board.turn and count == len(t.moves))


@maker
def piece_moves(t: Teller) -> Said | None:
    at = t.man(t.board.turn if t.rng.random() < 0.9 else None)
    assert at is not None
    have = exact.moves_of(t.board, at)
    count = t.near(have)
    noun = t.pick("move", "legal move")
    own = t.board.color_at(at) == t.board.turn
    return Said("piece moves", f"{t.piece(at)} has {t.number(count, noun)}", own and have == count)


@maker
def in_check(t: Teller) -> Said | None:
    side = t.board.turn if t.rng.random() < 0.8 else not t.board.turn
    king = t.board.king(side)
    assert king is not None
    return Said("in check", f"{NAMES[side]} is in check", exact.attacked(t.board, king))


@maker
def stalemate(t: Teller) -> Said | None:
    words = t.pick("stalemate", "it is stalemate", "this is stalemate", "the position is stalemate")
    return Said("stalemate", words, not t.moves and not t.board.is_check())


@maker
def mate_in(t: Teller) -> Said | None:
    busy = len(t.moves)
    most = 1 if busy > 25 else 2 if busy > 8 else 3
    if len(t.board.piece_map()) > 8:
        most = min(most, 2)
    moves = t.rng.randint(1, most)
    side = NAMES[t.board.turn]
    number = t.pick(str(moves), WORDS[moves])
    words = t.pick(
        f"mate in {number}",
        f"it is mate in {number}",
        f"{side} mates in {number}",
        f"{side} has mate in {number}",
        f"there is mate in {number}",
        f"{side} has a forced mate in {number}",
        f"{side} forces mate in {number} moves",
        f"{side} to play and mate in {number}",
        f"it is mate in {number} for {side}",
    )
    return Said("mate in", words, exact.mate_in(t.board, moves))


@maker
def other_mates(t: Teller) -> Said | None:
    return Said("mate in", f"{NAMES[not t.board.turn]} mates in 1", False)


@maker
def file_state(t: Teller) -> Said | None:
    file = t.rng.randrange(8)
    letter = "abcdefgh"[file]
    name = t.pick(f"the {letter}-file", f"the {letter} file", f"{letter}-file")
    state = t.rng.choice(["open", "closed", "half-open"])
    if state != "half-open":
        return Said(f"file {state}", f"{name} is {state}", exact.file_state(t.board, file, state))
    side = t.colour()
    word = t.pick("half-open", "half open", "semi-open")
    return Said(
        "file half-open", f"{name} is {word} for {NAMES[side]}", exact.file_state(t.board, file, state, side)
    )


@maker
def line_state(t: Teller) -> Said | None:
    one = t.square()
    step = t.rng.choice(exact.STEPS)
    way = exact.walk(one, step)
    other = t.rng.choice(way) if way and t.rng.random() < 0.9 else t.square()
    if one == other:
        return None
    state = t.rng.choice(["open", "closed"])
    name = t.pick("", "", "the line ") + f"{chess.square_name(one)}-{chess.square_name(other)}"
    return Said(f"line {state}", f"{name} is {state}", exact.line_state(t.board, one, other) == state)


@maker
def outpost(t: Teller) -> Said | None:
    side = t.colour()
    good = [s for s in chess.SQUARES if exact.outpost(t.board, s, side)]
    held = [
        s + (8 if side else -8) + by
        for s in t.board.pieces(chess.PAWN, side)
        for by in (-1, 1)
        if 0 <= s % 8 + by < 8
    ]
    pool = (
        good
        if good and t.rng.random() < 0.5
        else held
        if held and t.rng.random() < 0.8
        else list(chess.SQUARES)
    )
    at = t.rng.choice(pool)
    words = t.pick(
        f"{chess.square_name(at)} is an outpost for {NAMES[side]}",
        f"{NAMES[side]} has an outpost on {chess.square_name(at)}",
    )
    return Said("outpost", words, exact.outpost(t.board, at, side))


@maker
def pawn_is(t: Teller) -> Said | None:
    at = t.man(None, chess.PAWN)
    if at is None:
        return None
    trait = t.rng.choice(["passed", "isolated", "doubled", "backward"])
    good = [
        s
        for s, man in t.board.piece_map().items()
        if man.piece_type == 1 and exact.pawn_is(t.board, s, trait)
    ]
    if good and t.rng.random() < 0.5:
        at = t.rng.choice(good)
    words = t.pick(f"{t.piece(at)} is {trait}", f"the pawn on {chess.square_name(at)} is {trait}")
    if t.rng.random() < 0.2:
        words = f"{t.piece(at)} is {'an' if trait[0] == 'i' else 'a'} {trait} pawn"
    return Said(trait, words, exact.pawn_is(t.board, at, trait))


LEADS: dict[str, dict[str, int]] = {
    "a pawn": {"pawn": 1},
    "two pawns": {"pawn": 2},
    "3 pawns": {"pawn": 3},
    "a piece": {"piece": 1},
    "a knight": {"piece": 1},
    "two pieces": {"piece": 2},
    "the exchange": {"rook": 1, "piece": -1},
    "the exchange for a pawn": {"rook": 1, "piece": -1, "pawn": -1},
    "the exchange and a pawn": {"rook": 1, "piece": -1, "pawn": 1},
    "a piece for a pawn": {"piece": 1, "pawn": -1},
    "a piece for two pawns": {"piece": 1, "pawn": -2},
    "a piece for three pawns": {"piece": 1, "pawn": -3},
    "a piece and a pawn": {"piece": 1, "pawn": 1},
    "a rook": {"rook": 1},
    "a rook for a pawn": {"rook": 1, "pawn": -1},
    "a rook and a piece": {"rook": 1, "piece": 1},
    "a queen": {"queen": 1},
    "a queen for a rook": {"queen": 1, "rook": -1},
    "a queen for two rooks": {"queen": 1, "rook": -2},
    "a queen for a rook and a piece": {"queen": 1, "rook": -1, "piece": -1},
    "two pieces for a rook": {"piece": 2, "rook": -1},
}


@maker
def material(t: Teller) -> Said | None:
    side = t.colour()
    good = [name for name, lead in LEADS.items() if exact.up_exactly(t.board, side, **lead)]
    name = t.rng.choice(good if good and t.rng.random() < 0.7 else list(LEADS))
    words = t.pick(f"{NAMES[side]} is up {name}", f"{NAMES[side]} is {name} up")
    if " for " in name or " and " in name:
        words = f"{NAMES[side]} is up {name}"
    if t.rng.random() < 0.2:
        words = f"{NAMES[not side]} is down {name}"
    elif t.rng.random() < 0.2:
        words = f"{NAMES[side]} is ahead by {name}"
    return Said("up", words, exact.up_exactly(t.board, side, **LEADS[name]))


@maker
def equal(t: Teller) -> Said | None:
    words = t.pick(
        "material is equal",
        "the material is equal",
        "material is level",
        "material is even",
        "White and Black have equal material",
        "the sides are equal in material",
    )
    return Said("equal", words, exact.up_exactly(t.board, True))


@maker
def bishop_pair(t: Teller) -> Said | None:
    side = t.colour()
    return Said("bishop pair", f"{NAMES[side]} has the bishop pair", exact.bishop_pair(t.board, side))


@maker
def opposite(t: Teller) -> Said | None:
    words = t.pick(
        "the bishops are of opposite colours",
        "the bishops are of opposite colors",
        "bishops of opposite colours",
        "there are opposite-coloured bishops",
        "the bishops are opposite-colored",
        "the bishops stand on opposite colours",
    )
    return Said("opposite bishops", words, exact.opposite_bishops(t.board))


@maker
def may_castle(t: Teller) -> Said | None:
    side = t.board.turn if t.rng.random() < 0.8 else not t.board.turn
    wing = t.rng.choice(["kingside", "queenside", None])
    tail = {
        "kingside": t.pick(" kingside", " short", " on the kingside"),
        "queenside": t.pick(" queenside", " long", " on the queenside"),
        None: "",
    }[wing]
    words = f"{NAMES[side]} {t.pick('may', 'can')} castle{tail}"
    return Said("may castle", words, exact.may_castle(t.board, side, wing))


@maker
def lost_castling(t: Teller) -> Said | None:
    side = t.colour()
    words = t.pick(
        "has lost the right to castle",
        "can no longer castle",
        "has lost castling rights",
        "has no right to castle",
    )
    return Said("lost castling", f"{NAMES[side]} {words}", exact.lost_castling(t.board, side))


@maker
def rooks(t: Teller) -> Said | None:
    side = t.colour()
    words = t.pick(
        f"the rooks of {NAMES[side]} are connected",
        f"{NAMES[side]}'s rooks are connected",
        f"the {NAMES[side].lower()} rooks are connected",
    )
    return Said("rooks connected", words, exact.rooks_connected(t.board, side))


@maker
def opposition(t: Teller) -> Said | None:
    side = t.colour()
    word = t.pick("has", "has", "holds", "has taken")
    return Said("opposition", f"{NAMES[side]} {word} the opposition", exact.opposition(t.board, side))


@maker
def in_square(t: Teller) -> Said | None:
    at = t.man(None, chess.PAWN)
    if at is None:
        return None
    side = t.rng.choice([None, not t.board.color_at(at), bool(t.board.color_at(at))])
    king = "the king" if side is None else f"the {NAMES[side].lower()} king"
    words = f"{king} is {t.pick('inside', 'in')} the square of the pawn on {chess.square_name(at)}"
    return Said("in square", words, exact.in_square(t.board, at, side))


@maker
def wins(t: Teller) -> Said | None:
    loose = [m for m in t.moves if t.board.is_capture(m) or m.promotion]
    if not t.moves:
        return None
    move = t.rng.choice(loose if loose and t.rng.random() < 0.6 else t.moves)
    what = t.rng.choice(["a pawn", "the exchange", "a piece", "a rook", "the queen"])
    said = t.pick("a queen", "the queen") if what == "the queen" else what
    return Said("wins", f"{t.move(move)} wins {said}", exact.wins(t.board, move, what))


@maker
def result(t: Teller) -> Said | None:
    known = exact.best_play(t.board)
    if known is None:
        return None
    side = t.colour()
    if t.rng.random() < 0.4:
        return Said(
            "drawn",
            t.pick(
                "the position is drawn",
                "it is drawn",
                "it is a draw",
                "the position is a draw with best play",
            ),
            known == "drawn",
        )
    return Said(
        "best play",
        t.pick(
            f"{NAMES[side]} wins with best play",
            f"with best play {NAMES[side]} wins",
            f"{NAMES[side]} wins with best play by both sides",
        ),
        known == ("white" if side else "black"),
    )


@maker
def en_passant(t: Teller) -> Said | None:
    return Said(
        "en passant",
        t.pick("en passant is possible", "en passant is legal", "an en passant capture is possible"),
        any(map(t.board.is_en_passant, t.moves)),
    )


@maker
def to_move(t: Teller) -> Said | None:
    side = t.colour()
    words = t.pick(
        f"{NAMES[side]} has the move",
        f"it is {NAMES[side]}'s move",
        f"{NAMES[side]} to move",
        f"{NAMES[side]} is to move",
    )
    return Said("to move", words, t.board.turn == side)


@maker
def wrong_man(t: Teller) -> Said | None:
    """A man that is not there makes the claim false, whatever is said of it."""
    at = t.square()
    kind = t.rng.choice([chess.KNIGHT, chess.BISHOP, chess.ROOK, chess.QUEEN])
    if t.board.piece_type_at(at) == kind:
        return None
    tail = t.pick("is attacked", "is undefended", "is pinned", "is guarded 0 times", "has 0 moves")
    return Said("no such man", f"the {chess.piece_name(kind)} on {chess.square_name(at)} {tail}", False)


@maker
def later(t: Teller) -> Said | None:
    """After one to three moves, another claim."""
    board = t.board.copy(stack=False)
    told = []
    for _ in range(t.rng.randint(1, 3)):
        moves = list(board.legal_moves)
        if not moves:
            break
        move = t.rng.choice(moves)
        told.append(board.san(move))
        board.push(move)
    if not told:
        return None
    said = t.rng.choice(MAKERS)(Teller(board, t.rng))
    if said is None or said.kind.startswith(("after", "if", "mate in")):
        return None
    return Said("after: " + said.kind, f"after {t.pick(' ', ', ').join(told)}, {said.words}", said.truth)


@maker
def passing(t: Teller) -> Said | None:
    side = t.board.turn
    free = exact.passed_turn(t.board)
    if free is None:
        return None
    said = t.rng.choice(MAKERS)(Teller(free, t.rng))
    if said is None or said.kind.startswith(("after", "if", "mate in")):
        return None
    return Said("if: " + said.kind, f"if {NAMES[side]} passes, {said.words}", said.truth)
