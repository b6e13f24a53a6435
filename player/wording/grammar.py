"""The shapes of a phrase that names a move, as patterns over the kinds of its words.

A phrase is written as one letter a word (see `languages.KINDS`): "the knight from b to d2" is `P f F t S`.
Named groups say which word plays which part:

    p man   o origin   d arrival   T taking   v man taken   w where the taken man stands   q man promoted to
    s castling side   n number of squares a pawn is pushed
"""

from __future__ import annotations

import re
from functools import cache
from itertools import product

import chess

from player.wording.languages import Token
from player.wording.meaning import Meaning
from player.wording.tokens import Run, Slot

_MAN = "(?:(?P<p>P)(?:[fo]?(?P<o>[SFR]))?)"
_FILE_MAN = "(?:(?P<o>[SF])(?P<p>P))"
_VICTIM = "(?:(?P<w>[SF])?(?P<v>P))"
_TURN = "(?:X?t?(?P<q>P)|(?P<x>X))?"
_BECOMES = "(?:X(?:t?(?P<q>P))?)"
_PAWN = "(?:(?P<o>[SF])?(?P<p>P)(?:[fo]?(?P<o2>[SF]))?|(?P<o3>F))"

_PUT = re.compile(f"u{_MAN}oS")

# Each shape with what it means beyond its groups: with no man named, "pawn" is a pawn and "any" any man.
_SHAPES = (
    (f"{_MAN}t?(?P<d>S){_TURN}", ""),
    (f"{_FILE_MAN}t?(?P<d>S){_TURN}", ""),
    ("(?P<p>P)t?(?P<d>S)f(?P<o>[SFR])", ""),
    (f"u{_MAN}o(?P<d>S)", ""),
    (f"f?(?P<o>S)t?(?P<d>S){_TURN}", "any"),
    ("f?(?P<o>[FR])t(?P<d>S)", "any"),
    ("f(?P<o>[SFR])(?P<d>S)", "any"),
    ("t(?P<d>S)f(?P<o>[SFR])", "any"),
    (f"(?P<o>F)(?P<d>S){_TURN}", "pawn takes"),
    ("t(?P<d>S)", "any"),
    (f"t?(?P<d>S)w(?:{_MAN}|{_FILE_MAN.replace('<o>', '<o2>').replace('<p>', '<p2>')})", ""),
    (f"(?P<d>S){_TURN}", "pawn push"),
    # promotions that begin with the word
    ("(?:(?P<p2>P))?X(?:t?(?P<q>P))?(?:[ot]?(?P<d>S))?", "pawn promotes"),
    ("X(?:(?P<o>[SF])?P(?:o?(?P<o2>[SF]))?)t?(?P<q>P)(?:[ot](?P<d>S))?", "pawn promotes"),
    (
        "(?:(?P<o>[SF])P|(?P<o2>F)|(?P<p>P)o(?P<o3>[SF]))X(?:t?(?P<q>P))?(?:[ot]?(?P<d>S))?",
        "pawn promotes",
    ),
    ("X[ot]?(?P<d>S)(?:t?(?P<q>P))?", "pawn promotes"),
    # taking
    (f"{_MAN}(?P<T>T){_VICTIM}?(?:o?(?P<d>[SF]))?", ""),
    (f"{_FILE_MAN}(?P<T>T)(?:(?P<v>P))?(?:o?(?P<d>[SF]))?", ""),
    (f"{_FILE_MAN}(?P<T>T){_VICTIM}", ""),
    (f"{_MAN}(?P<T>T)(?:(?P<v>P))?o?(?P<d>[SF]){_TURN}", ""),
    (f"{_FILE_MAN}(?P<T>T)(?:(?P<v>P))?o?(?P<d>[SF]){_TURN}", ""),
    (f"(?P<o>F)(?P<T>T)(?:(?P<v>P))?o?(?P<d>[SF]){_TURN}", "pawn"),
    ("(?P<o>F)(?P<T>T)(?:(?P<w>[SF])?(?P<v>P))?", "pawn"),
    (f"f?(?P<o>S)(?P<T>T){_VICTIM}?(?:o?(?P<d>[SF]))?", "any"),
    (f"f?(?P<o>S)(?P<T>T)(?:(?P<v>P))?o?(?P<d>S){_TURN}", "any"),
    ("(?P<o>R)(?P<T>T)(?:(?P<v>P))?o?(?P<d>S)", "any"),
    (
        f"(?P<T>T){_VICTIM}?(?:[ot]?(?P<d>[SF]))?(?:[wf](?:(?P<p>P)(?:[fo]?(?P<o>[SFR]))?|(?P<o2>[SF])(?P<p2>P)?))?",
        "any",
    ),
    (f"(?P<T>T)(?:(?P<v>P))?[ot]?(?P<d>S){_TURN}", "any"),
    ("(?P<T>T)w(?:(?P<p>P)(?:[fo](?P<o>[SFR]))?|(?P<o2>[SF])(?P<p2>P))(?:o(?P<d>[SF]))?", "any"),
    (f"{_MAN}(?P<T>T){_VICTIM}(?:o?(?P<d>[SF]))?{_BECOMES}", ""),
    (f"{_FILE_MAN}(?P<T>T)(?:(?P<v>P))?{_BECOMES}", ""),
    (f"(?P<o>F)(?P<T>T)(?:(?P<v>P))?{_BECOMES}", "pawn"),
    (f"(?P<T>T)(?:(?P<v>P))?(?:o?(?P<d>[SF]))?{_BECOMES}", "any"),
    # castling
    ("(?P<p>P)?C(?:[to]?(?P<s>s))?", "castle"),
    ("(?P<p>P)?(?P<s>s)C", "castle"),
    # a pawn's steps
    (f"p{_PAWN}(?P<n>R)?", "push"),
    (f"p{_PAWN}t(?P<d>S)", "push"),
    ("pt?(?P<d>S)", "pawn push"),
    ("(?P<o>F)(?P<p>P)(?P<n>R)", "push"),
    (f"{_PAWN}p(?P<n>R)?", "push"),
    (f"{_PAWN}pt?(?P<d>S)", "push"),
    # taking back
    ("rT?(?:w(?:(?P<p>P)(?:[fo]?(?P<o>[SFR]))?|(?P<o2>[SF])(?P<p2>P)?))?", "back"),
    ("ro?(?P<d>S)(?:w(?:(?P<p>P)(?:[fo]?(?P<o>[SFR]))?|(?P<o2>[SF])(?P<p2>P)?))?", "back"),
    (f"(?:{_MAN}|(?P<o2>[SF])(?P<p2>P)|(?P<o3>F))r(?:o?(?P<d>S))?", "back"),
    ("ro?(?:(?P<v>P))(?:w(?P<p>P))?", "back"),
)


