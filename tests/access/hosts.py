"""Hosts with a network of their own, made of Linux's network namespaces and gone afterwards.

salon 10.77.0.1 ──┐
phone 10.77.0.2 ──┼── the salon's network (a switch)
third 10.77.0.3 ──┘
salon 10.78.0.1 ───── outside 10.78.0.2, the salon's way to the internet
"""

import ctypes
import os
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from threading import Thread
from typing import ParamSpec, TypeVar

from tests.browser.serving import PROJECT

SALON, PHONE, THIRD, OUTSIDE, SWITCH = "salon", "phone", "third", "outside", "switch"
AT = {SALON: "10.77.0.1", PHONE: "10.77.0.2", THIRD: "10.77.0.3"}


P, R = ParamSpec("P"), TypeVar("R")
LONGEST_S = 120  # of anything that one host does
NEW_NETWORK = 0x40000000  # CLONE_NEWNET of sched.h


class NotAllowedError(Exception):
    """No network namespaces can be made here."""


def _ip(*words: str) -> None:
    done = subprocess.run(["ip", *words], check=False, capture_output=True, text=True, timeout=20)
    if done.returncode:
        raise NotAllowedError(f"ip {' '.join(words)}: {done.stderr.strip()}")


@dataclass(frozen=True)
class Hosts:
    """The namespaces by what they stand for. mark: what sets these apart from those of another run."""

    mark: str

    def name(self, host: str) -> str:
        return f"{self.mark}-{host}"

    def start(self, host: str, *words: str) -> "subprocess.Popen[str]":
        """python -m … on this host."""
        paths = os.pathsep.join(filter(None, [str(PROJECT), os.environ.get("PYTHONPATH")]))
        return subprocess.Popen(
            ["ip", "netns", "exec", self.name(host), sys.executable, *words],
            env=os.environ | {"PYTHONPATH": paths},
            cwd=PROJECT,
            text=True,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
        )

    def on(self, host: str, do: Callable[P, R], *given: P.args, **named: P.kwargs) -> R:
        """What a call answers that is made on this host: a thread has a network of its own where it asks for it."""

        def move() -> None:
            with Path("/var/run/netns", self.name(host)).open("rb") as network:
                if ctypes.CDLL(None, use_errno=True).setns(network.fileno(), NEW_NETWORK):
                    raise OSError(ctypes.get_errno(), f"cannot go to {host}")

        answered: list[R] = []
        raised: list[BaseException] = []

        def there() -> None:
            try:
                move()
                answered.append(do(*given, **named))
            except BaseException as error:
                raised.append(error)

        thread = Thread(target=there, daemon=True)  # so that one that hangs holds up nobody
        thread.start()
        thread.join(LONGEST_S)
        if raised:
            raise raised[0]
        assert answered, f"{host} was not done with {getattr(do, '__name__', do)} within {LONGEST_S} s."
        return answered[0]

    def packets(self, host: str, link: str) -> int:
        """How many packets arrived on this host's link."""
        said = self.on(host, Path("/proc/thread-self/net/dev").read_text)
        (of_link,) = [line for line in said.splitlines() if line.strip().startswith(f"{link}:")]
        return int(of_link.partition(":")[2].split()[1])


@contextmanager
def hosts() -> Iterator[Hosts]:
    """Three hosts on a switch, and one outside. Raises NotAllowedError where they cannot be made."""
    if sys.platform != "linux" or not Path("/usr/sbin/ip").exists():
        raise NotAllowedError("there is no iproute2")
    made = Hosts(f"sf{os.getpid()}")
    everyone = (*AT, OUTSIDE, SWITCH)
    try:
        for host in everyone:
            _ip("netns", "add", made.name(host))
            _ip("-n", made.name(host), "link", "set", "lo", "up")
            _without_ipv6(made.name(host))
        _ip("-n", made.name(SWITCH), "link", "add", "bridge", "type", "bridge")
        _ip("-n", made.name(SWITCH), "link", "set", "bridge", "up")
        for host, address in AT.items():
            _plug(made, host, "lan", f"{address}/24", into=SWITCH, there=f"to-{host}")
            _ip("-n", made.name(SWITCH), "link", "set", f"to-{host}", "master", "bridge")
        _plug(made, SALON, "wan", "10.78.0.1/24", into=OUTSIDE, there="wan")
        _ip("-n", made.name(OUTSIDE), "addr", "add", "10.78.0.2/24", "dev", "wan")
        _ip("-n", made.name(SALON), "route", "add", "default", "via", "10.78.0.2")
        yield made
    finally:
        for host in everyone:
            subprocess.run(["ip", "netns", "del", made.name(host)], capture_output=True, check=False, timeout=20)


def _without_ipv6(namespace: str) -> None:
    """So that only what programs send is counted, and not what a system says of itself."""
    for which in ("all", "default"):
        path = f"/proc/sys/net/ipv6/conf/{which}/disable_ipv6"
        command = ["ip", "netns", "exec", namespace, "sh", "-c", f"[ ! -e {path} ] || echo 1 > {path}"]
        subprocess.run(command, capture_output=True, check=False, timeout=20)


def _plug(made: Hosts, host: str, link: str, address: str, *, into: str, there: str) -> None:
    """A cable from this host's link to that of another."""
    one, two = made.name(host), made.name(into)
    _ip("-n", one, "link", "add", link, "type", "veth", "peer", "name", there, "netns", two)
    _ip("-n", one, "addr", "add", address, "dev", link)
    for namespace, name in ((one, link), (two, there)):
        _ip("-n", namespace, "link", "set", name, "up")
