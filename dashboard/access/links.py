"""Which links to files answer, and to whom: those that were sent over an open socket of the same sign-in."""

import re
import time
from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass, field

LINK = re.compile(rb"/(?:media/[0-9A-Za-z.]+|_stcore/upload_file/[0-9A-Za-z-]+/[0-9A-Za-z-]+)")
MOST_LINKS = 4000  # of one sign-in; the oldest go
COMES_BACK_WITHIN_S = 120  # a phone that slept; the server keeps its session as long


@dataclass
class _Sent:
    open_sockets: int = 0
    last_open: float = 0.0
    links: OrderedDict[str, None] = field(default_factory=OrderedDict)


class Links:
    """The links sent to each sign-in. A link answers while one of its sockets is open."""

    def __init__(self, clock: Callable[[], float] = time.monotonic) -> None:
        self._clock = clock
        self._sent: dict[str, _Sent] = {}

    def opened(self, login: str) -> None:
        """A socket of this sign-in was opened."""
        late = self._clock() - COMES_BACK_WITHIN_S
        self._sent = {key: sent for key, sent in self._sent.items() if sent.open_sockets or sent.last_open > late}
        self._sent.setdefault(login, _Sent()).open_sockets += 1

    def closed(self, login: str) -> None:
        sent = self._sent[login]
        sent.open_sockets -= 1
        sent.last_open = self._clock()

    def note(self, login: str, message: bytes) -> None:
        """Remember the links in a message that goes out to this sign-in."""
        links = self._sent[login].links
        for found in LINK.findall(message):
            links[found.decode()] = None
        while len(links) > MOST_LINKS:
            links.popitem(last=False)

    def answers(self, login: str, path: str) -> bool:
        """Whether the file at this path was offered to this sign-in, and it is still looking."""
        sent = self._sent.get(login)
        return sent is not None and sent.open_sockets > 0 and path in sent.links