@cache
def _patterns() -> tuple[tuple[re.Pattern[str], str], ...]:
    """The shapes as patterns, made when the first phrase is heard."""
    return tuple((re.compile(shape), means) for shape, means in _SHAPES)


def runs(heard: list[Slot], limit: int = 96) -> list[Run]:
    """Every way of taking the phrase as one run of tokens, articles and fillers left out, files and ranks
    joined.
    """
    out: list[Run] = []
    seen: set[tuple[tuple[str, int], ...]] = set()
    for count, choice in enumerate(product(*heard)):
        if count >= limit:
            break
        run = _joined([token for part in choice for token in part])
        if run is None:
            continue
        key = tuple((token.kind, token.value) for token in run)
        if key not in seen:
            seen.add(key)
            out.append(run)
    return out


def _joined(tokens: list[Token]) -> Run | None:
    """Articles settled, a file and the rank after it made one square; None where a sound-alike is out of
    place.
    """
    kept: list[Token] = []
    for at, token in enumerate(tokens):
        if token.kind == "-":
            continue
        if token.kind == "_":
            if len(token.text) == 1 and _stands_for_file(tokens, at):
                kept.append(Token("F", "abcdefgh".index(token.text), token.text))
            continue
        kept.append(token)
    out: list[Token] = []
    at = 0
    while at < len(kept):
        token = kept[at]
        following = kept[at + 1] if at + 1 < len(kept) else None
        if token.kind == "F" and following is not None and following.kind == "R":
            if not following.weak or at + 2 == len(kept) or kept[at + 2].kind in "ceX":
                out.append(_square(token, following))
                at += 2
                continue
            return None
        if token.weak and token.kind in "FR" and not (token.text.isdigit() and out and out[-1].kind == "P"):
            return None
        if token.kind == "&":
            if following is None or following.kind not in "cXTeN":
                return None
        else:
            out.append(token)
        at += 1
    return tuple(out)


