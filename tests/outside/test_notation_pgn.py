"""Notation of the PGN standard (Edwards, "Portable Game Notation Specification and Implementation Guide",
1994.03.12).

Sections 8.2.3 (movetext), 10 (numeric annotation glyphs), 2.3 (the sample game) and 17 (piece letters).
"""

from __future__ import annotations

import chess
import pytest

from player.wording.hear import MoveHeard, hear
from player.wording.languages import codes, language
from player.wording.prose import speakable
from player.wording.say import say
from player.wording.turns import hear_turns

# Section 17: pawn, knight, bishop, rook, queen, king.
LETTERS = {"en": "PNBRQK", "de": "BSLTDK", "fr": "PCFTDR", "es": "PCATDR"}


@pytest.mark.parametrize("code", codes())
def test_the_piece_letters_of_section_17(code: str) -> None:
    assert "".join(language(code).letters[kind] for kind in chess.PIECE_TYPES) == LETTERS[code]


@pytest.mark.parametrize(
    ("fen", "uci", "san"),
    [
        # 8.2.3.4: only legal moves count when men are told apart
        ("4k3/8/8/8/8/2N5/8/4K1N1 w - - 0 1", "c3e2", "Nce2"),
        ("4k3/8/8/8/8/2N5/8/4K1N1 w - - 0 1", "g1e2", "Nge2"),
        ("4k3/8/8/8/1b6/2N5/8/4K1N1 w - - 0 1", "g1e2", "Ne2"),
        # 8.2.3.6: the longest forms have seven characters
        ("Q7/1p5k/QQ6/8/8/8/8/4K3 w - - 0 1", "a6b7", "Qa6xb7#"),
        ("4k3/8/8/8/8/4K3/5p2/6R1 b - - 0 1", "f2g1q", "fxg1=Q+"),
        # 8.2.3.3: castling has the letter O, a promotion an equals sign, en passant no mark
        ("r3k2r/8/8/8/8/8/8/R3K2R w KQkq - 0 1", "e1g1", "O-O"),
        ("r3k2r/8/8/8/8/8/8/R3K2R w KQkq - 0 1", "e1c1", "O-O-O"),
        ("8/8/8/2k5/3Pp3/8/8/4K3 b - d3 0 1", "e4d3", "exd3"),
    ],
)
def test_standard_algebraic_notation_of_section_8_2_3(fen: str, uci: str, san: str) -> None:
    board, move = chess.Board(fen), chess.Move.from_uci(uci)
    assert say(board, move).shown == san
    assert hear(board, san) == MoveHeard(move)
    assert hear(board, san.rstrip("+#")) == MoveHeard(move)
    assert hear(board, say(board, move).spoken) == MoveHeard(move)


# Section 2.3: Fischer against Spassky, Belgrade 1992, as printed there.
SAMPLE = """
1. e4 e5 2. Nf3 Nc6 3. Bb5 a6 4. Ba4 Nf6 5. O-O Be7 6. Re1 b5 7. Bb3 d6 8. c3 O-O 9. h3 Nb8 10. d4 Nbd7
11. c4 c6 12. cxb5 axb5 13. Nc3 Bb7 14. Bg5 b4 15. Nb1 h6 16. Bh4 c5 17. dxe5 Nxe4 18. Bxe7 Qxe7
19. exd6 Qf6 20. Nbd2 Nxd6 21. Nc4 Nxc4 22. Bxc4 Nb6 23. Ne5 Rae8 24. Bxf7+ Rxf7 25. Nxf7 Rxe1+
26. Qxe1 Kxf7 27. Qe3 Qg5 28. Qxg5 hxg5 29. b3 Ke6 30. a3 Kd6 31. axb4 cxb4 32. Ra5 Nd5 33. f3 Bc8
34. Kf2 Bf5 35. Ra7 g6 36. Ra6+ Kc5 37. Ke1 Nf4 38. g3 Nxh3 39. Kd2 Kb5 40. Rd6 Kc5 41. Ra6 Nf2
42. g4 Bd3 43. Re6
"""


def test_the_sample_game_of_section_2_3_is_read_to_its_end() -> None:
    moves = hear_turns(chess.Board(), SAMPLE)
    assert isinstance(moves, tuple) and len(moves) == 85
    board = chess.Board()
    for move in moves:
        board.push(move)
    assert board.fen() == "8/8/4R1p1/2k3p1/1p4P1/1P1b1P2/3K1n2/8 b - - 2 43"


@pytest.mark.parametrize(
    ("sign", "words"),
    [
        ("!", "good"),
        ("?", "poor"),
        ("!!", "very good"),
        ("??", "very poor"),
        ("!?", "speculative"),
        ("?!", "questionable"),
    ],
)
def test_the_suffixes_of_8_2_3_8_are_the_glyphs_1_to_6(sign: str, words: str) -> None:
    glyph = {"!": 1, "?": 2, "!!": 3, "??": 4, "!?": 5, "?!": 6}[sign]
    assert words in speakable(f"${glyph}").spoken
    if len(sign) == 2:
        assert words in speakable(f"Nf3{sign}").spoken


@pytest.mark.parametrize("code", codes())
def test_white_and_black_alternate_in_the_glyphs_14_to_23(code: str) -> None:
    """Section 10: from 14 on even numbers are White's and odd ones Black's."""
    words = language(code)
    white, black = words.groups["white"], words.groups["black"]
    for number in range(14, 24):
        text = words.annotations.get(str(number))
        if text is not None:
            own, other = (white, black) if number % 2 == 0 else (black, white)
            said = text.casefold().split()
            assert any(word in said for word in own) and not any(word in said for word in other), (
                number,
                text,
            )


@pytest.mark.parametrize("result", ["1-0", "0-1", "1/2-1/2"])
@pytest.mark.parametrize("code", codes())
def test_the_results_of_8_2_6_are_said_in_words(code: str, result: str) -> None:
    spoken = speakable(result, language=code).spoken
    assert spoken and not any(c.isdigit() or c == "-" for c in spoken)
