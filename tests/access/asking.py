"""Requests as a browser or somebody else would make them, and how many bytes of what came back."""

import http.client
import shutil
import ssl
import time
from collections.abc import Iterator
from contextlib import ExitStack
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import urlsplit

from streamlit.proto.BackMsg_pb2 import BackMsg
from streamlit.proto.Element_pb2 import Element
from streamlit.proto.ForwardMsg_pb2 import ForwardMsg
from streamlit.proto.NewSession_pb2 import NewSession
from websockets.exceptions import ConnectionClosed, InvalidStatus
from websockets.sync.client import ClientConnection, connect

PATIENCE_S = 20
LONGEST_S = 60  # of one run of a page
SMALL = {
    "menu.csv": "service_id,service,kind,price,tax_rate,hands_on_min\nS1,Root touch-up,root_touch_up,77,21,45\n",
    "clients.csv": "client_id,client,phone,may_contact\nC1,Zora Quendel,+31 6 73910465,yes\n"
    "C2,Milo Vrantz,+31 6 82640917,yes\n",
    "payments.csv": "paid_at,booking_id,method,amount\n2026-10-06 11:00,B8,card,77\n2026-10-07 11:00,B9,card,81.50\n",
}
CLIENTS = {"Anna": "Zora Quendel", "Joris": "Milo Vrantz"}
BOOKINGS = "booking_id,client_id,stylist,starts_at,ends_at,status,service_id,price\n"


def write_salon(folder: Path, settings: str = "") -> Path:
    """A salon of two stylists with one client each, not loaded yet."""
    (folder / "exports").mkdir(parents=True)
    (folder / "salon.toml").write_text(f'[salon]\nname = "Kwartels"\n{settings}', "utf-8")
    days = ("2026-02-03", "2026-03-17", "2026-04-28", "2026-06-09", "2026-07-21", "2026-09-01")
    visits = [(f"{day} 10:00", f"{day} 11:00", place) for day in days for place in (1, 2)]
    rows = [
        f"B{place}{number},C{place},{list(CLIENTS)[place - 1]},{start},{end},completed,S1,77\n"
        for number, (start, end, place) in enumerate(visits)
    ]
    rows += ["B8,C1,Anna,2026-10-06 10:00,2026-10-06 11:00,completed,S1,77\n"]
    rows += ["B9,C2,Joris,2026-10-07 10:00,2026-10-07 11:00,completed,S1,81.50\n"]
    for name, text in (SMALL | {"bookings.csv": BOOKINGS + "".join(rows)}).items():
        (folder / "exports" / name).write_text(text, "utf-8")
    return folder


def copied(salon: Path, to: Path) -> Path:
    """The same salon elsewhere, without its secrets."""
    shutil.copytree(salon, to, ignore=shutil.ignore_patterns("access"))
    return to


@dataclass(frozen=True)
class Answered:
    """status, headers and body of what came back."""

    status: int
    headers: dict[str, str]
    body: bytes


def ask(base: str, path: str, method: str = "GET", body: bytes | None = None, **headers: str) -> Answered:
    """One request; `_` in a header's name stands for `-`. Nothing but Host is sent that is not said."""
    connection = http.client.HTTPConnection(urlsplit(base).netloc, timeout=PATIENCE_S)
    try:
        connection.request(method, path, body, {name.replace("_", "-"): value for name, value in headers.items()})
        answer = connection.getresponse()
        said = {name.lower(): value for name, value in answer.getheaders()}
        return Answered(answer.status, said, answer.read())
    finally:
        connection.close()


def listen(base: str, page: str = "", origin: str | None = "same", **headers: str) -> list[ForwardMsg]:
    """Every message that the pages' socket sends for one run of a page; none where it does not open."""
    url = base.replace("http", "ws", 1) + "/_stcore/stream"
    more = {name.replace("_", "-"): value for name, value in headers.items()}
    found: list[ForwardMsg] = []
    try:
        with connect(
            url,
            origin=base if origin == "same" else origin,
            additional_headers=more,
            subprotocols=["streamlit"],
            max_size=None,
            open_timeout=PATIENCE_S,
        ) as socket:
            asked = BackMsg()
            asked.rerun_script.query_string = ""
            asked.rerun_script.page_name = page
            socket.send(asked.SerializeToString())
            for message in _until_late(socket):
                found.append(message)
                if message.WhichOneof("type") == "script_finished":
                    break
            return found
    except (InvalidStatus, ConnectionClosed):
        return found


