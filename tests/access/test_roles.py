"""Who is signed in gets what their role needs: in pages, navigation, rows, downloads and links of others."""

import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

import pytest

from dashboard.access.cookies import LOGIN, login_value, new_login, read_login
from dashboard.access.doors import Door
from dashboard.access.members import add_person
from dashboard.access.people import ACCOUNTANT, STYLIST, THE_OWNER
from dashboard.access.people import Reader as Person
from dashboard.access.shown import NotShownError
from dashboard.access.vault import read_vault
from dashboard.data import Reading
from dashboard.for_stylists import contacts
from dashboard.page import pages
from tests.access.asking import CLIENTS, Reader, ask, listen, write_salon
from tests.browser.serving import TODAY, load_here

OF_ANNA = ("Zora", "Quendel", "73910465", "Anna")
OF_JORIS = ("Milo", "Vrantz", "82640917", "Joris")
MONEY = ("€", "81.50", "77.00", "158.50")


@pytest.fixture(scope="module")
def cookies(base: str, salon: Path) -> dict[str, str]:
    """Role -> the Cookie header of somebody who has it."""
    keys = {
        "owner": THE_OWNER.key,
        STYLIST: add_person(salon, "Joris Kwartel", STYLIST, "Joris"),
        ACCOUNTANT: add_person(salon, "Ines Boek", ACCOUNTANT),
    }
    door, vault = Door("127.0.0.1", int(base.rsplit(":", 1)[1])), read_vault(salon)
    values = {role: login_value(vault, new_login(key, 600), door) for role, key in keys.items()}
    return {role: f"{door.cookie(LOGIN)}={value}" for role, value in values.items()}


@contextmanager
def reading(base: str, cookie: str, page: str) -> Iterator[Reader]:
    opened = Reader(base, cookie, page)
    try:
        yield opened
    finally:
        opened.close()


def found(words: tuple[str, ...], content: bytes) -> list[str]:
    return [word for word in words if word.encode() in content]


def test_every_page_says_who_may_see_it_and_navigation_keeps_to_it(base: str, cookies: dict[str, str]):
    for role, cookie in cookies.items():
        with reading(base, cookie, "") as opened:
            assert opened.titles == [page.title for page in pages().values() if role in page.readers], role


def test_no_page_sends_what_is_not_theirs(base: str, cookies: dict[str, str]):
    """Whatever address is asked for; the words are sent to the owner, so that the test can fail."""
    with reading(base, cookies["owner"], "roots") as owner:
        assert len(found((*OF_ANNA, *OF_JORIS), owner.shown)) == 8
    with reading(base, cookies["owner"], "accountant") as owner:
        assert found(MONEY, owner.shown)
    for page in pages():
        with reading(base, cookies[STYLIST], page) as opened:
            assert not found((*OF_ANNA, *MONEY), opened.shown), page
        with reading(base, cookies[ACCOUNTANT], page) as opened:
            assert not found((*OF_ANNA, *OF_JORIS), opened.shown), page
    with reading(base, cookies[STYLIST], "roots") as opened:
        assert len(found(OF_JORIS, opened.shown)) == 4
    with reading(base, cookies[ACCOUNTANT], "accountant") as opened:
        assert found(MONEY, opened.shown)


def test_downloads_hold_what_is_theirs(base: str, cookies: dict[str, str]):
    with reading(base, cookies[STYLIST], "roots") as opened:
        assert len(opened.buttons) == 3
        sheet = opened.download("Call sheet (CSV)")
        assert b"Milo Vrantz" in sheet and not found((*OF_ANNA, *MONEY), sheet)
        calendar = opened.download("Days as a calendar, no names")
        assert calendar.count(b"BEGIN:VEVENT") == 1 and b"C1" not in calendar
        assert opened.download("List to print (PDF)").startswith(b"%PDF")
    with reading(base, cookies["owner"], "roots") as opened:
        assert opened.download("Days as a calendar, no names").count(b"BEGIN:VEVENT") == 2


def test_a_link_of_one_answers_to_no_other(base: str, cookies: dict[str, str]):
    with reading(base, cookies["owner"], "roots") as owner:
        link = owner.link("Call sheet (CSV)")
        with reading(base, cookies[STYLIST], "roots") as stylist:
            theirs = stylist.link("Call sheet (CSV)")
            for path, cookie in ((link, cookies[STYLIST]), (link, cookies[ACCOUNTANT]), (theirs, cookies["owner"])):
                answer = ask(base, path, Cookie=cookie)
                assert answer.status == 404 and answer.body == b""
        assert ask(base, link).body == b"" and ask(base, link, Cookie=cookies["owner"]).body


def test_nobody_goes_on_with_anothers_session(base: str, cookies: dict[str, str]):
    """Its number is enough for who began it, after a pause, and for nobody else."""
    with reading(base, cookies["owner"], "roots") as owner:
        number = owner.session
        for role in (STYLIST, ACCOUNTANT):
            taken = Reader(base, cookies[role], "", number)
            assert taken.session != number and not found(OF_ANNA, taken.shown)
            taken.close()
    again = Reader(base, cookies["owner"], "roots", number)
    assert again.session == number
    again.close()


