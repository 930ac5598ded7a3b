"""A host that was not paired tries what it can."""

import socket

from tests.access.phone import PhoneInHand

PATHS = ("/", "/roots", "/sign-in", "/pair?code=x", "/enter?code=x", "/_stcore/health", "/media/0a1b.pdf", "/static/x")
SALON = (b"Kwartels", b"Zora", b"Milo", b"Quendel", b"Vrantz", b"Anna", b"Joris", b"stApp")


def bytes_for_strangers(host: str, port: int) -> int:
    """How many bytes of the salon, and how many open doors, it gets."""
    stranger = PhoneInHand(f"https://{host}:{port}")
    got = 0
    for path in PATHS:
        for headers in ({}, {"Host": "127.0.0.1:8501"}, {"Origin": "https://elsewhere.example"}, {"Accept": "*/*"}):
            answer = stranger.ask(path, **headers)
            got += len(answer.body) if answer.status < 400 or any(word in answer.body for word in SALON) else 0
    got += stranger.opens()
    for other in (port + 1, 80):
        with socket.socket() as asked:
            asked.settimeout(1)
            got += asked.connect_ex((host, other)) == 0
    with socket.create_connection((host, port), timeout=5) as clear:
        clear.sendall(b"GET / HTTP/1.1\r\nHost: x\r\n\r\n")
        got += clear.recv(1000).startswith(b"HTTP")
    return got
