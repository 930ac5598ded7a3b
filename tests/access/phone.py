"""A phone that fills in forms in a few milliseconds; tests/browser has a real browser of a phone's size."""

import http.client
import ssl
from urllib.parse import urlencode, urlsplit

from websockets.exceptions import InvalidStatus
from websockets.sync.client import connect

from tests.access.asking import Answered, Reader

PHRASE = "grey cat, blue tap"


class PhoneInHand:
    """A phone that goes on although the certificate is not known: it keeps cookies and fills in forms."""

    def __init__(self, base: str) -> None:
        self.base, self.cookies = base, {}
        self.trust = ssl._create_unverified_context()

    @property
    def cookie(self) -> str:
        """The Cookie header."""
        return "; ".join(f"{name}={value}" for name, value in self.cookies.items())

    def ask(self, path: str, form: dict[str, str] | None = None, **headers: str) -> Answered:
        sent = {"Accept": "text/html", "Cookie": self.cookie}
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
        url = self.base.replace("http", "ws", 1) + "/_stcore/stream"
        try:
            with connect(url, origin=self.base, additional_headers={"Cookie": self.cookie}, ssl=self.trust):  # type: ignore[arg-type]
                return True
        except InvalidStatus:
            return False

    def tap(self, page: str, label: str, option: str) -> bytes:
        """Open a page and tap one of its buttons; all that the page said before."""
        opened = Reader(self.base, self.cookie, page, trust=self.trust)
        said = opened.shown
        opened.tap(label, option)
        opened.close()
        return said
