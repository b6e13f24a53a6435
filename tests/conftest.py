"""What every test may ask for: golden files, larger runs, and hypothesis that finds the same each time."""

from __future__ import annotations

import signal

import pytest
from hypothesis import HealthCheck, settings

from tests.golden import OPTION, Golden

# The same examples on every run and machine, so that a red suite is red again; --large looks further.
settings.register_profile(
    "steady",
    derandomize=True,
    deadline=None,
    max_examples=50,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.register_profile("large", settings.get_profile("steady"), max_examples=1000)
settings.register_profile("roaming", settings.get_profile("steady"), derandomize=False, max_examples=500)
settings.load_profile("steady")


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--large", action="store_true", help="run the larger tests too, with more examples")
    parser.addoption(OPTION, action="store_true", help="rewrite the golden files that differ")


def pytest_configure(config: pytest.Config) -> None:
    # Where the suite runs in the background its programs would inherit that an interruption is ignored.
    if signal.getsignal(signal.SIGINT) is signal.SIG_IGN:
        signal.signal(signal.SIGINT, signal.default_int_handler)
    if config.getoption("--large") and not config.getoption("--hypothesis-profile", None):
        settings.load_profile("large")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    if config.getoption("--large"):
        return
    for item in items:
        if "large" in item.keywords:
            item.add_marker(pytest.mark.skip(reason="a larger run: ask for it with --large"))


@pytest.fixture
def golden(request: pytest.FixtureRequest) -> Golden:
    """Compare text to a file in the folder `golden` beside the test: `golden("name.txt", text)`."""
    return Golden(request.path.parent / "golden", bool(request.config.getoption(OPTION)))
