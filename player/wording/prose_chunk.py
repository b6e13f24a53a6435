"""One chunk of prose (no blanks in it): its notation as words, the rest cleared of signs a voice would
misread.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from functools import lru_cache

import chess

from player.wording.languages import Language
from player.wording.languages import language as language_of
from player.wording.notation import FIGURINES
from player.wording.say import Naming, square_said


@dataclass(frozen=True, slots=True)
class Piece:
    """Some spoken words, and the characters of the chunk they stand for; `notation` where they are a move."""

    words: tuple[str, ...]
    start: int
    end: int
    notation: bool = False


_LETTER = r"[^\W\d_½¼¾]"
_PLAIN = re.compile(rf"(?!O-O){_LETTER}+(?:['’-]{_LETTER}+)*[.,;:!?]?")
_DASH = "[-–—−‐‑]"
_STOPS = ".,;:!?"
_JUDGING = ("!!", "??", "!?", "?!")


@lru_cache(maxsize=8)
def _pattern(code: str) -> re.Pattern[str]:
    """Everything in a chunk that is not plain words, for one language."""
    words = language_of(code)
    men = "".join(sorted(set(words.letters.values()) - {words.letters[chess.PAWN]})) + "♔-♟"
    glyphs = "|".join(
        re.escape(sign) for sign in sorted(words.glyphs, key=len, reverse=True) if len(sign) > 1
    )
    single = "".join(re.escape(sign) for sign in words.glyphs if len(sign) == 1)
    return re.compile(
        rf"""
        (?P<result>(?<![\w/])(?:1{_DASH}0|0{_DASH}1|1/2{_DASH}1/2|½{_DASH}½)(?![\w-]))
      | (?P<castle>(?<![\w-])[0O]{_DASH}[0O](?:{_DASH}[0O])?(?![\w-]))(?P<cmark>[+#]*)
      | (?P<nag>\$\d+)
      | (?P<number>(?<!\w)\d+(?:\.+|…)(?=[{men}a-hO0(]))
      | (?P<dots>(?:\.\.+|…)(?=[{men}a-hO]))
      | (?<![^\W\d_])(?P<man>[{men}])?(?P<origin>[a-h]?[1-8]?)(?P<take>[x×:]?|{_DASH})(?P<square>[a-h][1-8])
            (?:[=/(]?(?P<promo>[{men}])\)?)?(?P<passant>e\.p\.?)?(?P<mark>\+{{1,2}}(?![-=/])|\#|†|‡)?(?![^\W\d_])(?!\d)
      | (?P<files>(?<!\w)[a-h]x[a-h](?!\w))
      | (?P<ep>(?<!\w)e\.p\.?)
      | (?P<mate>\#(?=\d))
      | (?P<range>(?<=\d){_DASH}(?=\d))
      | (?P<plus>\+(?=\d))
      | (?P<minus>(?<!\w){_DASH}(?=\d))
      | (?P<both>(?<=[A-Z])\+(?=[A-Z]))
      | (?P<glyph>{glyphs})
      | (?P<one>[{single}])
      | (?P<word>[^\W_½¼¾](?:[^\W_½¼¾]|['’.,:](?=[^\W_½¼¾]))*)
      | (?P<stop>[{_STOPS}]+)
      | (?P<other>.)
        """,
        re.VERBOSE | re.DOTALL,
    )


def looks_like_move(chunk: str, code: str) -> bool:
    """Whether a chunk begins with a move in notation."""
    found = _pattern(code).match(chunk.lstrip("(["))
    return found is not None and (
        found["square"] is not None or found["castle"] is not None or found["dots"] is not None
    )


@lru_cache(maxsize=16384)
def pieces(chunk: str, code: str, naming: Naming) -> tuple[Piece, ...]:
    """The spoken words of a chunk, in order, with their places in it."""
    if _PLAIN.fullmatch(chunk):
        return (Piece((chunk.replace("’", "'"),), 0, len(chunk)),)
    words = language_of(code)
    out: list[Piece] = []
    for found in _pattern(code).finditer(chunk):
        said = _said(found, chunk, words, naming)
        if not said:
            continue
        if said[0] in _STOPS and len(said) == 1:
            _stop(out, said[0], found.end())
            continue
        kind = found.lastgroup
        if kind == "glyph" and out and found.group() in _JUDGING:
            _stop(out, ",", found.start())
        goes_on = (
            bool(out) and found["take"] and not found["man"] and not found["origin"]
        )  # "-a8" of "Rd1-d8-a8"
        moved = (found["square"] is not None and not goes_on) or kind in ("cmark", "castle", "number")
        out.append(Piece(said, found.start(), found.end(), moved))
    return tuple(out)


def _stop(out: list[Piece], mark: str, end: int) -> None:
    """Punctuation goes on the word before it; with nothing before, it stands alone for the caller to
    place.
    """
    if not out:
        out.append(Piece((mark,), end - 1, end))
        return
    last = out[-1]
    if last.words[-1][-1:] not in _STOPS:
        out[-1] = Piece((*last.words[:-1], last.words[-1] + mark), last.start, end, last.notation)


def _said(found: re.Match[str], chunk: str, words: Language, naming: Naming) -> tuple[str, ...]:
    text = found.group()
    match found.lastgroup:
        case "result":
            return _split(words.glyphs[re.sub(_DASH, "-", text)])
        case "cmark":
            return _castle(found, words)
        case "nag":
            return _split(words.annotations.get(text[1:], words.prose.get("annotation", "")))
        case "number":
            return _split(words.prose["number"].format(number=re.match(r"\d+", text).group()))  # type: ignore[union-attr]
        case "dots":
            return ()
        case "files":
            files = words.files[naming]
            return (
                files["abcdefgh".index(text[0])],
                *_split(words.said["take"]),
                files["abcdefgh".index(text[2])],
            )
        case "ep":
            return _split(words.said["passant"])
        case "mate":
            return _split(words.said["mate_in"])
        case "glyph" | "one":
            return _glyph(found, chunk, words)
        case "word":
            return _word(text, words, naming, chunk)
        case "stop":
            return (_one_stop(text),)
        case "other":
            return (",",) if text in "–—" else ()
        case "range":
            return _split(words.prose["range"])
        case "plus" | "minus":
            return _split(words.prose[found.lastgroup])
        case "both":
            return _split(words.glyphs["&"])
    return _notation(found, words, naming)


def _split(text: str) -> tuple[str, ...]:
    return tuple(text.split())


def _one_stop(text: str) -> str:
    for mark in "?!":
        if mark in text:
            return mark
    return text[0]


def _castle(found: re.Match[str], words: Language) -> tuple[str, ...]:
    long = len(re.findall("[0O]", found["castle"])) == 3
    out = _split(words.said["queenside" if long else "kingside"])
    return _marked(out, found["cmark"] or "", words)


def _marked(out: tuple[str, ...], mark: str, words: Language) -> tuple[str, ...]:
    if not mark:
        return out
    said = words.said["mate" if mark in ("#", "++", "‡") else "check"]
    return (*out[:-1], f"{out[-1]},", *_split(said))


def _glyph(found: re.Match[str], chunk: str, words: Language) -> tuple[str, ...]:
    said = words.glyphs[found.group()]
    before = chunk[: found.start()].rstrip("([")
    if found.group() in _JUDGING and not (before and before[-1] in "12345678QRBNO0#+"):
        return ("?" if "?" in found.group() else "!",)
    return _split(said)


def _word(text: str, words: Language, naming: Naming, chunk: str) -> tuple[str, ...]:
    text = text.replace("’", "'")
    if text == "a" and len(chunk) > 1:
        return (words.files[naming][0],)
    return (text,)


def _notation(found: re.Match[str], words: Language, naming: Naming) -> tuple[str, ...]:
    """Notation without a board: "Rad1" is "rook a d1", "f2-f4" is "f2 to f4"."""
    files = words.files[naming]
    short = words.say["short"]
    out: list[str] = []
    origin, take, man = found["origin"], found["take"], found["man"]
    takes = take in ("x", "×", ":") and bool(take)
    if man:
        kind = FIGURINES.get(man) or words.by_letter[man.lower()]
        out += _split(words.pieces[kind])
    if origin:
        out += _origin(origin, naming, words, bool(man), takes, files)
    if takes:
        out += _split(words.said["take"])
    elif (origin and len(origin) == 2) or (take and found.start()):
        out += _split(words.prose["to"])
    square = chess.parse_square(found["square"])
    out += _split(square_said(square, "short", naming, words))
    promo = found["promo"]
    if promo:
        kind = FIGURINES.get(promo) or words.by_letter[promo.lower()]
        form = short["promotes"].format(move=" ".join(out), piece=words.pieces[kind])
        out = form.split()
    if found["passant"]:
        out += _split(words.said["passant"])
    return _marked(tuple(out), found["mark"] or "", words)


def _origin(
    origin: str, naming: Naming, words: Language, man: bool, takes: bool, files: tuple[str, ...]
) -> tuple[str, ...]:
    if len(origin) == 2:
        return _split(square_said(chess.parse_square(origin), "short", naming, words))
    if origin.isdigit():
        return (words.ranks[int(origin) - 1],)
    return (files["abcdefgh".index(origin)],)


def silent(char: str) -> bool:
    """Whether a character is nothing to say: a control, a mark of formatting or a picture."""
    return unicodedata.category(char) in ("Cc", "Cf", "Co", "Cs", "Cn", "So", "Sk")
