"""Pages that run in the tests' own process, without a server, are read by the owner."""

import pytest

from dashboard.access import who
from dashboard.access.people import THE_OWNER


@pytest.fixture(autouse=True)
def _read_by_the_owner(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(who, "ALONE", THE_OWNER)
