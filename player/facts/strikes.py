"""Forks, discovered attacks, skewers, threats, and what a move wins."""

from __future__ import annotations

import chess

from player.facts.attacks import SLIDERS, first_behind, would_pay
from player.facts.checks import moved
from player.facts.claim import Claim, Verdict, false, verdict
from player.facts.exchange import Nodes, gain_of, gains, pays
from player.facts.material import VALUES
from player.facts.scene import Played, Scene, man_on, named, the_move, wrong_man

_KING = 100


def worth(piece: chess.Piece) -> int:
    """The value of a man, in pawns; a king is worth more than anything."""
    return _KING if piece.piece_type == chess.KING else VALUES[piece.piece_type]


def forks(claim: Claim, scene: Scene) -> Verdict:
    """The moved man then attacks each square's enemy man: the king, one worth more, or an undefended one."""
    played = the_move(claim.move, scene)
    if isinstance(played, Verdict):
        return played
    wrong = wrong_man(claim, played.after)
    if wrong is not None:
        return wrong
    forker = played.after.piece_at(played.square)
    if forker is None or forker.piece_type == chess.KING:
        return false("A king does not fork, and neither does castling.")
    if len(set(claim.squares)) < len(claim.squares):
        return false("A fork hits two different squares.")
    for square in claim.squares:
        unhurt = _not_forked(played, forker, square)
        if unhurt:
            return false(unhurt)
    names = " and ".join(man_on(played.after, square) for square in claim.squares)
    return verdict(True, f"The {man_on(played.after, played.square)} hits {names}.", move=played.move)


def _not_forked(played: Played, forker: chess.Piece, square: chess.Square) -> str:
    target = played.after.piece_at(square)
    if target is None or target.color == forker.color:
        return f"No enemy man stands on {chess.SQUARE_NAMES[square]}."
    if square not in played.after.attacks(played.square):
        return f"The {man_on(played.after, played.square)} does not attack {chess.SQUARE_NAMES[square]}."
    if target.piece_type == chess.KING or worth(target) > worth(forker):
        return ""
    guard = next(iter(played.after.attackers(target.color, square)), None)
    if guard is None:
        return ""
    guarding = f"guarded by the {man_on(played.after, guard)}"
    return f"The {man_on(played.after, square)} is worth no more and {guarding}."


def forked_by(board: chess.Board, move: chess.Move) -> tuple[chess.Square, ...]:
    """The enemy men that the moved man would hit as a fork does, whatever their number; none for a king."""
    if board.piece_type_at(move.from_square) == chess.KING:
        return ()
    after = board.copy(stack=False)
    after.push(move)
    played = Played(board, move, after, "")
    forker = after.piece_at(move.to_square)
    assert forker is not None
    enemy = after.attacks(move.to_square) & after.occupied_co[not forker.color]
    return tuple(square for square in enemy if not _not_forked(played, forker, square))


def discovers(claim: Claim, scene: Scene) -> Verdict:
    """Another slider, which stood still, newly attacks the enemy man on the square."""
    played = the_move(claim.move, scene)
    if isinstance(played, Verdict):
        return played
    wrong = wrong_man(claim, played.after)
    if wrong is not None:
        return wrong
    square = claim.squares[0]
    if played.after.color_at(square) != (not played.mover):
        return false(f"No enemy man stands on {chess.SQUARE_NAMES[square]}.")
    before = played.before.attackers(played.mover, square)
    fresh = [
        slider
        for slider in played.after.attackers(played.mover, square) - before - moved(played)
        if played.after.piece_type_at(slider) in SLIDERS
    ]
    if fresh:
        return verdict(True, f"The {man_on(played.after, fresh[0])} now attacks it.", move=played.move)
    return false(
        f"After {played.san} no other bishop, rook or queen newly attacks {chess.SQUARE_NAMES[square]}."
    )


def skewers(claim: Claim, scene: Scene) -> Verdict:
    """A slider attacks a man with another behind it, worth no more, which the move then wins.

    It is won when, with the first gone, taking it is legal and pays, and when against every reply captures
    keep more than the move itself took.
    """
    played = the_move(claim.move, scene)
    if isinstance(played, Verdict):
        return played
    wrong = wrong_man(claim, played.after)
    if wrong is not None:
        return wrong
    front, behind = claim.squares[0], claim.squares[1]
    first, second = played.after.piece_at(front), played.after.piece_at(behind)
    for square, man in ((front, first), (behind, second)):
        if man is None or man.color == played.mover:
            return false(f"No enemy man stands on {chess.SQUARE_NAMES[square]}.")
    assert first is not None and second is not None
    if worth(first) < worth(second):
        return false(
            f"The {man_on(played.after, front)} is worth less than the {man_on(played.after, behind)}."
        )
    slider = _slider_through(played, front, behind)
    if slider is None:
        return false(
            f"No slider has {chess.SQUARE_NAMES[front]} and then {chess.SQUARE_NAMES[behind]} on one line."
        )
    saved = _saved(played, front, slider, behind, scene.nodes)
    if saved is not None:
        return false(saved)
    refuter = keeps_less(played, gain_of(played.before, played.move) + 1, scene.nodes)
    if refuter is None:
        return verdict(
            True,
            _falls(played, front, slider, behind),
            move=played.move,
        )
    if not refuter:
        return false(f"{played.san} ends the game, so nothing more is won.", move=played.move)
    return false(f"{played.after.san(refuter)} is a reply against which nothing is won.", move=refuter)


