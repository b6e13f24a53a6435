"""Prose against what could be taken next: who can take back, and who can take it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

import chess

from player.check.prose.doubt import Doubt
from player.check.prose.passages import Boards, Passage, tight_places
from player.check.prose.words import KIND, KINDS, SQUARE, denied, sentence, supposed
from player.facts.exchange import best_gain, gain_of
from player.facts.place import Place, is_playable
from player.facts.replies.choose import find
from player.facts.replies.question import Question

_MAN = (
    rf"(?:[Tt]he|[Aa]|[Oo]ur|[Hh]is|[Hh]er|[Mm]y|[Yy]our|(?P<whose>White|Black)'s)"
    rf"(?: (?P<color>white|black))? (?:(?P<file>[a-h])-)?(?P<kind>{KIND})(?: (?:on|from) (?P<on>{SQUARE}))?"
)
_WHO = rf"(?P<who>(?P<none>[Nn]obody|[Nn]o one|[Nn]othing)|White|Black|[Ww]e|[Hh]e|[Ss]he|it|{_MAN})"
_CANNOT = r"(?:cannot|can't|can not|can no longer|may no longer|is unable to)"
_CAN = r"(?:can|may|could|is there to) (?:still |now |also |always |simply )?"
_BACK = re.compile(
    rf"\b{_WHO},? (?:is left |is there )?(?:(?P<not>{_CANNOT}) |(?P<can>{_CAN}))?(?:to )?"
    rf"(?P<it>takes? (?:straight |right |at once |simply )?back|recaptures?)(?: at once)?"
    rf"(?: on (?P<square>{SQUARE}))?(?: with (?:the|a|his|her|our) (?P<kind2>{KIND}))?\b"
)
_IT = re.compile(
    rf"\b{_WHO},? (?:then |still )?(?:(?P<not>{_CANNOT}) |(?P<can>{_CAN}))(?:then )?(?P<it>take|capture)"
    rf" (?P<what>it|him|her|on (?P<square>{SQUARE})|(?:the|a|that|this) (?P<prey>{KIND}))\b"
    r"(?! with check| back)"
)
_PASSIVE = re.compile(
    rf"\b(?:[Tt]he|[Oo]ur|[Hh]is|[Hh]er|[Yy]our) (?P<kind>{KIND})(?: on (?P<on>{SQUARE}))? "
    r"(?:can|could|may) (?:now |then |simply )?(?P<it>be (?:taken|captured))\b(?! en passant)"
)
_REASON = re.compile(r"\b(?:because|without|for|since|as|thanks|either|so long|while)\b|, or\b|[:;—–]")
_LATER = re.compile(r"\b(?:later|one day|some day|ever)\b", re.IGNORECASE)
_IF = re.compile(
    r"\b(?:[Ii]f|[Ww]hen|[Oo]nce|[Aa]fter|[Ll]ater|[Uu]nless|[Nn]ext|[Ss]oon|[Uu]ntil|[Ss]uppose|[Ii]magine|would|"
    r"one day|how|whether|where|what|why)\b|\?"
)
_ON = re.compile(rf"\b{KIND} (?:stands |is |sits )?on (?P<square>{SQUARE})\b")
_BUT = re.compile(r",? (?:but|except|save|other than|than|apart from)\b")
_TAKE = re.compile(r"\b(?:takes?|captures?|taken|captured)\b")
_HARMFUL = ("mate", "stalemate", "wins", "fork", "pin", "skewer", "attack", "win lost", "draw lost")
_SAID = ("reply", "also", "otherwise", "because", "nudge")
_FEW = 800


@dataclass(frozen=True, slots=True)
class _Takers:
    """The men that words say can take: by side, kind, file and square, each where it is said."""

    white: bool | None
    kind: int | None = None
    file: int | None = None
    on: int | None = None

    def moves(self, board: chess.Board, square: int | None = None) -> list[chess.Move]:
        """The legal captures of these men, on the square where one is said."""
        if self.white is not None and board.turn != self.white:
            return []
        return [
            move
            for move in board.generate_legal_captures()
            if square in (None, move.to_square)
            and self.kind in (None, board.piece_type_at(move.from_square))
            and self.file in (None, chess.square_file(move.from_square))
            and self.on in (None, move.from_square)
        ]


def retaken_doubts(passage: Passage, boards: Boards, side: str) -> Iterator[Doubt]:
    """Doubts about captures that the words hold to be possible or impossible."""
    if passage.role in ("idea", "part", "title"):
        return
    for found in _BACK.finditer(passage.text):
        yield from _taking_back(passage, boards, side, found)
    for found in _PASSIVE.finditer(passage.text):
        open_ = denied(passage.text, found.start()) or supposed(passage.text, *found.span(), wide=True)
        if not open_ and not _can_fall(passage, boards, found):
            yield _doubt(found, "it", f"Nothing can take a {found['kind']} so near here.")
    for found in _IT.finditer(passage.text):
        yield from _taking_it(passage, boards, side, found)


def _doubt(found: re.Match[str], group: str | int, message: str, code: str = "prose-capture") -> Doubt:
    return Doubt(found.start(group), found.end(group), code, message)


def _takers(found: re.Match[str], side: str) -> _Takers:
    who = found["who"]
    color = found["whose"] or found["color"] or (who if who in ("White", "Black") else None)
    white = None if color is None else color.lower() == "white"
    if white is None and re.match(r"(?:[Ww]e|[Oo]ur|[Mm]y)\b", who) and side in ("white", "black"):
        white = side == "white"
    return _Takers(
        white,
        KINDS[found["kind"].lower()] if found["kind"] else None,
        chess.FILE_NAMES.index(found["file"]) if found["file"] else None,
        chess.parse_square(found["on"]) if found["on"] else None,
    )


def _landed(place: Place, boards: Boards) -> int | None:
    """The square of the last move of a place, where it is a capture."""
    if not place.moves:
        return None
    before = boards.of(Place(place.root, place.moves[:-1]))
    move = chess.Move.from_uci(place.moves[-1])
    return move.to_square if before.is_capture(move) else None


def _taking_back(passage: Passage, boards: Boards, side: str, found: re.Match[str]) -> Iterator[Doubt]:
    """ "Nobody can take back", "our bishop can take back": after the capture told, or any possible one."""
    text, takers = passage.text, _takers(found, side)
    no = bool(found["not"] or found["none"])
    if (not no and denied(text, found.start())) or _BUT.match(text, found.end()):
        return
    if found["kind2"]:
        takers = _Takers(takers.white, KINDS[found["kind2"]])
    wanted = chess.parse_square(found["square"]) if found["square"] else None
    told = [turn.after for at, turn in passage.turns if at < found.start()][-1:]
    if not told:
        told = list(passage.replied) or [place for place in (passage.moved,) if place]
        told = [passage.answer.after] if passage.answer and passage.role in ("nudge", "because") else told
    made = [(boards.of(one), square) for one in told if (square := _landed(one, boards)) is not None]
    first, _ = sentence(text, *found.span())
    supposing = bool(_IF.search(text[first : found.start()]) or _TAKE.search(text[first : found.start()]))
    hedged = _REASON.search(_rest(text, found)) or "at once" in found[0]
    if no and made and not supposing:
        if not hedged and all(
            takers.moves(board, square) and wanted in (None, square) for board, square in made
        ):
            san = made[0][0].san(takers.moves(*made[0])[0])
            yield _doubt(found, 0, f"{san} takes back.")
        return
    sure = found["can"] and not found["can"].startswith("could") and not _IF.search(_rest(text, found))
    if made and sure and not supposing:
        if not any(takers.moves(board, square) and wanted in (None, square) for board, square in made):
            yield _doubt(found, 0, "Nobody of the kind can take back here.")
        return
    near = [passage.at(found.start()), passage.before]
    near = near if no else [*tight_places(passage, found.start()), *passage.places()]
    might = [(boards.of(one), square) for one in near if (square := _landed(one, boards)) is not None]
    for place in dict.fromkeys(near):
        might += _possible(boards.of(place), wanted, None if no else takers)
    if no:
        asked = passage.role in ("reply", "otherwise", "because") or _TAKE.search(text[first : found.start()])
        might = [] if not asked or hedged else might
        might = [one for one in might if takers.white in (None, one[0].turn) and wanted in (None, one[1])]
        if might and (supposing or wanted) and all(takers.moves(board, square) for board, square in might):
            yield _doubt(found, 0, "That capture can be answered by a capture on the same square.")
    elif (
        (found["can"] or passage.role in _SAID)
        and not _LATER.search(text[first : found.start()])
        and not any(takers.moves(board, square) for board, square in might if wanted in (None, square))
    ):
        yield _doubt(found, 0, "Nobody of the kind can take back near here.")


def _rest(text: str, found: re.Match[str]) -> str:
    return text[found.end() : sentence(text.replace(":", ","), *found.span())[1]]


def _possible(
    board: chess.Board, wanted: int | None, takers: _Takers | None
) -> list[tuple[chess.Board, int]]:
    """The boards after each legal capture, and where it lands; of either side where takers are looked for."""
    out = []
    turned = board.copy(stack=False)
    turned.turn = not board.turn
    turned.ep_square = None
    for one in (board, turned) if takers is not None and turned.is_valid() else (board,):
        for move in one.generate_legal_captures():
            if wanted in (None, move.to_square):
                after = one.copy(stack=False)
                after.push(move)
                out.append((after, move.to_square))
    return out


def _taking_it(passage: Passage, boards: Boards, side: str, found: re.Match[str]) -> Iterator[Doubt]:
    """ "The g-pawn can take it", "Black can no longer take it": of the man just moved, or the one named."""
    text, takers = passage.text, _takers(found, side)
    first, last = sentence(text.replace(":", ","), *found.span())
    no = bool(found["not"] or found["none"])
    open_ = _IF.search(text[first:last]) or _BUT.match(text, found.end())
    if open_ or (not no and denied(text, found.start())):
        return
    near = list(passage.replied) or [passage.at(found.start())]
    if passage.role in ("nudge", "because") and passage.answer:
        near = [passage.answer.after]
    if no:
        if _REASON.search(text[found.end() : last]) or len(near) != 1 or passage.role == "back":
            return
        place = near[0]
        square = chess.parse_square(found["square"]) if found["square"] else None
        if found["what"] in ("it", "him", "her"):
            square = _meant(text[first : found.start()], place)
        if square is None or not is_playable(boards.of(place)):
            return
        good = [move for move in takers.moves(boards.of(place), square) if _is_good(boards.of(place), move)]
        if good:
            yield _doubt(found, 0, f"{boards.of(place).san(good[0])} is possible.")
        return
    if found["what"] in ("it", "him", "her") and passage.role in ("reply", "also"):
        lead = passage.text[: found.start()]
        plain = passage.replied and not re.search(rf"{KIND}|{SQUARE}", lead)
        if plain and not any(at < found.start() for at, _ in passage.turns):
            moved = [
                (boards.of(one), chess.Move.from_uci(one.moves[-1]).to_square) for one in near if one.moves
            ]
            if not any(takers.moves(board, square) for board, square in moved):
                yield _doubt(found, 0, "The man just moved cannot be taken so.")
            return
    wide = [
        boards.of(one)
        for one in dict.fromkeys([*near, *tight_places(passage, found.start()), *passage.places()])
    ]
    wanted = chess.parse_square(found["square"]) if found["square"] else None
    prey = KINDS[found["prey"]] if found["prey"] else None
    for board in wide:
        for one in (board, _turned(board)):
            for move in takers.moves(one, wanted):
                if prey in (None, one.piece_type_at(move.to_square) or chess.PAWN):
                    return
    yield _doubt(found, 0, "No such capture is possible near here.")


def _can_fall(passage: Passage, boards: Boards, found: re.Match[str]) -> bool:
    """Whether some man of the kind (on the square) is looked at by the other side on a board near."""
    square = chess.parse_square(found["on"]) if found["on"] else None
    near = [boards.of(one) for one in (*tight_places(passage, found.start()), *passage.places())]
    near = [boards.of(one) for one in passage.replied] if passage.replied and not passage.turns else near
    return any(
        board.attackers(not white, man)
        for board in near
        for white in chess.COLORS
        for man in board.pieces(KINDS[found["kind"]], white)
        if square in (None, man)
    )


def _meant(lead: str, place: Place) -> int | None:
    """The square of the man meant by "it": the one named with its square, else the one just moved."""
    named = list(_ON.finditer(lead))
    if named:
        return chess.parse_square(named[-1]["square"])
    if re.search(KIND, lead) or not place.moves:
        return None
    return chess.Move.from_uci(place.moves[-1]).to_square


def _turned(board: chess.Board) -> chess.Board:
    turned = board.copy(stack=False)
    turned.turn = not board.turn
    return turned


def _is_good(board: chess.Board, move: chess.Move) -> bool:
    """Whether a capture loses nothing that captures, forks and the like could show."""
    after = board.copy(stack=False)
    after.push(move)
    if not is_playable(after):
        return False
    lost = best_gain(after, _FEW)
    if lost is None or lost > gain_of(board, move):
        return False
    return find(Question(board.copy(stack=False)), move).kind not in _HARMFUL
