"""On the salon's network: only over HTTPS, only on paired phones, only for who signs in, until the owner ends it.

The door is opened at another address of this machine; tests/access/test_two_hosts.py does it between hosts.
"""

import re
import socket
import ssl
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from hashlib import sha256
from pathlib import Path
from urllib.parse import urlsplit

import pytest

from analytics.stops import WorkStopped
from dashboard.access import network
from dashboard.access.certificate import certificate_for
from dashboard.access.doors import Door
from dashboard.access.members import add_person, end_person, end_phone, everybody, pairing_link
from dashboard.access.people import ACCOUNTANT, STYLIST, THE_OWNER
from dashboard.access.vault import FOLDER, read_vault
from tests.access.asking import ask
from tests.access.conftest import ELSEWHERE
from tests.access.phone import PHRASE, PhoneInHand


@pytest.fixture
def phone(bases: tuple[str, str]) -> PhoneInHand:
    return PhoneInHand(bases[1])


@pytest.fixture
def joris(salon: Path) -> Iterator[str]:
    key = add_person(salon, "Joris", STYLIST, "Joris")
    yield key
    end_person(salon, key)


def test_who_is_not_paired_gets_a_sentence_and_nothing_of_the_salon(phone: PhoneInHand):
    for path in ("/", "/roots", "/sign-in", "/pair", "/pair?code=x", "/enter", "/static/x", "/_stcore/health"):
        answer = phone.ask(path)
        assert answer.status == 401 and b"Kwartels" not in answer.body and b"type=" not in answer.body
        assert b"passphrase" not in answer.body.lower()
    assert not phone.opens()
    assert phone.ask("/sign-in", {"passphrase": PHRASE}).status == 401


def test_the_network_is_never_without_https(bases: tuple[str, str]):
    """A phone that comes in the clear gets no byte; and the link of this machine opens nothing there."""
    plain = bases[1].replace("https", "http")
    with socket.create_connection((ELSEWHERE, urlsplit(plain).port or 0), timeout=5) as clear:
        clear.sendall(f"GET / HTTP/1.1\r\nHost: {urlsplit(plain).netloc}\r\n\r\n".encode())
        assert not clear.recv(1000).startswith(b"HTTP")


def test_a_phone_is_paired_signs_in_and_is_ended(phone: PhoneInHand, salon: Path, joris: str):
    link = pairing_link(salon, joris, phone.base)
    form = phone.ask(link.removeprefix(phone.base))
    assert form.status == 200 and b"Pair this phone for Joris" in form.body and not phone.cookies
    assert b"not the same" in phone.pair(link, again="something else").body
    assert b"8 to 200" in phone.pair(link, "short", "short").body
    paired = phone.pair(link)
    assert paired.status == 200 and len(phone.cookies) == 2
    assert all(name.startswith("__Host-") for name in phone.cookies)
    assert phone.ask("/_stcore/health").status == 200 and phone.opens()
    assert PhoneInHand(phone.base).pair(link).status == 401  # a code pairs one phone

    login = next(name for name in phone.cookies if name.endswith("login"))
    del phone.cookies[login]
    assert b"Passphrase" in phone.ask("/roots").body and not phone.opens()
    assert phone.ask("/sign-in", {"passphrase": "a guess, nothing"}).status == 401
    assert phone.ask("/sign-in", {"passphrase": PHRASE}).status == 200 and phone.opens()

    ((_, phones),) = [one for one in everybody(salon) if one[0].key == joris]
    end_phone(salon, phones[0].key)
    assert phone.ask("/_stcore/health").status == 401 and not phone.opens()
    assert b"not paired" in phone.ask("/roots").body
    assert phone.ask("/sign-in", {"passphrase": PHRASE}).status == 401


def test_a_second_phone_needs_the_first_ones_passphrase(bases: tuple[str, str], salon: Path, joris: str):
    """A code seen over a shoulder is not enough once a passphrase was chosen; and guesses wait."""
    PhoneInHand(bases[1]).pair(pairing_link(salon, joris, bases[1]))
    other, link = PhoneInHand(bases[1]), pairing_link(salon, joris, bases[1])
    said = [other.pair(link, f"a guess, {number}", None).body for number in range(9)]
    assert all(b"not the passphrase" in body for body in said[:3]) and any(b"Wait" in body for body in said[3:])
    assert b"Wait" in other.pair(link, PHRASE, None).body and not other.cookies  # the right one waits as well


