"""What a browser decides: the link of this machine, frames, foreign pages, downloads and what is kept of them."""

import http.server
import re
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Browser, Page, expect

from dashboard.access.members import add_person, pairing_link
from dashboard.access.people import OWNER, THE_OWNER
from dashboard.access.tickets import ENTER, new_code
from tests.access.asking import ask, write_salon
from tests.access.conftest import ELSEWHERE
from tests.access.phone import PHRASE
from tests.browser.chromium import address, settle
from tests.browser.serving import load_here, serving

pytestmark = pytest.mark.browser

FOREIGN = """<!doctype html><title>foreign</title>
<iframe id="framed" src="{base}/roots"></iframe>
<script>
window.got = 0;
for (const url of ["{socket}/_stcore/stream", "{socket}/_stcore/stream?x=1"]) {{
  const socket = new WebSocket(url, ["streamlit"]);
  socket.onmessage = () => {{ window.got += 1; }};
  socket.onclose = () => {{ window.shut = (window.shut || 0) + 1; }};
}}
fetch("{base}/", {{credentials: "include"}}).then(() => {{ window.got += 1; }}, () => {{ window.refused = true; }});
</script>"""


class _Quiet(http.server.BaseHTTPRequestHandler):
    """A page of somebody else's, on another port of this machine."""

    def __init__(self, page: str, *given: Any) -> None:
        self.page = page
        super().__init__(*given)

    def do_GET(self) -> None:
        self.send_response(200)
        self.send_header("Content-Type", "text/html")
        self.end_headers()
        self.wfile.write(self.page.encode())

    def log_message(self, *_: Any) -> None:
        return


@contextmanager
def foreign_page(base: str) -> Iterator[str]:
    """Its address, by the same name of this machine and so with the same cookies as far as a browser goes by names."""
    page = FOREIGN.format(base=base, socket=base.replace("http", "ws", 1))
    with http.server.ThreadingHTTPServer(("127.0.0.1", 0), partial(_Quiet, page)) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{server.server_port}/"
        server.shutdown()


@pytest.fixture
def stranger(running: Browser) -> Iterator[Page]:
    """A window that nobody is signed in to."""
    context = running.new_context()
    yield context.new_page()
    context.close()


def test_the_link_opens_the_pages_and_they_stay_open(stranger: Page, base: str, demo_salon: Path):
    stranger.goto(address(base, "roots"))
    expect(stranger.get_by_text("salon-figures dashboard")).to_be_visible()
    link = f"{base}/enter?code={new_code(demo_salon, ENTER, THE_OWNER.key)}"
    stranger.goto(link)
    settle(stranger)
    assert stranger.url.rstrip("/") == base
    stranger.reload()
    settle(stranger)
    assert stranger.evaluate("document.cookie").find("login") == -1
    stranger.goto(link)
    expect(stranger.get_by_text("used already")).to_be_visible()


def test_a_foreign_page_of_this_machine_sees_nothing(running: Browser, base: str):
    page = running.new_page()
    page.goto(base)
    settle(page)
    with foreign_page(base) as there:
        page.goto(there)
        page.wait_for_function("() => window.shut === 2 && window.refused", timeout=10_000)
        assert page.evaluate("window.got") == 0
        inside = page.frames[1].content()
        assert "answer" not in inside and "stApp" not in inside
    page.close()


def test_a_download_is_for_who_made_it_while_they_look(running: Browser, base: str, demo_salon: Path):
    page = running.new_page()
    page.goto(address(base, "roots"))
    settle(page)
    with page.expect_download() as waiting:
        page.get_by_role("button", name="Call sheet (CSV)").click()
    path = waiting.value.url.removeprefix(base)
    assert path.startswith("/media/")
    mine = "; ".join(f"{one['name']}={one['value']}" for one in page.context.cookies())
    kept = ask(base, path, Cookie=mine)
    assert kept.status == 200 and kept.headers["cache-control"] == "no-store" and len(kept.body) > 1000
    again = ask(base, f"/enter?code={new_code(demo_salon, ENTER, THE_OWNER.key)}").headers["set-cookie"]
    for headers in ({}, {"Cookie": again.partition(";")[0]}):
        other = ask(base, path, **headers)
        assert other.status in (401, 404) and other.body == b""
    page.close()
    for _ in range(50):
        if ask(base, path, Cookie=mine).body == b"":
            return
        time.sleep(0.1)
    raise AssertionError("The link still answers after the page was closed.")


def paired(page: Page, link: str) -> None:
    """With the phone's own browser, which decides on cookies, forms and Origin."""
    page.goto(link)
    page.get_by_label("Choose a passphrase").fill(PHRASE)
    page.get_by_label("The same again").fill(PHRASE)
    page.get_by_role("button", name="Pair").click()
    settle(page)


def marked(page: Page, base: str) -> None:
    """The first client did not answer; and the evening after, when the sign-in has ended, it stands there."""
    page.goto(f"{base}/roots")
    settle(page)
    page.get_by_role("radio", name="no answer").first.click()
    expect(page.get_by_role("radio", name="no answer", checked=True)).to_have_count(1, timeout=20_000)
    page.context.clear_cookies(name=re.compile("login$"))
    page.goto(f"{base}/roots")
    page.get_by_label("Passphrase").fill(PHRASE)
    page.get_by_role("button", name="Sign in").click()
    settle(page)
    page.goto(f"{base}/roots")
    settle(page)
    expect(page.get_by_role("radio", name="no answer", checked=True)).to_have_count(1, timeout=20_000)


def test_a_phone_pairs_marks_leaves_keeps_the_list_and_says_so(running: Browser, tmp_path: Path):
    folder = write_salon(tmp_path / "kwartels")
    load_here(folder)
    with serving(folder, on_network=ELSEWHERE) as here:
        base = f"https://{ELSEWHERE}:{urlsplit(here).port}"
        page = running.new_page(viewport={"width": 390, "height": 844}, ignore_https_errors=True)
        paired(page, pairing_link(folder, add_person(folder, "Anna", OWNER), base))
        marked(page, base)
        said = page.locator(".unconnected")
        expect(said).to_be_hidden()
    expect(said).to_be_visible(timeout=20_000)
    expect(said).to_contain_text("this is what stood here at")
    page.wait_for_timeout(8000)  # by then the server's own dialog would stand over the list
    expect(page.locator("ul.clients li").first).to_be_visible()
    assert not any(dialog.is_visible() for dialog in page.locator(".stDialog").all())
    page.screenshot(path=tmp_path / "unconnected.png")
    page.close()