def _falls(played: Played, front: chess.Square, slider: chess.Square, behind: chess.Square) -> str:
    """Why the man behind is won."""
    line = chess.SquareSet(chess.ray(front, slider))
    steps = played.after.generate_legal_moves(chess.BB_SQUARES[front])
    if played.after.turn == played.after.color_at(front) and all(step.to_square in line for step in steps):
        return f"The {man_on(played.after, front)} cannot leave the line, and no reply saves as much."
    return f"When the {man_on(played.after, front)} leaves, the {man_on(played.after, behind)} falls."


def _slider_through(played: Played, front: chess.Square, behind: chess.Square) -> chess.Square | None:
    """The mover's slider that attacks the man in front with the other next behind it; None for no such."""
    for slider in played.after.attackers(played.mover, front):
        slides = played.after.piece_type_at(slider) in SLIDERS
        if slides and first_behind(played.after, slider, front) == behind:
            return slider
    return None


def _saved(
    played: Played, front: chess.Square, slider: chess.Square, behind: chess.Square, nodes: Nodes
) -> str | None:
    """Why taking the man behind does not pay; None where it does. A king in front goes where it may."""
    after = played.after
    if after.piece_type_at(front) != chess.KING:
        if would_pay(after, front, slider, behind, nodes):
            return None
        return f"Taking the {man_on(after, behind)} would not pay."
    line = chess.SquareSet(chess.ray(front, slider))
    for step in list(after.generate_legal_moves(chess.BB_SQUARES[front])):
        if step.to_square == slider:
            return f"{after.san(step)} takes the {man_on(after, slider)}."
        if step.to_square in line:
            continue
        then = after.copy(stack=False)
        then.push(step)
        take = chess.Move(slider, behind)
        if not then.is_legal(take) or not pays(then, take, nodes):
            return f"{after.san(step)} saves the {man_on(after, behind)}."
    return None


def threatens(claim: Claim, scene: Scene) -> Verdict:
    """If the other side passed, the second move would be legal, and be mate or win material by captures."""
    played = the_move(claim.move, scene)
    if isinstance(played, Verdict):
        return played
    if played.after.is_checkmate() or played.after.is_stalemate():
        return false(f"{played.san} ends the game; nothing is threatened any more.", move=played.move)
    board = played.after.copy(stack=False)
    board.push(chess.Move.null())
    if claim.word == "mate":
        for move in list(board.legal_moves):
            if claim.squares and move.to_square != claim.squares[0]:
                continue
            if _mates(board, move):
                return verdict(True, f"{board.san(move)} would be mate.", move=move)
        return false("No move would then be mate.")
    found = named(board, claim.reply)
    if isinstance(found, Verdict):
        return found
    san = board.san(found)
    if _mates(board, found):
        return verdict(True, f"{san} would be mate.", move=found)
    if pays(board, found, scene.nodes):
        return verdict(True, f"{san} would win material.", move=found)
    return false(f"{san} would neither mate nor win material by captures.", move=found)


def _mates(board: chess.Board, move: chess.Move) -> bool:
    if not board.gives_check(move):
        return False
    board.push(move)
    try:
        return board.is_checkmate()
    finally:
        board.pop()


def wins(claim: Claim, scene: Scene) -> Verdict:
    """Against every reply the capture routine keeps `number` pawns' worth more than stood before the move."""
    assert claim.number is not None
    played = the_move(claim.move, scene)
    if isinstance(played, Verdict):
        return played
    refuter = keeps_less(played, claim.number, scene.nodes)
    if refuter is None:
        return verdict(True, f"After {played.san} no reply gives less.", move=played.move)
    if not refuter:
        return false(f"{played.san} ends the game, and wins no more than it takes.", move=played.move)
    return false(f"{played.after.san(refuter)} is a reply against which less is won.", move=refuter)


def keeps_less(played: Played, amount: int, nodes: Nodes) -> chess.Move | None:
    """A reply after which the mover does not come out `amount` pawns' worth ahead; None where there is none.

    A null move where the game is over and the move itself took less. Raises OutOfNodes.
    """
    won = gain_of(played.before, played.move)
    after = played.after.copy(stack=False)
    replies = sorted(after.legal_moves, key=lambda move: -gain_of(after, move))
    if not replies:
        return None if won >= amount else chess.Move.null()
    for reply in replies:
        left = amount - won + gain_of(after, reply)
        after.push(reply)
        enough = gains(after, left, nodes)
        after.pop()
        if not enough:
            return reply
    return None