def _until_late(socket: ClientConnection) -> Iterator[ForwardMsg]:
    """Every message that comes; raises where a page goes on saying things and does not end."""
    end = time.monotonic() + LONGEST_S
    while time.monotonic() < end:
        yield ForwardMsg.FromString(socket.recv(timeout=PATIENCE_S))
    raise AssertionError(f"The page was still talking after {LONGEST_S} s.")


def sent(messages: list[ForwardMsg]) -> bytes:
    """All that was sent, as bytes to search."""
    return b"".join(message.SerializeToString() for message in messages)


class Reader:
    """Somebody who is signed in and has one page open, as its browser would: it reads, and asks for downloads."""

    def __init__(
        self, base: str, cookie: str, page: str, goes_on: str = "", trust: ssl.SSLContext | None = None, **more: str
    ) -> None:
        """goes_on: the number of a session that is to be gone on with, as after a pause. more: further headers."""
        self.base, self.cookie = base, cookie
        self.open = ExitStack()
        self.socket = self.open.enter_context(
            connect(
                base.replace("http", "ws", 1) + "/_stcore/stream",
                origin=base,  # type: ignore[arg-type]
                additional_headers={"Cookie": cookie} | {name.replace("_", "-"): value for name, value in more.items()},
                subprotocols=["streamlit", *(["x", goes_on] if goes_on else [])],  # type: ignore[list-item]
                max_size=None,
                ssl=trust,
            )
        )
        asked = BackMsg()
        asked.rerun_script.page_name = page
        self.got = self._run(asked)

    def _run(self, asked: BackMsg) -> list[ForwardMsg]:
        """All that comes until the page has run."""
        self.socket.send(asked.SerializeToString())
        got: list[ForwardMsg] = []
        for message in _until_late(self.socket):
            got.append(message)
            if message.WhichOneof("type") == "script_finished":
                break
        return got

    def close(self) -> None:
        self.open.close()

    @property
    def shown(self) -> bytes:
        """All that came, as bytes to search."""
        return sent(self.got)

    @property
    def titles(self) -> list[str]:
        """The pages that the navigation names."""
        found = next(one.navigation for one in self.got if one.WhichOneof("type") == "navigation")
        return [page.page_name for page in found.app_pages]

    @property
    def _new(self) -> list[Element]:
        return [one.delta.new_element for one in self.got if one.WhichOneof("type") == "delta"]

    def tap(self, label: str, option: str) -> None:
        """One of the buttons that stand side by side under this label."""
        found = [one.button_group for one in self._new if one.WhichOneof("type") == "button_group"]
        (group,) = [one for one in found if one.label == label]
        asked = BackMsg()
        state = asked.rerun_script.widget_states.widgets.add()
        state.id = group.id
        state.string_array_value.data.append(option)
        asked.rerun_script.page_script_hash = self._began.page_script_hash
        self.got = self._run(asked)

    @property
    def buttons(self) -> dict[str, str]:
        """Of each download that is made when somebody asks: its label -> what to ask for."""
        made = [one.download_button for one in self._new if one.WhichOneof("type") == "download_button"]
        return {one.label: one.deferred_file_id for one in made}

    @property
    def session(self) -> str:
        """The number of the server's session."""
        return str(self._began.initialize.session_id)

    @property
    def _began(self) -> NewSession:
        return next(one.new_session for one in self.got if one.WhichOneof("type") == "new_session")

    def link(self, label: str) -> str:
        """Where the download lies once it was made for this button."""
        asked = BackMsg()
        asked.backend_operation_request.request_id = "1"
        asked.backend_operation_request.session_id = self.session
        asked.backend_operation_request.deferred_file.file_id = self.buttons[label]
        self.socket.send(asked.SerializeToString())
        for answer in _until_late(self.socket):
            if answer.WhichOneof("type") == "backend_operation_response":
                return answer.backend_operation_response.deferred_file.url
        raise AssertionError  # it does not end but by being late

    def download(self, label: str) -> bytes:
        return ask(self.base, self.link(label), Cookie=self.cookie).body
