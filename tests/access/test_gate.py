"""Requests × who asks: not one byte of the salon goes to somebody whose it is not."""

import time
from pathlib import Path

import pytest

from dashboard.access.cookies import login_value, new_login
from dashboard.access.doors import Door
from dashboard.access.people import THE_OWNER
from dashboard.access.vault import read_vault
from tests.access.asking import CLIENTS, Answered, ask, listen, sent
from tests.browser.serving import SIGNED_IN

PATHS = (  # page, health, static, media, upload, and what the server could answer besides
    ("GET", "/"),
    ("GET", "/month"),
    ("GET", "/_stcore/health"),
    ("GET", "/_stcore/host-config"),
    ("GET", "/_stcore/metrics"),
    ("GET", "/_stcore/script-health-check"),
    ("GET", "/_stcore/agent/openapi.json"),
    ("GET", "/_stcore/stream"),
    ("GET", "/static/js/index.js"),
    ("GET", "/favicon.png"),
    ("GET", "/media/0123456789abcdef.pdf"),
    ("PUT", "/_stcore/upload_file/some-session/some-file"),
    ("DELETE", "/_stcore/upload_file/some-session/some-file"),
    ("OPTIONS", "/media/0123456789abcdef.pdf"),
    ("POST", "/"),
)


def door(base: str) -> Door:
    return Door("127.0.0.1", int(base.rsplit(":", 1)[1]))


@pytest.fixture
def owner(base: str) -> str:
    """The owner's Cookie header."""
    return "=".join(SIGNED_IN[base])


def strangers(base: str, salon: Path, owner: str) -> dict[str, dict[str, str]]:
    """Who is nobody here, as what they send."""
    here, vault, name = door(base), read_vault(salon), owner.partition("=")[0]
    expired = login_value(vault, new_login(THE_OWNER.key, -1), here)
    unknown = login_value(vault, new_login("somebody", 60), here)
    elsewhere = login_value(vault, new_login(THE_OWNER.key, 60), Door("127.0.0.1", here.port + 1))
    forged = login_value(vault.model_copy(update={"key": "0" * 64}), new_login(THE_OWNER.key, 60), here)
    named = {"X_Salon_Login": "x", "X_Salon_Person": THE_OWNER.key}
    return {
        "nobody": {},
        "nobody, with our own headers": named,
        "expired": {"Cookie": f"{name}={expired}"},
        "no person of the salon": {"Cookie": f"{name}={unknown}"},
        "a cookie of another address": {"Cookie": f"{name}={elsewhere}"},
        "a forged cookie": {"Cookie": f"{name}={forged}"},
        "a cookie cut short": {"Cookie": owner[:-2]},
        "owner, foreign Host": {"Cookie": owner, "Host": "elsewhere.example"},
        "owner, localhost": {"Cookie": owner, "Host": f"localhost:{here.port}"},
        "owner, Host without the port": {"Cookie": owner, "Host": "127.0.0.1"},
        "owner, foreign Origin": {"Cookie": owner, "Origin": "http://elsewhere.example"},
        "owner, another port": {"Cookie": owner, "Origin": "http://127.0.0.1:3000"},
        "owner, localhost's Origin": {"Cookie": owner, "Origin": f"http://localhost:{here.port}"},
        "owner, no Origin to speak of": {"Cookie": owner, "Origin": "null"},
        "owner, framed": {"Cookie": owner, "Sec_Fetch_Dest": "iframe", "Sec_Fetch_Site": "cross-site"},
        "owner, as a picture elsewhere": {
            "Cookie": owner,
            "Sec_Fetch_Dest": "image",
            "Sec_Fetch_Site": "same-site",
            "Sec_Fetch_Mode": "no-cors",
        },
    }


def test_strangers_get_no_byte(base: str, salon: Path, owner: str):
    for who, headers in strangers(base, salon, owner).items():
        for method, path in PATHS:
            answer = ask(base, path, method, **headers)
            assert answer.status in (401, 403) and answer.body == b"", (who, method, path, answer)


def test_strangers_get_no_message(base: str, salon: Path, owner: str):
    for who, headers in strangers(base, salon, owner).items():
        origin = headers.pop("Origin", "same")
        if "framed" in who or "picture" in who:
            continue  # a socket is not framed: the page that would open it has its own Origin, tried above
        assert listen(base, "roots", origin, **headers) == [], who
    assert listen(base, "roots", None, Cookie=owner) == []