def _stands_for_file(tokens: list[Token], at: int) -> bool:
    """Whether a one-letter article is the file of that name: anywhere but before a man."""
    following = next((t for t in tokens[at + 1 :] if t.kind != "-"), None)
    if following is None or following.kind in "SFRTtf":
        return True
    return following.kind == "P" and at > 0 and tokens[at - 1].kind == "_"


def _square(file: Token, rank: Token) -> Token:
    text = f"{'abcdefgh'[file.value]}{rank.value + 1}"
    on_board = 0 <= rank.value <= 7
    return Token("S", chess.square(file.value, rank.value) if on_board else -1, text)


def meanings(run: Run) -> list[Meaning]:
    """What the run of tokens may say about one move; nothing where it has none of the known shapes."""
    end = len(run)
    passant = False
    while end and run[end - 1].kind in "ce":
        end -= 1
        passant = passant or run[end].kind == "e"
    kinds = "".join(token.kind for token in run[:end] if token.kind != "W")
    used = [token for token in run[:end] if token.kind != "W"]
    if "e" in kinds or "c" in kinds:
        passant = passant or "e" in kinds
        used = [token for token in used if token.kind not in "ec"]
        kinds = "".join(token.kind for token in used)
    if kinds.startswith("u") and not _PUT.fullmatch(kinds):
        used, kinds = used[1:], kinds[1:]
    out: list[Meaning] = []
    if passant and not kinds:
        return [Meaning(man=chess.PAWN, takes=True, passant=True)]
    if kinds == "T" and len(used[0].text) == 1:
        return out  # a lone x
    for pattern, means in _patterns():
        found = pattern.fullmatch(kinds)
        if found:
            meaning = _meaning(found, means, used, passant)
            if meaning is not None and meaning not in out:
                out.append(meaning)
    return out


def _meaning(found: re.Match[str], means: str, run: list[Token], passant: bool) -> Meaning | None:
    names = found.re.groupindex

    def token(*wanted: str) -> Token | None:
        for name in wanted:
            if name in names and found.start(name) >= 0:
                return run[found.start(name)]
        return None

    man, origin, arrival = token("p", "p2"), token("o", "o2", "o3"), token("d")
    promoted, victim, where = token("q"), token("v"), token("w")
    kind = man.value if man is not None else None
    if means in ("pawn", "pawn takes", "pawn push", "pawn promotes", "push") and kind is None:
        kind = chess.PAWN
    off = next((t.text for t in run if t.kind == "S" and t.value < 0), "") or next(
        (t.text for t in run if t.kind == "R" and not 0 <= t.value <= 7), ""
    )
    if means == "castle":
        if kind not in (None, chess.KING):
            return None
        side = token("s")
        return Meaning(
            castle=None if side is None else bool(side.value), any_castle=side is None, man=chess.KING
        )
    if means == "pawn promotes" and kind != chess.PAWN:
        return None
    if means == "push" and kind != chess.PAWN:
        return None
    promotes = promoted is not None or token("x") is not None or means == "pawn promotes"
    if promotes and kind not in (None, chess.PAWN):
        return None
    steps = token("n")
    origin_file, origin_rank = _place(origin)
    file, rank = _place(arrival)
    victim_file, victim_rank = _place(where)
    if means == "pawn takes" and origin_file == file:
        return None  # "ee5" is no notation
    if victim is not None and kind == chess.PAWN and means != "back" and victim_rank in (0, 7):
        return None  # "takes e8 queen" is a promotion
    return Meaning(
        man=kind,
        origin_file=origin_file,
        origin_rank=origin_rank,
        file=file,
        rank=rank,
        takes=token("T") is not None or means in ("back", "pawn takes"),
        victim=None if victim is None else victim.value,
        victim_file=victim_file,
        victim_square=None if where is None or where.kind != "S" or where.value < 0 else where.value,
        recaptures=means == "back",
        passant=passant,
        promotes=promotes,
        promotion=None if promoted is None else promoted.value,
        pawn_push=means in ("pawn push", "push"),
        steps=None if steps is None else steps.value + 1,
        parting=any(t.kind == "R" and t.weak for t in run),
        off=off,
    )


def _place(token: Token | None) -> tuple[int | None, int | None]:
    """The file and rank that a token names, each from 0."""
    if token is None or token.value < 0:
        return None, None
    if token.kind == "F":
        return token.value, None
    if token.kind == "R":
        return None, token.value
    return chess.square_file(token.value), chess.square_rank(token.value)
