"""Who attacks, guards and pins whom."""

from __future__ import annotations

import chess

from player.facts.claim import Claim, Verdict, false, verdict
from player.facts.exchange import Nodes, pays
from player.facts.material import VALUES
from player.facts.scene import Scene, counted, man_on, men_on, the_man, white_or_black, wrong_man

SLIDERS = (chess.BISHOP, chess.ROOK, chess.QUEEN)


def attacked(claim: Claim, scene: Scene) -> Verdict:
    """A man of the other colour attacks its square directly, or exactly N do; pins ignored, no batteries."""
    man = the_man(claim, scene.board)
    if isinstance(man, Verdict):
        return man
    assert claim.square is not None
    if claim.colour == man.color:
        return false(f"It is {white_or_black(man.color)}'s own man.")
    by = scene.board.attackers(not man.color, claim.square)
    wrong = wrong_man(claim, scene.board)
    if wrong is not None:
        return wrong
    by = _meant(claim, scene.board, by, not man.color)
    holds = bool(by) if claim.number is None else len(by) == claim.number
    return verdict(holds, f"It is attacked by {men_on(scene.board, by)}.")


def attacks(claim: Claim, scene: Scene) -> Verdict:
    """Exactly N men of a side attack a square directly; at least one where no number is said."""
    assert claim.square is not None and claim.colour is not None
    if claim.man is not None and isinstance(man := the_man(claim, scene.board), Verdict):
        return man
    by = scene.board.attackers(claim.colour, claim.square)
    because = (
        f"{white_or_black(claim.colour)} attacks {chess.SQUARE_NAMES[claim.square]} with "
        f"{counted(len(by), 'man')}{_which(scene.board, by)}."
    )
    return verdict(len(by) == claim.number if claim.number is not None else bool(by), because)


def man_attacks(claim: Claim, scene: Scene) -> Verdict:
    """A man attacks or guards a square directly, whoever stands there; pins ignored."""
    man = the_man(claim, scene.board)
    if isinstance(man, Verdict):
        return man
    wrong = wrong_man(claim, scene.board)
    if wrong is not None:
        return wrong
    assert claim.square is not None
    target = claim.squares[0]
    holds = target in scene.board.attacks(claim.square)
    reach = f"{'reaches' if holds else 'does not reach'} {chess.SQUARE_NAMES[target]}"
    return verdict(holds, f"The {man_on(scene.board, claim.square)} {reach}.")


def guarded(claim: Claim, scene: Scene) -> Verdict:
    """Exactly N own men guard a man's square; at least one where no number is said."""
    man = the_man(claim, scene.board)
    if isinstance(man, Verdict):
        return man
    assert claim.square is not None
    wrong = wrong_man(claim, scene.board)
    if wrong is not None:
        return wrong
    by = _meant(claim, scene.board, scene.board.attackers(man.color, claim.square), man.color)
    because = f"It is guarded by {counted(len(by), 'man')}{_which(scene.board, by)}."
    return verdict(len(by) == claim.number if claim.number is not None else bool(by), because)


def _meant(claim: Claim, board: chess.Board, by: chess.SquareSet, side: chess.Color) -> chess.SquareSet:
    """Of the men that hit a square, those a claim names by square or kind; all where it names none."""
    if claim.squares:
        by = by & chess.BB_SQUARES[claim.squares[0]]
    if claim.word:
        by = by & board.pieces(chess.PIECE_NAMES.index(claim.word), side)
    return by


def _which(board: chess.Board, by: chess.SquareSet) -> str:
    return f": {men_on(board, by)}" if by else ""


def pinned(claim: Claim, scene: Scene) -> Verdict:
    """A man pinned to its king or to a man worth more; with `squares`, to the man on that square."""
    man = the_man(claim, scene.board)
    if isinstance(man, Verdict):
        return man
    assert claim.square is not None
    if man.piece_type == chess.KING:
        return false("A king is never pinned.")
    wrong = wrong_man(claim, scene.board)
    if wrong is not None:
        return wrong
    found = pins(scene.board, claim.square, scene.nodes)
    if claim.word:
        kind = chess.PIECE_NAMES.index(claim.word)
        found = [(slider, behind) for slider, behind in found if scene.board.piece_type_at(behind) == kind]
        if not found:
            return false(f"Nothing pins it to a {claim.word}.")
    if claim.squares:
        behind = claim.squares[0]
        for slider, other in found:
            if other == behind:
                return verdict(True, f"The {man_on(scene.board, slider)} pins it.")
        elsewhere = f" It is pinned to {chess.SQUARE_NAMES[found[0][1]]}." if found else ""
        return false(f"Nothing pins it to {chess.SQUARE_NAMES[behind]}.{elsewhere}")
    if not found:
        return false("No enemy bishop, rook or queen has it on a line before a man that could be won.")
    slider, behind = found[0]
    return verdict(True, f"The {man_on(scene.board, slider)} pins it to the {man_on(scene.board, behind)}.")


def pins(board: chess.Board, square: chess.Square, nodes: Nodes) -> list[tuple[chess.Square, chess.Square]]:
    """Every pin of the man on a square: the enemy slider, and the man behind. Raises OutOfNodes."""
    piece = board.piece_at(square)
    if piece is None or piece.piece_type == chess.KING:
        return []
    out: list[tuple[chess.Square, chess.Square]] = []
    for slider in board.attackers(not piece.color, square):
        if board.piece_type_at(slider) not in SLIDERS:
            continue
        behind = first_behind(board, slider, square)
        other = None if behind is None else board.piece_at(behind)
        if behind is None or other is None or other.color != piece.color:
            continue
        if other.piece_type == chess.KING:
            out.append((slider, behind))
            continue
        worth, own = VALUES[other.piece_type], VALUES[piece.piece_type]
        loose = worth >= 3 and worth >= own and not board.attackers(piece.color, behind)
        if (worth > own or loose) and would_pay(board, square, slider, behind, nodes):
            out.append((slider, behind))
    return out


def first_behind(board: chess.Board, slider: chess.Square, front: chess.Square) -> chess.Square | None:
    """The first man behind `front` on the slider's line through it, or None."""
    step_file = _sign((front & 7) - (slider & 7))
    step_rank = _sign((front >> 3) - (slider >> 3))
    file, rank = (front & 7) + step_file, (front >> 3) + step_rank
    while 0 <= file <= 7 and 0 <= rank <= 7:
        square = chess.square(file, rank)
        if board.occupied & chess.BB_SQUARES[square]:
            return square
        file, rank = file + step_file, rank + step_rank
    return None


def would_pay(
    board: chess.Board, front: chess.Square, slider: chess.Square, behind: chess.Square, nodes: Nodes
) -> bool:
    """Whether, with the man in front gone, the slider could legally take the man behind, and win by it."""
    gone = board.copy(stack=False)
    gone.turn = bool(board.color_at(slider))
    gone.ep_square = None
    gone.remove_piece_at(front)
    move = chess.Move(slider, behind)
    return gone.is_legal(move) and pays(gone, move, nodes)


def _sign(number: int) -> int:
    return (number > 0) - (number < 0)
