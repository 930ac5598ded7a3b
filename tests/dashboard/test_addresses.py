"""Which page opens where none is named, and that each opens by its own address."""

import pytest

from dashboard.page import at_root

OWN = ["month", "roots", "start"]


@pytest.mark.parametrize(
    ("loaded", "address", "page"),
    [
        (False, "http://127.0.0.1:8501/", "start"),
        (True, "http://127.0.0.1:8501", "month"),
        (False, "http://127.0.0.1:8501/roots", "start"),
        (False, "http://127.0.0.1:8501/start", "month"),
        (False, "http://127.0.0.1:8501/start/?a=b", "month"),
        (True, "http://127.0.0.1:8501/month", "roots"),
        (True, "", "month"),
    ],
)
def test_a_page_asked_for_by_its_address_keeps_it(loaded: bool, address: str, page: str) -> None:
    """The page at the root has no address of its own, so that another stands there while it is asked for by name."""
    assert at_root(OWN, loaded, address) == page


def test_who_has_no_start_page_and_who_has_one_page_alone() -> None:
    assert at_root(["month", "roots"], False, "") == "month"
    assert at_root(["roots"], True, "http://127.0.0.1:8501/roots") == "roots"
