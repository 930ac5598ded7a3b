"""Serve the pages behind the gate, at one door or two, until they are stopped."""

import asyncio
import signal
import socket
from collections.abc import Callable, Generator
from contextlib import contextmanager
from pathlib import Path
from types import FrameType
from typing import TYPE_CHECKING

import uvicorn

from analytics.stops import WorkStopped
from dashboard.access.doors import Door
from dashboard.access.gate import Gate
from dashboard.access.options import set_options

if TYPE_CHECKING:
    from dashboard.access.certificate import Certificate

LARGEST_MESSAGE = 26 * 1024 * 1024  # what a browser may send at once: the state of all that can be filled in
PING_S = 30
STOPS_WITHIN_S = 3


def listen(door: Door) -> socket.socket:
    """A socket at this door. Raises WorkStopped where nothing can listen there."""
    family = socket.AF_INET6 if ":" in door.host else socket.AF_INET
    listening = socket.socket(family)
    try:
        if hasattr(socket, "SO_EXCLUSIVEADDRUSE"):  # where another program could listen at the same port otherwise
            listening.setsockopt(socket.SOL_SOCKET, socket.SO_EXCLUSIVEADDRUSE, 1)
        else:
            listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        listening.bind((door.host, door.port))
        listening.listen(128)
    except (OSError, OverflowError) as error:
        listening.close()
        why = getattr(error, "strerror", None) or "it is no port"
        raise WorkStopped(f"Nothing can listen at {door.netloc} ({why}); name another port with --port.") from None
    listening.setblocking(False)
    return listening


class _Server(uvicorn.Server):
    """One door's server. It leaves the signals alone: all doors close together."""

    def __init__(self, config: uvicorn.Config, ready: Callable[[], None]) -> None:
        super().__init__(config)
        self._ready = ready

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        await super().startup(sockets)
        self._ready()

    @contextmanager
    def capture_signals(self) -> Generator[None, None, None]:
        yield


@contextmanager
def _closed_by_signals(servers: list[_Server]) -> Generator[None, None, None]:
    """Ctrl+C and the like close every door in peace, within STOPS_WITHIN_S.

    A server that listened for itself would pass the signal on when done, and the next would take it for a second one.
    """

    def close(_signal: int, _frame: FrameType | None) -> None:
        for server in servers:
            server.should_exit = True

    before = {number: signal.signal(number, close) for number in (signal.SIGINT, signal.SIGTERM)}
    try:
        yield
    finally:
        for number, handler in before.items():
            signal.signal(number, handler)


def _config(gate_app: object, first: bool, certificate: "Certificate | None") -> uvicorn.Config:
    return uvicorn.Config(
        gate_app,  # type: ignore[arg-type]
        ssl_certfile=certificate.certificate if certificate else None,
        ssl_keyfile=certificate.key if certificate else None,
        lifespan="on" if first else "off",  # the pages are started once, whatever the number of doors
        ws="websockets-sansio",
        ws_max_size=LARGEST_MESSAGE,
        ws_ping_interval=PING_S,
        ws_ping_timeout=PING_S,
        ws_per_message_deflate=False,
        proxy_headers=False,  # nobody stands between a reader and the gate
        server_header=False,
        access_log=False,
        log_level="warning",
        use_colors=False,
        workers=1,
        timeout_graceful_shutdown=STOPS_WITHIN_S,
    )


def serve(
    script: Path,
    salon: Path,
    listening: dict[Door, socket.socket],
    *,
    signed_in_s: float,
    ready: Callable[[], None],
    certificate: "Certificate | None" = None,
) -> None:
    """Run the pages until they are stopped. ready: called once they can be opened."""
    doors = tuple(listening)
    set_options(doors)
    import streamlit as st
    from starlette.middleware import Middleware

    app = st.App(script, middleware=[Middleware(Gate, salon=salon, doors=doors, signed_in_s=signed_in_s)])
    last = len(doors) - 1
    servers = [
        _Server(_config(app, number == 0, certificate if door.secure else None), ready if number == last else _nothing)
        for number, door in enumerate(doors)
    ]
    with _closed_by_signals(servers):
        asyncio.run(_all(servers, list(listening.values())))


def _nothing() -> None:
    """What a door does that is not the last to open."""


async def _all(servers: list[_Server], sockets: list[socket.socket]) -> None:
    """The first starts the pages; the others open once they run."""
    first = asyncio.create_task(servers[0].serve([sockets[0]]))
    while not servers[0].started and not first.done():
        await asyncio.sleep(0.01)
    others = [server.serve([at]) for server, at in zip(servers[1:], sockets[1:], strict=True)]
    await asyncio.gather(first, *others)
