"""The salon's machine, a phone and a third host, each with a network of its own: who gets what, and what leaves."""

import re
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from analytics.storage.asked import NO_ANSWER, read_marks
from dashboard.access.members import add_person, pairing_link
from dashboard.access.people import OWNER
from tests.access.asking import write_salon
from tests.access.hosts import AT, OUTSIDE, PHONE, SALON, THIRD, Hosts, NotAllowedError, hosts
from tests.browser.serving import TODAY, load_here

pytestmark = pytest.mark.browser
PORT = 8501


@contextmanager
def served(made: Hosts, salon: Path) -> Iterator[list[str]]:
    """What the command says while the pages are open on the network."""
    words = ("--salon", str(salon), "--today", TODAY.isoformat(), "--port", str(PORT), "--on-network", AT[SALON])
    server = made.start(SALON, "-m", "dashboard.start", *words)
    said: list[str] = []
    try:
        assert server.stdout is not None
        for line in server.stdout:
            said.append(line)
            if "/enter?code=" in line:
                break
        yield said
    finally:
        server.terminate()
        server.communicate(timeout=20)


def told(made: Hosts, host: str, *words: str) -> str:
    """What a program of tests/access prints on this host."""
    process = made.start(host, "-m", *words)
    said, _ = process.communicate(timeout=180)
    assert process.returncode == 0, said
    return said.strip()


def test_a_phone_marks_a_third_host_gets_nothing_and_nothing_leaves(tmp_path: Path):
    salon = write_salon(tmp_path / "kwartels")
    load_here(salon)
    link = pairing_link(salon, add_person(salon, "Anna", OWNER), f"https://{AT[SALON]}:{PORT}")
    try:
        with hosts() as made:
            before = made.packets(OUTSIDE, "wan")
            with served(made, salon) as said:
                assert f"https://{AT[SALON]}:{PORT}" in "".join(said) and re.search("([0-9A-F]{2}:){31}", "".join(said))
                assert told(made, THIRD, "tests.access.third", AT[SALON], str(PORT)) == "0"
                assert "root" in told(made, PHONE, "tests.access.phone", link)
                assert told(made, THIRD, "tests.access.third", AT[SALON], str(PORT)) == "0"
                time.sleep(1)
            assert made.packets(OUTSIDE, "wan") == before == 0
    except NotAllowedError as why:
        pytest.skip(f"Hosts of their own cannot be made here ({why}), so nothing was tried between two of them.")
    assert [mark.answer for mark in read_marks(salon).marks] == [NO_ANSWER]