def test_what_is_sent_from_elsewhere_is_not_heard(phone: PhoneInHand, salon: Path):
    key = add_person(salon, "Ines", ACCOUNTANT)
    link = pairing_link(salon, key, phone.base)
    for headers in ({"Origin": "https://elsewhere.example"}, {"Host": "salon.example"}, {"Sec-Fetch-Dest": "iframe"}):
        answer = phone.ask("/pair", {"code": link.partition("code=")[2], "passphrase": PHRASE}, **headers)
        assert answer.status == 403 and answer.body == b"" and not phone.cookies
    end_person(salon, key)
    assert phone.pair(link).status == 401 and not phone.cookies  # who is gone is not paired by an old code


def test_a_login_of_one_door_does_not_open_the_other(bases: tuple[str, str], phone: PhoneInHand, salon: Path):
    phone.pair(pairing_link(salon, THE_OWNER.key, phone.base))
    assert phone.ask("/_stcore/health").status == 200
    value = phone.cookies[next(name for name in phone.cookies if name.endswith("login"))]
    port = urlsplit(bases[0]).port
    assert ask(bases[0], "/_stcore/health", Cookie=f"salon-figures-{port}-login={value}").status == 401
    end_person(salon, THE_OWNER.key)


def test_no_passphrase_and_no_code_lies_in_the_clear(phone: PhoneInHand, salon: Path, joris: str):
    link = pairing_link(salon, joris, phone.base)
    phone.pair(link)
    content = b"".join(path.read_bytes() for path in (salon / FOLDER).iterdir())
    assert PHRASE.encode() not in content and link.partition("code=")[2].encode() not in content
    assert all(value.encode() not in content for value in phone.cookies.values())


def test_the_certificate_is_for_this_address_and_made_anew_in_time(tmp_path: Path):
    now = datetime(2026, 11, 1, tzinfo=UTC)
    first = certificate_for(tmp_path, "192.168.7.20", now)
    assert certificate_for(tmp_path, "192.168.7.20", now + timedelta(days=360)).fingerprint == first.fingerprint
    later = certificate_for(tmp_path, "192.168.7.20", now + timedelta(days=380)).fingerprint
    assert later != first.fingerprint
    assert certificate_for(tmp_path, "192.168.7.21", now).fingerprint != later
    assert first.key.stat().st_mode & 0o077 == 0
    found = certificate_for(tmp_path, "192.168.7.21", now)
    der = ssl.PEM_cert_to_DER_cert(found.certificate.read_text())
    assert found.fingerprint == ":".join(re.findall("..", sha256(der).hexdigest().upper()))


@pytest.mark.parametrize("named", ["8.8.8.8", "0.0.0.0", "salon.example", "224.0.0.1", "2001:4860:4860::8888"])
def test_nothing_is_opened_to_the_internet(named: str):
    with pytest.raises(WorkStopped, match="--on-network ADDRESS"):
        network.address(named)


def test_an_address_of_ones_own_is_taken_as_it_is():
    assert network.address("192.168.1.20") == "192.168.1.20" and network.address("10.0.0.7") == "10.0.0.7"
    said = network.said(network.Network(Door("192.168.1.20", 8501, secure=True), "AB:CD"))
    assert "https://192.168.1.20:8501" in said and "Ctrl+C" in said and "AB:CD" in said


def test_one_name_is_one_person(tmp_path: Path):
    add_person(tmp_path, " Joris  de Wit ", STYLIST, "Joris")
    assert read_vault(tmp_path).people[0].name == "Joris de Wit"
    for name, role, stylist in (("Joris de Wit", ACCOUNTANT, ""), ("", ACCOUNTANT, ""), ("A", "manager", "")):
        with pytest.raises(WorkStopped):
            add_person(tmp_path, name, role, stylist)
    with pytest.raises(WorkStopped, match="whose clients"):
        add_person(tmp_path, "Bo", STYLIST)
