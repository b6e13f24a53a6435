"""The forms in which one legal move may be said, and what each must come to."""

from __future__ import annotations

from collections.abc import Iterator

import chess

_FIGURINES = {"N": "♘", "B": "♗", "R": "♖", "Q": "♕", "K": "♔"}


def notations(board: chess.Board, move: chess.Move) -> Iterator[str]:
    """Notation that means exactly this move, whatever else is on the board."""
    san = board.san(move)
    bare = san.rstrip("+#")
    kind = board.piece_type_at(move.from_square) or 0
    a, b = chess.square_name(move.from_square), chess.square_name(move.to_square)
    promo = chess.piece_symbol(move.promotion) if move.promotion else ""
    if not (kind == chess.PAWN and bare.startswith("bx")):  # which may be the bishop's: see `loose`
        yield from (san, bare, f"{san}!", f"{san}?!", f"12. {san}", f"12...{san}")
    yield move.uci()
    yield move.uci().upper()
    yield f"{a}-{b}{promo}"
    yield f"{a} {b}{' ' + promo if promo else ''}"
    if board.is_castling(move):
        yield from (bare.replace("O", "0"), bare.lower(), bare.replace("-", ""), bare.replace("-", " "))
        return
    letter = "" if kind == chess.PAWN else chess.piece_symbol(kind).upper()
    taking = "x" if board.is_capture(move) else "-"
    yield f"{letter}{a}{b}{promo.upper()}"
    yield f"{letter}{a}{taking}{b}{promo.upper()}"
    if letter:
        yield f"{_FIGURINES[letter]}{bare[1:]}"
        yield f"{letter.lower()}{a}{b}"
        yield f"{letter} {bare[1:]}"
    if promo:
        yield from (
            f"{bare[:-2]}{promo.upper()}",
            f"{bare[:-2]}({promo.upper()})",
            f"{bare[:-2]}/{promo.upper()}",
        )
        yield f"{bare[:-2]} = {promo.upper()}"
    if board.is_en_passant(move) and not bare.startswith("bx"):
        yield from (f"{bare} e.p.", f"{bare}ep", f"{bare} en passant", f"{bare}e.p.")


def loose(board: chess.Board, move: chess.Move) -> Iterator[str]:
    """Notation in the wrong case or with marks left out: this move, or a question with it among the
    answers.
    """
    bare = board.san(move).rstrip("+#")
    yield bare
    yield bare.lower()
    yield bare.upper()
    yield bare.replace("x", "")
    yield bare.replace("x", ":")
    yield bare.replace("=", "").lower()
    yield " ".join(bare.replace("=", "")) if not board.is_castling(move) else bare.lower()


def words(board: chess.Board, move: chess.Move) -> Iterator[str]:
    """Words that mean exactly this move."""
    if board.is_castling(move):
        short = board.is_kingside_castling(move)
        yield from ("castle short", "castles kingside", "short castle", "castling king side") if short else (
            "castle long", "castles queenside", "long castle", "castling queen side",
        )  # fmt: skip
        return
    kind = chess.piece_name(board.piece_type_at(move.from_square) or 0)
    a, b = chess.square_name(move.from_square), chess.square_name(move.to_square)
    promo = f" promotes to a {chess.piece_name(move.promotion)}" if move.promotion else ""
    yield f"{kind} from {a} to {b}{promo}"
    yield f"the {kind} on {a} goes to {b}{promo}, please"
    yield f"from {a} to {b}{promo}"
    yield f"move the {kind} on {a} to {b}{promo}"
    yield f"{kind} {a[0]} {a[1]} to {b[0]} {b[1]}{promo}"
    if board.is_capture(move):
        victim = board.piece_type_at(move.to_square)
        yield f"{kind} on {a} takes {b}{promo}"
        yield f"{kind} from {a} takes on {b}{promo}"
        yield f"{kind} {a} captures {'pawn' if victim is None else chess.piece_name(victim)} on {b}{promo}"
        if not promo:
            yield f"take on {b} with the {kind} from {a}"
    if move.promotion:
        yield f"{kind} {a} {b} {chess.piece_name(move.promotion)}"


def slips(text: str) -> Iterator[str]:
    """The text with one square wrong: another file, another rank, or one that does not exist."""
    for at in range(len(text) - 1):
        if text[at] in "abcdefgh" and text[at + 1] in "12345678" and (at == 0 or not text[at - 1].isalpha()):
            for file in "abcdefgh":
                if file != text[at]:
                    yield text[:at] + file + text[at + 1 :]
            for rank in "123456789":
                if rank != text[at + 1]:
                    yield text[: at + 1] + rank + text[at + 2 :]
            yield text[:at] + text[at + 1] + text[at] + text[at + 2 :]
            yield text[: at + 1] + text[at + 1] * 2 + text[at + 2 :]
            yield text[:at] + "i" + text[at + 1 :]