def test_who_asks_for_a_page_is_told_what_to_do(base: str):
    """A sentence, and nothing of whose salon it is."""
    answer = ask(base, "/roots", Accept="text/html")
    assert answer.status == 401 and b"salon-figures dashboard" in answer.body
    assert b"Kwartels" not in answer.body and answer.headers["cache-control"] == "no-store"


def test_the_owner_sees_the_clients_and_nothing_is_kept(base: str, owner: str):
    page = ask(base, "/roots", Cookie=owner, Accept="text/html", Sec_Fetch_Dest="document", Sec_Fetch_Site="none")
    assert ask(base, "/month?month=2026-10", Cookie=owner).headers["location"] == "/?month=2026-10"  # the first page
    assert page.status == 200 and page.headers["cache-control"] == "no-store"
    assert page.headers["referrer-policy"] == "no-referrer" and page.headers["x-content-type-options"] == "nosniff"
    policy = page.headers["content-security-policy"]
    assert "frame-ancestors 'none'" in policy and "default-src 'none'" in policy and "unsafe-eval" not in policy
    outside = [word for word in policy.replace(";", " ").split() if "//" in word]
    assert outside == [door(base).socket_origin]
    shown = sent(listen(base, "roots", Cookie=owner))
    assert all(client.encode() in shown for client in CLIENTS.values())
    assert ask(base, "/_stcore/health", Cookie=owner).status == 200


def test_what_pages_do_not_need_is_not_there(base: str, owner: str):
    for method, path in (
        ("GET", "/_stcore/metrics"),
        ("GET", "/_stcore/agent/openapi.json"),
        ("GET", "/_stcore/script-health-check"),
        ("GET", "/component/x/index.html"),
        ("GET", "/media/0123456789abcdef.pdf"),
        ("GET", "/app/static/x"),
    ):
        answer = ask(base, path, method, Cookie=owner)
        assert answer.status == 404 and answer.body == b"", path


def test_the_link_opens_once(base: str, salon: Path):
    from dashboard.access.tickets import ENTER, new_code

    code = new_code(salon, ENTER, THE_OWNER.key)
    first, second = ask(base, f"/enter?code={code}"), ask(base, f"/enter?code={code}")
    assert first.status == 200 and "HttpOnly" in first.headers["set-cookie"]
    assert "SameSite=Strict" in first.headers["set-cookie"]
    assert second.status == 401 and "set-cookie" not in second.headers
    assert "set-cookie" not in ask(base, "/enter").headers and "set-cookie" not in ask(base, "/enter?code=x").headers


def signed_in(answer: Answered) -> str:
    """The Cookie header that follows from an answer."""
    return answer.headers["set-cookie"].partition(";")[0]


def test_signing_out_ends_the_cookie_everywhere(base: str, salon: Path):
    from dashboard.access.tickets import ENTER, new_code

    cookie = signed_in(ask(base, f"/enter?code={new_code(salon, ENTER, THE_OWNER.key)}"))
    assert ask(base, "/_stcore/health", Cookie=cookie).status == 200
    assert ask(base, "/sign-out", "POST", Cookie=cookie).status == 403  # no Origin: another page's form could do it
    assert ask(base, "/sign-out", "POST", Cookie=cookie, Origin=base).status == 200
    assert ask(base, "/_stcore/health", Cookie=cookie).status == 401
    assert listen(base, "roots", Cookie=cookie) == []


def test_a_sign_in_that_ends_closes_its_socket(base: str, salon: Path):
    """The cookie is looked at again with every message, not only when the socket is opened."""
    from streamlit.proto.BackMsg_pb2 import BackMsg
    from websockets.exceptions import ConnectionClosed
    from websockets.sync.client import connect

    here = door(base)
    value = login_value(read_vault(salon), new_login(THE_OWNER.key, 3), here)
    with connect(
        f"{here.socket_origin}/_stcore/stream",
        origin=base,  # type: ignore[arg-type]
        additional_headers={"Cookie": f"{here.cookie('login')}={value}"},
    ) as socket:
        time.sleep(3.1)
        asked = BackMsg()
        asked.rerun_script.page_name = "roots"
        socket.send(asked.SerializeToString())
        got = b""
        with pytest.raises((ConnectionClosed, TimeoutError)):
            while True:
                got += socket.recv(timeout=2)
    assert not any(client.encode() in got for client in CLIENTS.values())
