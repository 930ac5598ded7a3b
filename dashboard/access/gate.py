"""The gate before the pages: an ASGI middleware that lets a request through, or answers it with nothing of the salon.

It stands before pages, socket, media, uploads, health and static files alike. A request has to name the door it comes
in by (Host), come from that door's own pages (Origin, and what the browser says of its kind), and be signed in; what a
role does not need is not there for it. Everything else is refused.

Nothing but the gate decides what is let through, and it refuses what it does not know. It tells the pages who reads
by a header of its own, by which Streamlit also binds a session to its sign-in. Config files and environment of
Streamlit are not read at all. Cookies know no port: whoever runs another server at 127.0.0.1 and is visited in the
same browser is sent ours, which is why it is HttpOnly, ends, and opens nothing at another address or from another
Origin.
"""

import time
from dataclasses import dataclass, field
from http import HTTPStatus
from pathlib import Path

from starlette.datastructures import MutableHeaders
from starlette.requests import HTTPConnection
from starlette.responses import RedirectResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from analytics.stops import WorkStopped
from dashboard.access import rooms
from dashboard.access.cookies import LOGIN, Login, read_login
from dashboard.access.doors import Door
from dashboard.access.headers import safe_headers
from dashboard.access.links import Links
from dashboard.access.vault import Vault, read_vault
from dashboard.page import pages

SOCKET, HEALTH, UPLOAD, MEDIA = "/_stcore/stream", "/_stcore/health", "/_stcore/upload_file/", "/media/"
INTERNAL, NEEDED = "/_stcore/", (SOCKET, HEALTH, "/_stcore/host-config")
TAKES_NO_FILES = ("/component/", "/app/")  # the server's own ways to hand out further files; no page has any
HEARD = ("rerun_script", "stop_script", "file_urls_request", "app_heartbeat")
OPERATIONS = ("deferred_file", "dataframe_chunk")
READS = ("GET", "HEAD")
FRAMES = ("iframe", "frame", "embed", "object", "fencedframe", "portal")
HEADER_LOGIN, HEADER_PERSON = b"x-salon-login", b"x-salon-person"


@dataclass(frozen=True)
class Asked:
    """What a request says of itself."""

    door: Door
    path: str
    method: str
    headers: dict[str, list[str]]

    def one(self, name: str) -> str:
        """The header's only value; "" where there is none or more than one."""
        values = self.headers.get(name, [])
        return values[0] if len(values) == 1 else ""

    @property
    def at_this_door(self) -> bool:
        return self.one("host").lower() == self.door.netloc

    @property
    def from_here(self) -> bool:
        """Whether it comes from this door's own pages, or is somebody going to an address."""
        origins, site, kind = self.headers.get("origin", []), self.one("sec-fetch-site"), self.one("sec-fetch-dest")
        if kind in FRAMES or origins not in ([], [self.door.origin]):
            return False
        if self.method not in READS and not origins:
            return False
        return site in ("", "same-origin", "none") or (kind == "document" and self.method in READS)


