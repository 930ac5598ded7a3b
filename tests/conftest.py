"""Pages that run in the tests' own process are read by the owner; how many examples a property is tried on; what keeps
the tests short."""

import gc
import os

os.environ.setdefault("POLARS_MAX_THREADS", "1")  # before polars is imported: small salons, and several tests at once

import pytest
from hypothesis import settings

from dashboard.access import who
from dashboard.access.people import THE_OWNER

# thirty of its usual hundred, so that the suite stays short; no deadline, so that a busy machine fails no test
settings.register_profile("suite", max_examples=30, deadline=None)
settings.load_profile("suite")
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)  # else each program that a test starts compiles all of ours again


LONGEST = ("test_house.py", "test_accounts_add_up.py", "test_against_plain.py", "test_fuzz.py")


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Files that take longest begin first, so that none is left over at the end; those that wait for a browser stand
    between the others, so that there is work to do meanwhile."""
    files = list(dict.fromkeys(item.path for item in items))
    waiting = [path for path in files if path.parent.name in ("browser", "access")]
    working = sorted((path for path in files if path not in waiting), key=lambda path: path.name not in LONGEST)
    apart = max(1, len(working) // (len(waiting) + 1))
    place = {path: number * (apart + 1) for number, path in enumerate(waiting)}
    place |= {path: number + number // apart + 1 for number, path in enumerate(working)}
    items.sort(key=lambda item: place[item.path])


def pytest_collection_finish() -> None:
    """What is imported by now stays: no need to look through it each time a page has run."""
    gc.collect()
    gc.freeze()


@pytest.fixture(autouse=True)
def _read_by_the_owner(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(who, "ALONE", THE_OWNER)
