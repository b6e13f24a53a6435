"""Games printed in published standards, compiled: the same moves, each landing where its name is said.

FIDE: the sample game of Appendix C of the Laws of Chess (2023), its short form. PGN: the sample game of
section 2.3 of Edwards, "Portable Game Notation Specification and Implementation Guide", revised 1994.03.12.
"""

from __future__ import annotations

import io

import chess
import chess.pgn
import pytest

from player.wording.prose import speakable
from tests.cues.compiled import sheet_of, turns

FIDE = """1. e4 e5 2. Nf3 Nf6 3. d4 exd4 4. e5 Ne4 5. Qxd4 d5 6. exd6 e.p. Nxd6 7. Bg5 Nc6 8. Qe3+ Be7
9. Nbd2 O-O 10. O-O-O Re8 11. Kb1"""
PGN = """1. e4 e5 2. Nf3 Nc6 3. Bb5 a6 4. Ba4 Nf6 5. O-O Be7 6. Re1 b5 7. Bb3 d6 8. c3
O-O 9. h3 Nb8 10. d4 Nbd7 11. c4 c6 12. cxb5 axb5 13. Nc3 Bb7 14. Bg5 b4 15.
Nb1 h6 16. Bh4 c5 17. dxe5 Nxe4 18. Bxe7 Qxe7 19. exd6 Qf6 20. Nbd2 Nxd6 21.
Nc4 Nxc4 22. Bxc4 Nb6 23. Ne5 Rae8 24. Bxf7+ Rxf7 25. Nxf7 Rxe1+ 26. Qxe1 Kxf7
27. Qe3 Qg5 28. Qxg5 hxg5 29. b3 Ke6 30. a3 Kd6 31. axb4 cxb4 32. Ra5 Nd5 33.
f3 Bc8 34. Kf2 Bf5 35. Ra7 g6 36. Ra6+ Kc5 37. Ke1 Nf4 38. g3 Nxh3 39. Kd2 Kb5
40. Rd6 Kc5 41. Ra6 Nf2 42. g4 Bd3 43. Re6"""


@pytest.mark.parametrize("printed", [FIDE, PGN], ids=["FIDE", "PGN"])
def test_a_printed_game_is_one_sentence_with_every_move_at_its_name(printed: str) -> None:
    sheet = sheet_of("{" + " ".join(printed.split()) + "} and so it ended.")
    (step,) = [step for step in sheet.steps if turns(step)]
    game = chess.pgn.read_game(io.StringIO(printed.replace(" e.p.", "")))
    assert game is not None
    assert [turn.uci for turn in turns(step)] == [move.uci() for move in game.mainline_moves()]
    assert step.say is not None
    heard = [word.rstrip(",") for word in step.say.spoken.split()]
    for cue, turn in zip(step.cues, turns(step), strict=True):
        named = [word.rstrip(",") for word in speakable(turn.san).spoken.split()]
        assert heard[cue.word : cue.word + len(named)] == named


def test_a_printed_game_in_short_beats_ends_where_the_standard_says() -> None:
    """The final position is the one that PGN's own moves lead to; python-chess reads them."""
    game = chess.pgn.read_game(io.StringIO(PGN))
    assert game is not None
    beats = " ".join(f"{{{node.san()}}}." for node in game.mainline())
    sheet = sheet_of(beats)
    assert len(sheet.steps) == 1 + 85
    assert sheet.steps[-1].after.fen == game.end().board().fen()