@dataclass
class Gate:
    """The middleware. salon: its folder, whose secrets it reads; doors: the addresses that are listened on."""

    app: ASGIApp
    salon: Path
    doors: tuple[Door, ...]
    signed_in_s: float
    links: Links = field(default_factory=Links)

    def __post_init__(self) -> None:
        self.rooms = rooms.Rooms(self.salon, self.signed_in_s)
        self._read_with: Vault | None = None
        self._logins: dict[tuple[Door, str], Login] = {}

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] == "http":
            await self._http(scope, receive, send)
        elif scope["type"] == "websocket":
            await self._socket(scope, receive, send)
        else:
            await self.app(scope, receive, send)

    def _asked(self, scope: Scope) -> Asked | None:
        """The request, where it came in by one of the doors."""
        secure = scope["scheme"] in ("https", "wss")
        door = next((door for door in self.doors if door.secure == secure), None)
        if door is None:
            return None
        headers: dict[str, list[str]] = {}
        for name, value in scope["headers"]:
            headers.setdefault(name.decode("latin-1").lower(), []).append(value.decode("latin-1"))
        return Asked(door, scope["path"], scope.get("method", "GET"), headers)

    def login(self, scope: Scope, door: Door) -> Login | None:
        """Who is signed in, by the cookie of this door."""
        value = HTTPConnection(scope).cookies.get(door.cookie(LOGIN), "")
        if not value:
            return None
        vault = self._vault()
        if vault is not self._read_with:
            self._read_with, self._logins = vault, {}
        login = self._logins.get((door, value)) or read_login(vault, value, door)
        if login is None or login.until <= time.time():
            return None
        self._logins[door, value] = login  # the same vault says the same again; a page asks for over a hundred files
        return login

    def _vault(self) -> Vault:
        return read_vault(self.salon)

    async def _http(self, scope: Scope, receive: Receive, send: Send) -> None:
        asked = self._asked(scope)
        if asked is None or not asked.at_this_door or not asked.from_here:
            await Response(status_code=HTTPStatus.FORBIDDEN)(scope, receive, send)
            return
        try:
            own = await self.rooms.answer(scope, receive, asked.door)
            login = self.login(scope, asked.door)
        except WorkStopped as stopped:
            own, login = rooms.sentence(str(stopped), HTTPStatus.SERVICE_UNAVAILABLE), None
        if own is None and login is None:
            own = self.rooms.outside(scope, asked.door)
        closing = _closed(send, safe_headers(asked.door, asked.path, own is not None), asked.door)
        if own is not None:
            await own(scope, receive, closing)
        elif login is None or not self._may(login, asked):
            await Response(status_code=HTTPStatus.NOT_FOUND)(scope, receive, closing)
        elif self._is_elsewhere(login, asked):
            query = scope["query_string"].decode("latin-1")
            await RedirectResponse(f"/?{query}" if query else "/", HTTPStatus.SEE_OTHER)(scope, receive, closing)
        else:
            await self.app(_as(scope, login), receive, closing)

    def _may(self, login: Login, asked: Asked) -> bool:
        """Whether this is something that pages need, and that was offered to this sign-in."""
        path = asked.path
        if path.startswith(UPLOAD):
            person = self._vault().person(login.person)
            return person is not None and person.reader.is_owner and self.links.answers(login.key, path)
        if path.startswith(MEDIA):
            return asked.method in READS and self.links.answers(login.key, path)
        if path.startswith(TAKES_NO_FILES) or asked.method not in READS:
            return False
        return not path.startswith(INTERNAL) or path in NEEDED

    def _is_elsewhere(self, login: Login, asked: Asked) -> bool:
        """Whether this is the address of a page that is not theirs, or of their first, which has none of its own."""
        name = asked.path.strip("/")
        if name not in pages():
            return False
        person = self._vault().person(login.person)
        theirs = [key for key, page in pages().items() if person is not None and person.role in page.readers]
        return name not in theirs[1:]

    async def _socket(self, scope: Scope, receive: Receive, send: Send) -> None:
        asked = self._asked(scope)
        login = self.login(scope, asked.door) if asked else None
        here = asked is not None and asked.at_this_door and asked.headers.get("origin") == [asked.door.origin]
        if login is None or asked is None or not here or asked.path != SOCKET:
            await send({"type": "websocket.close", "code": 1008})
            return
        door = asked.door

        async def told() -> Message:
            while True:
                message = await receive()
                if message["type"] != "websocket.receive":
                    return message
                if self.login(scope, door) is None:  # it ended, or was ended, while the socket was open
                    return {"type": "websocket.disconnect", "code": 1008}
                if _is_heard(message.get("bytes") or b""):
                    return message

        async def noted(message: Message) -> None:
            if message["type"] == "websocket.send" and message.get("bytes"):
                self.links.note(login.key, message["bytes"])
            await send(message)

        self.links.opened(login.key)
        try:
            await self.app(_as(scope, login), told, noted)
        finally:
            self.links.closed(login.key)


def _is_heard(message: bytes) -> bool:
    """Whether this is something that pages say; not the tools of who writes them, which the server has as well."""
    from google.protobuf.message import DecodeError
    from streamlit.proto.BackMsg_pb2 import BackMsg

    try:
        said = BackMsg.FromString(message)
    except DecodeError:
        return False
    asked = said.WhichOneof("type")
    return asked in HEARD or (
        asked == "backend_operation_request" and said.backend_operation_request.WhichOneof("payload") in OPERATIONS
    )


def _as(scope: Scope, login: Login) -> Scope:
    """The request with who is signed in, in headers that nobody outside can send."""
    sent = [(name, value) for name, value in scope["headers"] if not name.lower().startswith(b"x-salon-")]
    known = [(HEADER_LOGIN, login.key.encode()), (HEADER_PERSON, login.person.encode())]
    return {**scope, "headers": [*sent, *known]}


def _closed(send: Send, headers: dict[str, str], door: Door) -> Send:
    """Send answers with these headers in the place of the server's own."""

    async def closing(message: Message) -> None:
        if message["type"] == "http.response.start":
            said = MutableHeaders(scope=message)
            for name in [name for name in said if name.startswith("access-control-")]:
                del said[name]
            for name, value in headers.items():
                said[name] = value
            if door.secure:
                _secure_cookies(said)
        await send(message)

    return closing


def _secure_cookies(headers: MutableHeaders) -> None:
    """The server's own cookies go over HTTPS alone as well."""
    cookies = headers.getlist("set-cookie")
    del headers["set-cookie"]
    for cookie in cookies:
        headers.append("set-cookie", cookie if "; secure" in cookie.lower() else f"{cookie}; Secure")
