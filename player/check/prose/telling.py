"""Prose against the moves told in it: who moves, what is taken, what gives check, where one castles."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

import chess

from player.check.prose.doubt import Doubt
from player.check.prose.passages import Boards, Passage
from player.check.prose.words import HYPOTHETICAL, KIND, denied, sentence, supposed
from player.facts.place import Place

_TAKES = re.compile(
    r"\b(?:(?:takes?|took|taking|captures?|captured|capturing|snaps? off|grabs?)"
    r"(?= (?:back\b|on [a-h][1-8]\b|[a-h][1-8]\b|it\b|him\b|(?:the|a|his|her|our|this|that|white's|black's) "
    r"(?:[\w]+ )?(?:[a-h]-)?(?:pawn|knight|bishop|rook|queen|man|piece)\b|with"
    r" (?:the|his|our|a)\b))|recaptur\w+)",
    re.IGNORECASE,
)
AWAY = re.compile(rf"(?: on)? [a-h][1-8](?:,? and [a-h][1-8])* (?:away )?from (?:\w+ ){{0,2}}{KIND}", re.I)
_UNREAL = re.compile(r"\b(?:could|would|might|should) have\b|\b[Ii]f\b[^.;!?]*? (?:were|had)\b")
_CHECK = re.compile(
    r"\b(?P<not>(?:not|no|without|not a|isn't) )?(?P<it>checks?|in check)\b"
    r"(?! (?:that|whether|if|out|up|the|your|every|each|again|them|everything|twice)\b)(?!mat)",
    re.IGNORECASE,
)
_MATE = re.compile(
    r"\b(?P<not>not |no )?(?P<it>(?:is|gives?|giving|with|that's|it's) (?P<neg>not |no )?(?:a"
    r" )?(?:check)?mate)\b(?! in\b)",
    re.IGNORECASE,
)
_SIDE = re.compile(
    r"(?:^|[,;:.—–] |\b(?:and|then|now|here|but|so|[Ii]f|[Ww]hen|[Ss]uppose|[Oo]nce)"
    r" )(?P<who>White|Black|[Ww]e|NAMES)(?P<own>'s?)?(?= [a-z{])"
)
_TO_MOVE = re.compile(
    r"\b(?P<who>White|Black)(?:'s (?:move|turn)\b|(?: is|,)? (?:to move|to play)\b|"
    r" (?:who |is the one who |still )?(?:must|has to|need not|needs not)"
    r" (?:step|give way|move|go|choose)\b)|"
    r"\b(?:it is|it's|is it) (?P<who2>White|Black|our|your|my)(?:'s)? (?:turn|move|to move)\b"
)
_CASTLES = re.compile(
    r"\bcastl\w+ (?:on the )?(?P<wing>king|queen)(?:'s )?-?\s?side|\bcastl\w+ (?P<short>short|long)\b",
    re.IGNORECASE,
)
_OUT_OF = re.compile(r"\b(?:out of|escapes?|leaves?|runs? from) (?:the )?check\b")
_NOT_TAKES = re.compile(
    r"\b(?:do not|does not|did not|declines? to|declined to|refuses? to|refused to) (?:take|capture)\b"
    r"(?: back| it| him)?(?= ?[,.;:!?])"
)
_TAKES_WITH = re.compile(
    r"\b(?:may|can|must|also|simply|(?:[Ww]e|[Hh]e|[Ss]he|White|Black)(?=[^.;:,]* with $)) "
    r"(?P<it>takes?|captures?)(?: in the (?:middle|centre)| back| there| at once| with)?[,:]? $"
)
_TAKES_IT = re.compile(
    r"(?<=[.!?] )(?P<it>(?:He|She|It|White|Black) (?:captures|recaptures|takes)(?=[.;!])|"
    r"(?:He|She|White|Black) takes (?:(?:it|back)\b|on [a-h][1-8]\b(?=[^.?!]*\binstead\b))"
    r"|(?:He|She|White|Black) has taken (?:the|it|a)\b"
    r"|(?:There |Now |Here )?[Tt]he (?:pawn|knight|bishop|rook|queen|king) (?:captures|takes)(?=[.,;!]))"
)
_CUT = re.compile(r"[,;.!?](?= )")
_AND_DOES = re.compile(
    r"\band (?:then |so |now |at once )?(?:plays?|goes|takes?|pushes|steps|develops|answers|moves)\b"
)
_AIMS = re.compile(r"\b(?:threat\w*|wants?|would (?:like|love)|hopes?|wishes|eyes|looks?|attacks?)\b")
_IF = re.compile(r"\b(?:if|when|suppose|unless|once|should|let)\b", re.IGNORECASE)
_HAS_ONE = re.compile(
    r"\b(?:has|have|had|sees?|saw|finds?|wants?|needs?|looks? for|there is) (?:a|another|any) $"
)
_RIGHT_AFTER = re.compile(r"[^.;:!?,]*, with (?:a )?")
_BUT = re.compile(
    r"\b(?:so|but|while|after|because|when|if|since|though|as|for|before|until|against|our|he|she|they)\b",
    re.IGNORECASE,
)


def telling_doubts(
    passage: Passage, boards: Boards, side: str, players: Mapping[str, bool]
) -> Iterator[Doubt]:
    """Doubts about what the words of a passage say of its moves."""
    if passage.role in ("idea", "part"):
        return
    yield from _movers(passage, boards, side, players)
    yield from _captures(passage, boards)
    yield from _checks(passage, boards)
    yield from _no_captures(passage)
    for found in _OUT_OF.finditer(passage.text):
        spoken = [place for place in (passage.last(found.start()), passage.before, *passage.near) if place]
        spoken += [Place(place.root, place.moves[:-1]) for place in spoken if place.moves]
        if not supposed(passage.text, *found.span()) and not any(boards.of(one).is_check() for one in spoken):
            yield Doubt(found.start(), found.end(), "prose-check", "Nobody was in check here.")
    yield from _turn(passage, boards, side)
    for found in _CASTLES.finditer(passage.text):
        short = (found["wing"] or "").lower() == "king" or (found["short"] or "").lower() == "short"
        castled = [move for before, move in _moves(passage, boards) if before.is_castling(move)]
        if castled and not any((chess.square_file(move.to_square) > 4) == short for move in castled):
            wing = "kingside" if not short else "queenside"
            yield Doubt(found.start(), found.end(), "prose-wing", f"The castling told here is {wing}.")


def _moves(passage: Passage, boards: Boards) -> list[tuple[chess.Board, chess.Move]]:
    """The moves a passage may speak of: its own, its answer, its reply, the last and the next told."""
    places = [turn.after for _, turn in passage.turns]
    places += passage.replied
    if passage.answer:
        places.append(passage.answer.after)
    if passage.moved:
        places.append(passage.moved)
    if not passage.turns or passage.role in ("title", "back"):
        places += [turn.after for turn in passage.ahead[:1]]
    if passage.role == "back":
        places += [place for place in passage.near if place.moves]
    return [_step(place, boards) for place in dict.fromkeys(places) if place.moves]


def _step(place: Place, boards: Boards) -> tuple[chess.Board, chess.Move]:
    return boards.of(Place(place.root, place.moves[:-1])), chess.Move.from_uci(place.moves[-1])


def _movers(passage: Passage, boards: Boards, side: str, players: Mapping[str, bool]) -> Iterator[Doubt]:
    names = "|".join(map(re.escape, players)) or "(?!)"
    pattern = re.compile(_SIDE.pattern.replace("NAMES", names))
    text, end = passage.text, -1
    for at, turn in passage.turns:
        first = sentence(text.replace(":", ","), at, at)[0]
        if end >= first:
            cuts = [found.end() for found in _CUT.finditer(text, max(end, 0), at)]
            first = cuts[-1] if cuts else at
        lead = text[first:at]
        end = at
        subjects = list(pattern.finditer(lead.lstrip()))
        if not subjects:
            continue
        shift = first + len(lead) - len(lead.lstrip())
        said = subjects[-1]
        if lead.endswith(": ") and len({one["who"] for one in subjects}) > 1 and at != passage.turns[-1][0]:
            said = subjects[0]
        rest = lead.lstrip()[said.end() :]
        who = _colour(said["who"], side, players)
        mover = boards.of(turn.before).turn
        if who is None or who == mover or said["own"] or _BUT.search(rest):
            continue
        if _AIMS.search(rest) and not _AND_DOES.search(rest):
            continue
        if (
            _IF.search(lead.lstrip()[: said.start("who")])
            and "," in rest
            and not re.search(r", (?:say|for instance|perhaps)(?: with)? $", rest)
        ):
            continue
        own = chess.COLOR_NAMES[mover].capitalize()
        yield Doubt(
            shift + said.start("who"),
            shift + said.end("who"),
            "prose-side",
            f"{turn.san} is a move of {own}.",
        )


def _colour(word: str, side: str, players: Mapping[str, bool]) -> bool | None:
    if word in ("White", "Black"):
        return word == "White"
    if word.lower() == "we":
        return None if side not in ("white", "black") else side == "white"
    return players.get(word)


def _captures(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """A capture told right at a move that takes nothing."""
    text = passage.text
    for found in _TAKES.finditer(text):
        if denied(text, found.start()) or AWAY.match(text, found.end()):
            continue
        first, last = sentence(text, *found.span())
        told = [(at, turn) for at, turn in passage.turns if first <= at <= last]
        if passage.role in ("reply", "also", "because", "nudge", "otherwise", "question", "choice"):
            continue
        if (
            not told
            and passage.role == "title"
            and not supposed(text[3:], found.start() - 3, found.end() - 3)
        ):
            told = [(0, turn) for turn in passage.ahead[:2]]
        if supposed(text, *found.span()) and passage.role != "title":
            continue
        if not told:
            continue
        near = [turn for at, turn in told if at >= found.start()][:1] + [
            turn for at, turn in told if at < found.start()
        ][-1:]
        if passage.role == "title":
            near = [turn for _, turn in told]
        if not any("x" in turn.san for turn in near):
            yield Doubt(found.start(), found.end(), "prose-capture", f"{near[0].san} takes nothing.")


def _no_captures(passage: Passage) -> Iterator[Doubt]:
    """A capture that is denied and told in one breath; "he takes it" right after a quiet move."""
    text = passage.text
    for found in _NOT_TAKES.finditer(text):
        first, last = sentence(text.replace(":", ","), *found.span())
        next_one = next((turn for at, turn in passage.turns if found.end() <= at <= last), None)
        if (
            next_one is not None
            and "x" in next_one.san
            and not HYPOTHETICAL.search(text, first, found.start())
        ):
            yield Doubt(found.start(), found.end(), "prose-capture", f"{next_one.san} does take something.")
    for at, turn in passage.turns:
        lead = _TAKES_WITH.search(text, sentence(text.replace(":", ","), at, at)[0], at)
        if lead and "x" not in turn.san and not denied(text, lead.start()):
            yield Doubt(lead.start("it"), lead.end("it"), "prose-capture", f"{turn.san} takes nothing.")
    if passage.role != "told":
        return
    for found in _TAKES_IT.finditer(text):
        first, last = sentence(text, found.start("it"), found.end())
        before = [turn for at, turn in passage.turns if at < found.start("it")][-2:]
        after = [turn for at, turn in passage.turns if at >= found.end()][:1] or list(passage.ahead[:1])
        inside = any(first <= at <= last for at, _ in passage.turns)
        if before and not inside and not any("x" in turn.san for turn in (*before, *after)):
            yield Doubt(found.start("it"), found.end(), "prose-capture", f"{before[-1].san} takes nothing.")


def _checks(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    text = passage.text
    if passage.question is not None and passage.question.kind != "move":
        return
    for pattern, mark, name in ((_CHECK, "+#", "check"), (_MATE, "#", "mate")):
        for found in pattern.finditer(text):
            right = [
                turn
                for at, turn in passage.turns
                if text[at : found.start()] == turn.san or _RIGHT_AFTER.fullmatch(text, at, found.start())
            ]
            close = [turn for at, turn in passage.turns if text[at : found.start()] == f"{turn.san}, a "]
            if close and close[-1].san[-1] in mark:
                continue
            if right and not found["not"] and right[-1].san[-1] not in mark:
                message = f"{right[-1].san} does not give {name}."
                yield Doubt(found.start(), found.end(), f"prose-{name}", message)
                continue
            if _UNREAL.search(text[slice(*sentence(text, *found.span()))]):
                continue
            no = bool(found["not"] or (name == "mate" and found["neg"]))
            wide = name == "mate" or passage.role not in ("nudge",)
            sure = re.search(r"(?:^|with |\w\+?,? is |gives )$", text[: found.start("it")], re.IGNORECASE)
            if (
                not no
                and supposed(text, *found.span(), wide=wide)
                and not (sure and not supposed(text, *found.span()))
            ):
                continue
            if not no and (denied(text, found.start()) or _HAS_ONE.search(text, 0, found.start("it"))):
                continue
            if (
                found["it"].lower() in ("checks", "check")
                and not no
                and not re.search(
                    r"(?:^|with |\bis |gives |a |, |and )$", text[: found.start("it")], re.IGNORECASE
                )
            ):
                continue
            turns = [(_said_from(passage, number), turn) for number, (_, turn) in enumerate(passage.turns)]
            before = [(at, turn) for at, turn in turns if at <= found.start()]
            tight = before and re.fullmatch(
                r"\S*,? ?(?:and )?(?:with|is|gives|it is|and it is|now|a|\s)*",
                text[before[-1][0] : found.start("it")].partition(" ")[2] or "",
            )
            moves = _moves(passage, boards)
            if passage.role in ("reply", "also") and passage.replied and not passage.turns:
                moves = [_step(place, boards) for place in passage.replied if place.moves]
            marks = [
                board.gives_check(move) if mark == "+#" else _mates(board, move) for board, move in moves
            ]
            if tight and not no and before[-1][1].san[-1] not in mark:
                yield Doubt(
                    found.start(), found.end(), f"prose-{name}", f"{before[-1][1].san} does not give {name}."
                )
            elif not no and moves and not any(marks) and not _now(passage, boards, mark):
                if _answered(passage, boards, text[: found.start()]):
                    continue
                yield Doubt(found.start(), found.end(), f"prose-{name}", f"No move told here gives {name}.")
            elif no and before and before[-1][1].san[-1] in mark and len(passage.turns) == len(before):
                yield Doubt(
                    found.start(), found.end(), f"prose-{name}", f"{before[-1][1].san} does give {name}."
                )
            elif (
                no
                and passage.ahead
                and re.search(r"\bpush is (?:not |no )?$", text[: found.start("it")])
                and passage.ahead[0].san[-1] in mark
            ):
                yield Doubt(
                    found.start(), found.end(), f"prose-{name}", f"{passage.ahead[0].san} does give {name}."
                )
            elif (
                no
                and not before
                and passage.role in ("nudge", "told", "reply", "because")
                and marks
                and marks[0]
            ):
                yield Doubt(
                    found.start(), found.end(), f"prose-{name}", f"The move spoken of does give {name}."
                )


def _said_from(passage: Passage, number: int) -> int:
    """Where the words of a move begin; of one that is told at a star, right after the star before it."""
    at, text = passage.turns[number][0], passage.text
    if text[at : at + 1].isalnum():
        return at
    return passage.turns[number - 1][0] if number else min(at, sentence(text, at, at)[0])


def _now(passage: Passage, boards: Boards, mark: str) -> bool:
    return any(boards.of(place).is_check() for place in passage.places()) and mark == "+#"


def _answered(passage: Passage, boards: Boards, lead: str) -> bool:
    """Whether a reply tells of a man of the other side that could give check in its turn."""
    if passage.role not in ("reply", "also") or not re.search(
        rf"{KIND}|\bshe\b", re.split(r"[.;:!?] ", lead)[-1]
    ):
        return False
    after = [boards.of(place) for place in passage.replied]
    return any(board.gives_check(move) for board in after for move in board.legal_moves)


def _mates(board: chess.Board, move: chess.Move) -> bool:
    after = board.copy(stack=False)
    after.push(move)
    return after.is_checkmate()


def _turn(passage: Passage, boards: Boards, side: str) -> Iterator[Doubt]:
    text = passage.text
    for found in _TO_MOVE.finditer(text):
        if supposed(text, *found.span()) or denied(text, found.start()):
            continue
        white = (found["who"] or found["who2"]) == "White"
        if found["who2"] in ("our", "your", "my"):
            white = side == "white"
            if side not in ("white", "black"):
                continue
        places = {passage.at(found.start())}
        if passage.role != "told" or "'s" not in found[0]:
            places |= {passage.before, passage.at(len(text))}
        if passage.role in ("reply", "also", "otherwise", "back"):
            places |= set(passage.places())
        elif passage.role == "because" and passage.answer:
            places.add(passage.answer.after)
        if (
            passage.role == "nudge"
            and passage.answer
            and re.search(r"\b(?:then|after)\b", text[: found.start()])
        ):
            places = {passage.answer.after}
        if not any(boards.of(place).turn == white for place in places):
            yield Doubt(
                found.start(),
                found.end(),
                "prose-turn",
                f"It is {'Black' if white else 'White'} to move here.",
            )
