"""The salon's machine, a phone and a third host, each with a network of its own: who gets what, and what leaves."""

import re
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from threading import Event, Thread
from urllib.parse import urlsplit

import pytest

from analytics.storage.asked import NO_ANSWER, read_marks
from dashboard.access.members import add_person, pairing_link
from dashboard.access.people import OWNER
from tests.access.asking import copied
from tests.access.hosts import AT, LONGEST_S, OUTSIDE, PHONE, SALON, THIRD, Hosts, NotAllowedError, hosts
from tests.access.phone import PHRASE, PhoneInHand
from tests.access.third import bytes_for_strangers
from tests.browser.serving import TODAY

PORT = 8501


@contextmanager
def served(made: Hosts, salon: Path) -> Iterator[list[str]]:
    """What the command says while the pages are open on the network."""
    words = ("--salon", str(salon), "--today", TODAY.isoformat(), "--port", str(PORT), "--on-network", AT[SALON])
    server = made.start(SALON, "-m", "dashboard.start", *words)
    said: list[str] = []
    opened = Event()

    def hear() -> None:
        for line in server.stdout or ():
            said.append(line)
            if "/enter?code=" in line:
                opened.set()
        opened.set()

    Thread(target=hear, daemon=True).start()
    try:
        assert opened.wait(LONGEST_S), f"The pages did not open within {LONGEST_S} s; they said: {said}"
        yield said
    finally:
        server.terminate()
        try:
            server.wait(timeout=20)
        except subprocess.TimeoutExpired:
            server.kill()
            server.wait(timeout=20)


def pairs_and_marks(link: str) -> bytes:
    """A phone pairs, its sign-in ends, it signs in again and marks the first client; what stood on the page."""
    phone = PhoneInHand(f"https://{urlsplit(link).netloc}")
    assert phone.pair(link).status == 200
    del phone.cookies[next(name for name in phone.cookies if name.endswith("login"))]  # the evening after
    assert phone.ask("/sign-in", {"passphrase": PHRASE}).status == 200
    return phone.tap("roots", "What came of asking, client 1", "no answer")


def test_a_phone_marks_a_third_host_gets_nothing_and_nothing_leaves(salon: Path, tmp_path: Path):
    folder = copied(salon, tmp_path / "kwartels")
    link = pairing_link(folder, add_person(folder, "Anna", OWNER), f"https://{AT[SALON]}:{PORT}")
    try:
        with hosts() as made:
            before = made.packets(OUTSIDE, "wan")
            with served(made, folder) as said:
                assert f"https://{AT[SALON]}:{PORT}" in "".join(said) and re.search("([0-9A-F]{2}:){31}", "".join(said))
                assert made.on(THIRD, bytes_for_strangers, AT[SALON], PORT) == 0
                assert b"Zora Quendel" in made.on(PHONE, pairs_and_marks, link)
                assert made.on(THIRD, bytes_for_strangers, AT[SALON], PORT) == 0
            assert made.packets(OUTSIDE, "wan") == before == 0
    except NotAllowedError as why:
        pytest.skip(f"Hosts of their own cannot be made here ({why}), so nothing was tried between two of them.")
    assert [mark.answer for mark in read_marks(folder).marks] == [NO_ANSWER]