def test_nobody_says_themselves_who_they_are(base: str, cookies: dict[str, str]):
    """The gate's own headers are worth nothing where they come from outside."""
    for role in (STYLIST, ACCOUNTANT):
        claimed = Reader(base, cookies[role], "month", X_Salon_Person=THE_OWNER.key, X_Salon_Login="x")
        assert claimed.titles == [page.title for page in pages().values() if role in page.readers]
        assert not found(OF_ANNA, claimed.shown)
        claimed.close()


def test_an_address_of_anothers_page_leads_to_their_first(base: str, cookies: dict[str, str]):
    for role, page in ((STYLIST, "month"), (STYLIST, "roots"), (ACCOUNTANT, "roots"), (ACCOUNTANT, "exports")):
        answer = ask(base, f"/{page}", Cookie=cookies[role], Accept="text/html")
        assert answer.status == 303 and answer.headers["location"] == "/" and answer.body == b""
    assert ask(base, "/mixing", Cookie=cookies[STYLIST]).status == 200


def test_only_the_owner_uploads(base: str, cookies: dict[str, str]):
    for role in (STYLIST, ACCOUNTANT, "owner"):
        answer = ask(base, "/_stcore/upload_file/any/any", "PUT", b"x", Cookie=cookies[role], Origin=base)
        assert answer.status == 404 and answer.body == b""


def test_what_every_page_needs_is_for_every_role_and_from_here_alone(base: str, salon: Path, cookies: dict[str, str]):
    """Each role × health, host-config, script, page and socket: theirs as they are; none from elsewhere or too late."""
    script = re.search(rb'src="[./]*(static/js/[^"]+)"', ask(base, "/", Cookie=cookies["owner"]).body)
    assert script is not None
    needed = ("/_stcore/health", "/_stcore/host-config", f"/{script[1].decode()}")
    for role, cookie in cookies.items():
        for path in needed:
            answer = ask(base, path, Cookie=cookie)
            assert answer.status == 200 and not found((*OF_ANNA, *OF_JORIS, "Kwartels"), answer.body), (role, path)
        assert ask(base, "/_stcore/host-config", "PUT", Cookie=cookie, Origin=base).status == 404
        for strange in strangers(base, salon, cookie):
            for path in (*needed, "/"):
                answer = ask(base, path, **strange)
                assert answer.status in (401, 403) and answer.body == b"", (role, path, strange)
            origin = strange.pop("Origin", "same")
            assert "Sec_Fetch_Dest" in strange or listen(base, "roots", origin, **strange) == [], (role, strange)


def strangers(base: str, salon: Path, cookie: str) -> list[dict[str, str]]:
    """From elsewhere, framed, and with the sign-in of this role when it has ended."""
    door, vault = Door("127.0.0.1", int(base.rsplit(":", 1)[1])), read_vault(salon)
    login = read_login(vault, cookie.partition("=")[2], door)
    assert login is not None
    late = login_value(vault, replace(login, until=1.0), door)
    return [
        {"Cookie": cookie, "Host": "elsewhere.example"},
        {"Cookie": cookie, "Origin": "http://elsewhere.example"},
        {"Cookie": cookie, "Sec_Fetch_Dest": "iframe", "Sec_Fetch_Site": "cross-site"},
        {"Cookie": f"{door.cookie(LOGIN)}={late}"},
    ]


def test_where_the_salon_lets_stylists_see_all(tmp_path: Path):
    folder = write_salon(tmp_path / "kwartels", '[access]\nstylists_see = "all"\n')
    load_here(folder)
    joris = Person("j", "Joris", STYLIST, "Joris")
    everybody = Reading(folder, TODAY, reader=joris).figure("roots")
    assert set(everybody["client"]) == set(CLIENTS.values())


def test_a_page_that_asks_for_more_is_ended(salon: Path):
    """What a role may not read is not handed to a page at all."""
    joris, ines = Person("j", "Joris", STYLIST, "Joris"), Person("i", "Ines", ACCOUNTANT)
    stylist, accountant = Reading(salon, TODAY, reader=joris), Reading(salon, TODAY, reader=ines)
    for figure in ("month", "economics", "takings", "stylists", "prices", "clientele"):
        with pytest.raises(NotShownError):
            stylist.figure(figure)
    for figure in ("roots", "month", "cards", "economics"):
        with pytest.raises(NotShownError):
            accountant.rows(figure)
    for forbidden in (
        lambda: stylist.salon,
        lambda: stylist.book,
        lambda: accountant.book,
        lambda: contacts(accountant),
    ):
        with pytest.raises(NotShownError):
            forbidden()
    assert set(stylist.rows("roots")["client_id"]) == {"C2"} and set(contacts(stylist)["client_id"]) == {"C2"}
    for figure in ("mixing", "mixing_clients", "mixes"):
        names = {word for column in stylist.figure(figure).columns for word in column.split("_")}
        assert not names & {"cost", "saving", "price", "net"}
