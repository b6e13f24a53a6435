"""Prose against how men stand to each other and what was given for what: lines, faces, exchanges."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

import chess

from player.check.prose.doubt import Doubt
from player.check.prose.passages import Boards, Passage
from player.check.prose.words import COUNTS, KIND, KINDS, SQUARE, denied, supposed
from player.facts.place import Place

_OWNED = r"(?:the |a |an |his |her |its |our |my |your |their |own |other |last )*"
_BEHIND = re.compile(
    rf"\b(?P<a>{KIND}) (?:stands |lines up |sits |comes |goes |waits )?(?:right |directly )?behind {_OWNED}"
    rf"(?P<b>{KIND})\b(?!-|'| (?:first|chain|structure))",
    re.IGNORECASE,
)
_BEHIND_FILE = re.compile(
    r"\b(?:[Ss]he|[Hh]e|[Ii]t) (?:stands|sits|is|waits) (?:right )?behind the (?P<file>[a-h])-pawn\b"
)
_FACE = re.compile(
    rf"\b[Tt]he (?P<kind>{KIND})s (?:now |still |both )?(?:face|look at|stare at|see) each other\b"
    r"(?: (?:down|along|on|across) the (?P<file>[a-h])-file)?"
)
_ON_ONE = re.compile(
    rf"\b(?:[Tt]he|[Bb]oth|[Tt]wo|[Oo]ur|[Hh]is|[Hh]er) (?P<kind>{KIND})s (?:now |still |both )?"
    r"(?:stand|are|stood|face each other)[^.,;:!?]{0,25}? on (?:one|the same|a single|a shared)"
    r" (?P<what>file|rank|row|diagonal)\b(?! as\b)"
)
_WAYS = re.compile(
    rf"\b(?P<kind>knight|bishop|rook)s?(?:(?!{KIND})[^.;:!?])*"
    r"(?:[.;:] (?:It|He))?(?<!not)(?<!n't)(?<!never) (?:only |always )?"
    r"(?:moves?|runs?|goes|travels?) (?:only |always )?"
    r"(?P<way>(?:in|along) (?:straight lines|diagonals|(?:the )?files and (?:the )?ranks))\b"
)
_GIVES = re.compile(
    rf"\b(?:gives?|gave|giving|trades?|traded|swaps?|exchanges?|exchanged) {_OWNED}(?P<a>{KIND}) for {_OWNED}"
    rf"(?P<b>{KIND})\b",
    re.IGNORECASE,
)
_ONE_FOR = re.compile(
    rf"(?<=[.!?] )A (?P<a>{KIND}) for (?:a|an|one|two|three|four|his|her|our) (?P<b>{KIND})s?\b",
    re.IGNORECASE,
)
_GOT = re.compile(
    rf"\b(?:get|got|gets|paid|pays|pay|price|return|compensation) for (?:that|the|this) (?P<kind>{KIND})\b"
)
_NOBODY = re.compile(
    rf"\b(?P<color>white|black) (?P<kind>{KIND}) (?:that |which )?nobody (?P<what>guards|defends|protects)\b"
)
_NOUN = re.compile(
    r"\S+[.,:;]? (?:[Aa]|[Tt]he|[Aa]nother) (?:\w+ )?(?P<what>capture|check|recapture|trade)\b"
)
_IN_CHECK = re.compile(r"\b(?P<who>White|Black) is (?P<not>not )?in check\b")
_POINTS = re.compile(
    rf"\b[Ff]rom (?P<a>{SQUARE}) (?:through|over|and|to) (?P<b>{SQUARE}),? (?:it|she|he|they|the chain)"
    rf" (?:points?|aims?|looks?) (?:at|towards?) the (?P<color>white|black) (?P<kind>{KIND})\b"
)
_SOME = re.compile(
    rf"\b(?:(?P<who>White|Black) )?(?:has|have|with|are|is|and) (?:[^.;:!?]{{0,30}}\b{KIND}, )?"
    rf"(?P<number>[Tt]wo|[Tt]hree) "
    rf"(?P<kind>knight|bishop|rook|queen)s(?=,| and (?:a|an|the|two|one|his|her)\b| against\b)"
)
_PAWN_OF = re.compile(r"\b[Tt]he (?P<kind>rook|knight|bishop)'s pawn\b")
_FILES_OF = {"rook": (0, 7), "knight": (1, 6), "bishop": (2, 5)}
_MATE_ON = re.compile(rf"\bmate on (?P<square>{SQUARE})\b")
_THEIRS = re.compile(
    rf"\b(?:his|ours|hers|theirs|mine|yours|[Ss]omebody|[Ss]omeone) (?:(?:stands?|is|are) )?on"
    rf" (?P<squares>{SQUARE}(?:(?:,| and|, and) {SQUARE})*)\b"
)
_OF_FILE = re.compile(r"\b(?P<file>[a-h])-(?P<kind>knight|bishop|rook|queen|king)\b")
_BESIDE_IT = re.compile(
    rf"\b(?:the|that|his|her|our) (?:other |same |own )?(?P<kind>{KIND}) (?:right )?"
    rf"(?:behind|beside|next to|in front of|under|above) (?:it|him|her|them) on (?P<square>{SQUARE})\b"
)
_LOOK = re.compile(
    rf"\bwith (?:a look|an eye|eyes|a glance) (?:at|on|towards) (?P<square>{SQUARE})"
    rf"(?:,? and (?:at |on )?(?P<other>{SQUARE}))?"
)
_ONE_SHADE = re.compile(
    r"\b(?P<kind>knight|rook|queen|king|pawn)s? (?:(?:always|only|now) )?(?:lives?|stays?|runs?|keeps?)"
    r" (?:on|to) the (?:light|dark|white|black)(?:-squared| squares)"
)
_BEHIND_PAWN = re.compile(
    r"\b[Tt]he (?P<kind>knight|bishop|rook|queen|king|pawn) (?:stands|is|sits|waits)"
    r" (?:right |just )?behind the (?P<file>[a-h])-pawn\b"
)
_BACK, _FORTH = 6, 4


def formed_doubts(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """Doubts about men said to stand in line, to face each other, to be unguarded, or given for another."""
    if passage.role in ("idea", "part"):
        return
    around = [boards.of(place) for place in passage.places()]
    around += [boards.of(turn.after) for turn in passage.ahead]
    text = passage.text

    def wrong(pattern: re.Pattern[str]) -> Iterator[re.Match[str]]:
        for found in pattern.finditer(text):
            if not (supposed(text, *found.span()) or denied(text, found.start())):
                yield found

    for found in wrong(_BEHIND):
        a, b = KINDS[found["a"].lower()], KINDS[found["b"].lower()]
        if not any(_in_line(board, a, b) for board in around):
            yield _doubt(found, "b", f"No {found['a'].lower()} stands in line with a {found['b'].lower()}.")
    for found in wrong(_FACE):
        file = "abcdefgh".index(found["file"]) if found["file"] else None
        if not any(_face(board, KINDS[found["kind"]], file) for board in around):
            yield _doubt(found, "kind", f"No two {found['kind']}s face each other here.")
    for found in wrong(_ON_ONE):
        if not any(_share(board, KINDS[found["kind"]], found["what"]) for board in around):
            yield _doubt(found, "what", f"No two {found['kind']}s stand on one {found['what']} here.")
    for found in wrong(_WAYS):
        slanted = "diagonal" in found["way"]
        if found["kind"] == "knight" or slanted != (found["kind"] == "bishop"):
            yield _doubt(found, "way", f"That is not how a {found['kind']} goes.")
    for found in wrong(_OF_FILE):
        file, kind = chess.FILE_NAMES.index(found["file"]), KINDS[found["kind"]]
        if not any(
            chess.square_file(man) == file
            for board in around
            for white in chess.COLORS
            for man in board.pieces(kind, white)
        ):
            yield _doubt(found, "kind", f"No {found['kind']} stands on the {found['file']}-file here.")
    for found in wrong(_BESIDE_IT):
        pieces = [board.piece_at(chess.parse_square(found["square"])) for board in around]
        if not any(piece and piece.piece_type == KINDS[found["kind"]] for piece in pieces):
            yield _doubt(found, "kind", f"No {found['kind']} stands on {found['square']} here.", "prose-man")
    for found in wrong(_LOOK):
        last = passage.last(found.start())
        if last is None or not last.moves:
            continue
        seen = boards.of(last).attacks(chess.Move.from_uci(last.moves[-1]).to_square)
        for name in ("square", "other"):
            if found[name] and chess.parse_square(found[name]) not in seen:
                yield _doubt(found, name, f"{found[name]} cannot be seen from there.", "prose-square")
    for found in wrong(_ONE_SHADE):
        yield _doubt(found, "kind", f"No {found['kind']} keeps to squares of one colour.")
    for found in wrong(_BEHIND_PAWN):
        if not any(_is_behind(board, KINDS[found["kind"].lower()], found["file"]) for board in around):
            message = f"No {found['kind'].lower()} stands behind a pawn on the {found['file']}-file here."
            yield _doubt(found, "kind", message)
    for found in wrong(_POINTS):
        ends = [chess.parse_square(found[name]) for name in ("a", "b")]
        far = _ahead(*ends)
        white, kind = found["color"] == "white", KINDS[found["kind"]]
        men = [man for board in around for man in board.pieces(kind, white)]
        if far and not any(chess.square_distance(man, square) <= 2 for man in men for square in far):
            yield _doubt(found, "color", f"No such {found['kind']} stands that way.")
    for found in wrong(_PAWN_OF):
        files = _FILES_OF[found["kind"].lower()]
        if not any(
            chess.square_file(man) in files
            for board in around
            for white in chess.COLORS
            for man in board.pieces(chess.PAWN, white)
        ):
            yield _doubt(found, "kind", f"No {found['kind'].lower()}'s pawn is on the board here.")
    for found in _MATE_ON.finditer(text) if passage.question else ():
        square = chess.parse_square(found["square"])
        if not any(board.is_attacked_by(white, square) for board in around for white in chess.COLORS):
            yield _doubt(found, "square", f"Nobody looks at {found['square']} here.", "prose-square")
    for found in wrong(_THEIRS):
        for one in re.finditer(SQUARE, found["squares"]):
            if not boards.of(passage.at(found.start())).piece_at(chess.parse_square(one[0])):
                start = found.start("squares") + one.start()
                yield Doubt(start, start + 2, "prose-square", f"{one[0]} is empty here.")
    for found in wrong(_SOME):
        numbers = [
            len(board.pieces(KINDS[found["kind"]], white))
            for board in (boards.of(passage.at(found.start())),)
            for white in ((found["who"] == "White",) if found["who"] else chess.COLORS)
        ]
        if COUNTS[found["number"].lower()] > max(numbers):
            message = f"No side has {found['number'].lower()} {found['kind']}s here."
            yield _doubt(found, "kind", message, "prose-count")
    for found in wrong(_NOBODY):
        white, kind = found["color"] == "white", KINDS[found["kind"]]
        if not any(not board.attackers(white, man) for board in around for man in board.pieces(kind, white)):
            yield _doubt(found, "color", f"No such {found['kind']} is without a guard here.")
    if passage.role in ("reply", "also") and passage.replied:
        for found in wrong(_IN_CHECK) if not passage.turns else ():
            now = any(_checked(boards.of(place), found["who"] == "White") for place in passage.replied)
            if now == bool(found["not"]):
                is_so = "is" if now else "is not"
                yield _doubt(found, "who", f"After this move {found['who']} {is_so} in check.", "prose-check")
    yield from _files(passage, boards)
    yield from _exchanged(passage, boards, (*wrong(_GIVES), *wrong(_ONE_FOR)))
    for at, turn in passage.turns:
        noun = _NOUN.match(text, at)
        if noun is None:
            continue
        if noun["what"] == "check" and turn.san[-1] not in "+#":
            yield _doubt(noun, "what", f"{turn.san} does not give check.", "prose-check")
        elif noun["what"] != "check" and "x" not in turn.san:
            yield _doubt(noun, "what", f"{turn.san} takes nothing.", "prose-capture")


def _doubt(found: re.Match[str], group: str | int, message: str, code: str = "prose-formed") -> Doubt:
    return Doubt(found.start(group), found.end(group), code, message)


def _in_line(board: chess.Board, a: int, b: int) -> bool:
    """Whether one side has a man of kind `a` behind one of kind `b`, on a file or diagonal, with nothing
    between.
    """
    return any(
        (chess.square_rank(one) < chess.square_rank(other)) == white
        and chess.square_rank(one) != chess.square_rank(other)
        and chess.ray(one, other)
        and not chess.between(one, other) & board.occupied
        for white in chess.COLORS
        for one in board.pieces(a, white)
        for other in board.pieces(b, white)
    )


def _face(board: chess.Board, kind: int, file: int | None) -> bool:
    """Whether two men of the kind, one of each side, stand on one file (this one, where it is said), or in
    line with nothing between.
    """
    for one in board.pieces(kind, chess.WHITE):
        for other in board.pieces(kind, chess.BLACK):
            same = chess.square_file(one) == chess.square_file(other)
            if same and kind != chess.BISHOP and file in (None, chess.square_file(one)):
                return True
            line = chess.ray(one, other) if not same and file is None else 0
            if line and not chess.between(one, other) & board.occupied:
                return True
    return False


def _share(board: chess.Board, kind: int, what: str) -> bool:
    """Whether two men of the kind stand on one file, rank or diagonal."""
    men = [man for white in chess.COLORS for man in board.pieces(kind, white)]
    gaps = [
        (abs(chess.square_file(one) - chess.square_file(two)), abs(one // 8 - two // 8))
        for one in men
        for two in men
        if one < two
    ]
    return any(x == 0 if what == "file" else x == y if what == "diagonal" else y == 0 for x, y in gaps)


def _is_behind(board: chess.Board, kind: int, file: str) -> bool:
    """Whether a man of the kind stands behind a pawn of its own on a file."""
    column = chess.FILE_NAMES.index(file)
    for white in chess.COLORS:
        pawns = [one for one in board.pieces(chess.PAWN, white) if chess.square_file(one) == column]
        for man in board.pieces(kind, white):
            if chess.square_file(man) == column and any(
                (pawn > man) == white for pawn in pawns if pawn != man
            ):
                return True
    return False


def _ahead(one: chess.Square, other: chess.Square) -> chess.SquareSet:
    """The squares of the line from one square to another that lie on or beyond the other."""
    line = chess.SquareSet(chess.ray(one, other))
    return chess.SquareSet(
        square
        for square in line
        if chess.square_distance(one, square) >= chess.square_distance(one, other)
        and chess.square_distance(other, square) < chess.square_distance(one, square)
    )


def _checked(board: chess.Board, white: bool) -> bool:
    return board.turn == white and board.is_check()


def _files(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """ "She stands behind the f-pawn": of the man that the words are about."""
    for found in _BEHIND_FILE.finditer(passage.text):
        last = passage.last(found.start())
        places = [place for place in (last, *passage.replied) if place is not None]
        places += [passage.answer.after] if passage.answer else []
        file = "abcdefgh".index(found["file"])
        men = [chess.parse_square(uci[2:4]) for place in places for uci in place.moves[-2:]]
        shown = [chess.parse_square(name) for name in _answers(passage)]
        men += [square for square in shown if boards.of(passage.before).piece_at(square)]
        if men and not any(chess.square_file(man) == file for man in men):
            yield _doubt(found, "file", f"The man spoken of does not stand on the {found['file']}-file.")


def _answers(passage: Passage) -> list[str]:
    asked = passage.question
    if asked is None:
        return []
    return [name for name in asked.answers if re.fullmatch(r"[a-h][1-8]", name)]


def _exchanged(passage: Passage, boards: Boards, given: Iterable[re.Match[str]]) -> Iterator[Doubt]:
    given, got = tuple(given), tuple(_GOT.finditer(passage.text))
    if not (given or got):
        return
    exchanges = set(_exchanges(passage, boards))
    takers, taken = {taker for taker, _ in exchanges}, {kind for _, kind in exchanges}
    for found in given:
        a, b = KINDS[found["a"].lower()], KINDS[found["b"].lower()]
        if taken and a not in taken | takers:
            yield _doubt(found, "a", f"No {found['a'].lower()} is given near here.")
        if taken and b not in taken:
            yield _doubt(found, "b", f"No {found['b'].lower()} is taken near here.")
    for found in got:
        if taken and KINDS[found["kind"]] not in taken:
            yield _doubt(found, "kind", f"No {found['kind']} is taken near here.")


def _exchanges(passage: Passage, boards: Boards) -> Iterator[tuple[int, int]]:
    """The kinds of man that take, and of those that are taken, in the moves around a passage."""
    places: list[Place] = [passage.before, *(turn.after for _, turn in passage.turns)]
    places += [turn.after for turn in passage.ahead[:_FORTH]] + list(passage.replied)
    for place in places:
        for back in range(min(_BACK, len(place.moves))):
            moves = place.moves[: len(place.moves) - back]
            move = chess.Move.from_uci(moves[-1])
            before = boards.of(Place(place.root, moves[:-1]))
            if before.is_capture(move):
                taken = before.piece_type_at(move.to_square) or chess.PAWN
                yield before.piece_type_at(move.from_square) or chess.PAWN, taken
