"""The file of secrets, codes that open once, cookies that end, passphrases that make who guesses wait."""

import os
import stat
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from analytics.stops import WorkStopped
from dashboard.access import passphrases, tickets
from dashboard.access.cookies import login_value, new_login, phone_value, read_login, read_phone
from dashboard.access.doors import Door
from dashboard.access.links import Links
from dashboard.access.passphrases import Attempts
from dashboard.access.people import STYLIST, THE_OWNER
from dashboard.access.vault import FILE, FOLDER, Person, Phone, access_folder, changed, read_vault

HERE, NETWORK = Door("127.0.0.1", 8501), Door("192.0.2.7", 8501, secure=True)


def rights(path: Path) -> int:
    return stat.S_IMODE(path.stat().st_mode)


@pytest.mark.skipif(os.name != "posix", reason="rights as POSIX has them")
def test_nobody_else_reads_it_whatever_the_umask(tmp_path: Path):
    before = os.umask(0)
    try:
        first = read_vault(tmp_path)
    finally:
        os.umask(before)
    assert rights(tmp_path / FOLDER) == 0o700
    assert all(rights(path) == 0o600 for path in (tmp_path / FOLDER).iterdir())
    (tmp_path / FOLDER / FILE).chmod(0o644)  # a copy on a stick loses rights: who read it knows the key
    second = read_vault(tmp_path)
    assert second.key != first.key and rights(tmp_path / FOLDER / FILE) == 0o600
    assert read_vault(tmp_path).key == second.key


def test_a_damaged_file_is_said_and_kept(tmp_path: Path):
    (access_folder(tmp_path) / FILE).write_text("{", "utf-8")
    (tmp_path / FOLDER / FILE).chmod(0o600)
    with pytest.raises(WorkStopped, match="cannot be read; take it away"):
        read_vault(tmp_path)
    assert (tmp_path / FOLDER / FILE).read_text("utf-8") == "{"


def test_of_many_at_once_one_gets_in(tmp_path: Path):
    code = tickets.new_code(tmp_path, tickets.ENTER, THE_OWNER.key)
    with ThreadPoolExecutor(8) as at_once:
        got = list(at_once.map(lambda _: tickets.use_up(tmp_path, tickets.ENTER, code), range(8)))
    assert sorted(got, key=str) == [None] * 7 + [THE_OWNER.key]


def test_a_code_opens_what_it_was_made_for_and_ends(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    code = tickets.new_code(tmp_path, tickets.PAIR, THE_OWNER.key)
    assert tickets.use_up(tmp_path, tickets.ENTER, code) is None
    assert code not in (tmp_path / FOLDER / FILE).read_text("utf-8")
    newer = tickets.new_code(tmp_path, tickets.PAIR, THE_OWNER.key)
    assert tickets.use_up(tmp_path, tickets.PAIR, code) is None  # a newer one ends the one before
    now = tickets.time.time()
    monkeypatch.setattr("dashboard.access.tickets.time.time", lambda: now + 601)
    assert tickets.use_up(tmp_path, tickets.PAIR, newer) is None


def test_a_cookie_says_who_until_it_ends(tmp_path: Path):
    vault = read_vault(tmp_path)
    login = new_login(THE_OWNER.key, 60)
    assert read_login(vault, login_value(vault, login, HERE), HERE) == login
    assert read_login(vault, login_value(vault, new_login(THE_OWNER.key, -1), HERE), HERE) is None
    assert read_login(vault, login_value(vault, login, HERE), NETWORK) is None
    assert read_login(vault, phone_value(vault, Phone(key="p", person="x", name="x", paired_on="")), HERE) is None
    assert read_login(vault, "", HERE) is None and read_login(vault, "é.x", HERE) is None


def test_what_the_owner_ends_has_ended(tmp_path: Path):
    """A phone, or a person, that is gone from the list takes the sign-ins with it."""
    with changed(tmp_path) as vault:
        vault.put(Person(key="j", name="Joris", role=STYLIST, stylist="Joris"))
        vault.phones = [Phone(key="p", person="j", name="Joris's phone", paired_on="2026-11-01")]
    vault = read_vault(tmp_path)
    of_phone, shown = login_value(vault, new_login("j", 60, "p"), NETWORK), phone_value(vault, vault.phones[0])
    assert read_login(vault, of_phone, NETWORK) is not None and read_phone(vault, shown) is not None
    bare = login_value(vault, new_login("j", 60), NETWORK)
    assert read_login(vault, bare, NETWORK) is None  # on the network, never without a paired phone
    with changed(tmp_path) as vault:
        vault.phones = []
    assert read_login(read_vault(tmp_path), of_phone, NETWORK) is None
    assert read_phone(read_vault(tmp_path), shown) is None


def test_a_role_nobody_knows_sees_nothing(tmp_path: Path):
    with changed(tmp_path) as vault:
        vault.people = [Person(key="j", name="Joris", role="manager")]
    assert read_vault(tmp_path).person("j") is None


def test_a_passphrase_is_kept_as_a_hash():
    kept = passphrases.hashed("grey cat, blue tap")
    assert kept.startswith("$argon2id$") and "grey" not in kept and kept != passphrases.hashed("grey cat, blue tap")
    assert passphrases.matches(kept, "grey cat, blue tap") and not passphrases.matches(kept, "grey cat, blue tab")
    assert not passphrases.matches("", "") and not passphrases.matches("nonsense", "nonsense")
    for bad in ("short", "x" * 201):
        with pytest.raises(WorkStopped, match="8 to 200"):
            passphrases.hashed(bad)


def test_each_wrong_one_makes_the_next_wait_longer():
    now = [0.0]
    attempts = Attempts(lambda: now[0])
    waits = []
    for _ in range(14):
        attempts.was_wrong("j")
        waits.append(attempts.wait_s("j"))
        now[0] += waits[-1]
    assert waits == [0, 0, 2, 4, 8, 16, 32, 64, 128, 256, 512, 900, 900, 900]
    attempts.was_wrong("j")
    assert attempts.wait_s("j") == 900 and attempts.wait_s("another") == 0
    attempts.was_right("j")
    assert attempts.wait_s("j") == 0


def test_a_link_answers_to_whom_it_was_sent_while_they_look():
    now = [0.0]
    links = Links(lambda: now[0])
    links.opened("a")
    links.opened("b")
    links.note("a", b"\x12\x18/media/0a1b.pdf\x00 and /_stcore/upload_file/s-1/f-2\x1a")
    assert links.answers("a", "/media/0a1b.pdf") and links.answers("a", "/_stcore/upload_file/s-1/f-2")
    assert not links.answers("b", "/media/0a1b.pdf") and not links.answers("c", "/media/0a1b.pdf")
    assert not links.answers("a", "/media/0a1b") and not links.answers("a", "/media/0a1b.pdf/x")
    links.closed("a")
    assert not links.answers("a", "/media/0a1b.pdf")
    now[0] = 60
    links.opened("a")  # the phone slept and is back
    assert links.answers("a", "/media/0a1b.pdf")
    links.closed("a")
    now[0] = 200
    links.opened("a")
    assert not links.answers("a", "/media/0a1b.pdf")
