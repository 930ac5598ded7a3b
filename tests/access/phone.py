"""A phone: one that fills in forms in a few milliseconds, and a real browser of a phone's size.

python -m tests.access.phone LINK: pair with the browser, sign in, mark the first client of Roots due as not answering.
"""

import http.client
import ssl
import sys
from urllib.parse import urlencode, urlsplit

from websockets.exceptions import InvalidStatus
from websockets.sync.client import connect

from tests.access.asking import Answered

PHRASE = "grey cat, blue tap"


class PhoneInHand:
    """A phone that goes on although the certificate is not known: it keeps cookies and fills in forms."""

    def __init__(self, base: str) -> None:
        self.base, self.cookies = base, {}
        self.trust = ssl._create_unverified_context()

    def ask(self, path: str, form: dict[str, str] | None = None, **headers: str) -> Answered:
        sent = {"Accept": "text/html", "Cookie": "; ".join(f"{name}={value}" for name, value in self.cookies.items())}
        if form is not None:
            sent |= {"Origin": self.base, "Content-Type": "application/x-www-form-urlencoded"}
        at = http.client.HTTPSConnection(urlsplit(self.base).netloc, timeout=20, context=self.trust)
        body = None if form is None else urlencode(form)
        try:
            at.request("GET" if form is None else "POST", path, body, sent | headers)
            answer = at.getresponse()
            for name, value in answer.getheaders():
                if name.lower() == "set-cookie":
                    key, _, said = value.partition("=")
                    self.cookies[key] = said.partition(";")[0]
            return Answered(answer.status, {k.lower(): v for k, v in answer.getheaders()}, answer.read())
        finally:
            at.close()

    def pair(self, link: str, phrase: str = PHRASE, again: str | None = PHRASE) -> Answered:
        path = link.removeprefix(self.base)
        form = {"code": path.partition("code=")[2], "phone": "a phone", "passphrase": phrase}
        return self.ask("/pair", form | ({} if again is None else {"again": again}))

    def opens(self) -> bool:
        """Whether the pages' socket opens."""
        headers = {"Cookie": "; ".join(f"{name}={value}" for name, value in self.cookies.items())}
        url = self.base.replace("http", "ws", 1) + "/_stcore/stream"
        try:
            with connect(url, origin=self.base, additional_headers=headers, ssl=self.trust):  # type: ignore[arg-type]
                return True
        except InvalidStatus:
            return False


def mark_in_browser(link: str) -> str:
    """Pair, choose a passphrase, open Roots due and mark; the sentence that the page opens with."""
    from playwright.sync_api import expect

    from tests.browser.chromium import browser, settle

    base = f"https://{urlsplit(link).netloc}"
    with browser() as running:
        context = running.new_context(viewport={"width": 390, "height": 844}, ignore_https_errors=True)
        page = context.new_page()
        page.goto(link)
        page.get_by_label("Choose a passphrase").fill(PHRASE)
        page.get_by_label("The same again").fill(PHRASE)
        page.get_by_role("button", name="Pair").click()
        settle(page)
        page.goto(f"{base}/roots")
        settle(page)
        page.get_by_role("radio", name="no answer").first.click()
        expect(page.get_by_role("radio", name="no answer", checked=True)).to_have_count(1, timeout=20_000)
        said = page.locator("h1.answer").inner_text()
        context.clear_cookies(name="__Host-salon-figures-8501-login")  # the evening after: the sign-in has ended
        page.goto(f"{base}/roots")
        page.get_by_label("Passphrase").fill(PHRASE)
        page.get_by_role("button", name="Sign in").click()
        settle(page)
        context.close()
    return said


if __name__ == "__main__":
    print(mark_in_browser(sys.argv[1]))
