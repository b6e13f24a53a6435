"""The clocks: the machine's goes forward by itself, the virtual one when told."""

from __future__ import annotations

from player.world.clock import RealClock, VirtualClock


def test_the_real_clock_has_slept_at_least_as_long_as_asked() -> None:
    clock = RealClock()
    before = clock.now_ms()
    clock.sleep(15)
    clock.sleep(-1)
    assert clock.now_ms() - before >= 15


def test_the_virtual_clock_moves_by_its_sleeps_alone() -> None:
    clock = VirtualClock(100)
    assert clock.now_ms() == clock.now_ms() == 100
    clock.sleep(50)
    clock.sleep(-10)
    assert clock.now_ms() == 150
