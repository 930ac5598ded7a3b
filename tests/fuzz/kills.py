"""Work on a salon killed at random moments: the old state or the new one, and nothing left lying.

`python tests/fuzz/kills.py 200` kills so many; with `--first N` from another seed on. Each work is done in a fork that
has imported what it needs, so that the moments fall into the work and not into its start.
"""

import argparse
import random
import shutil
import signal
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from multiprocessing import get_context
from pathlib import Path

if __name__ == "__main__":
    sys.path.insert(0, str(Path(__file__).parents[1]))

from salons import BOOKINGS, load_unchecked, write_export, write_salon

from analytics.commands.shared import finish_stopped
from analytics.erasing.erase import carry_out, find, go_on
from analytics.handover.accountant.closed_periods import read_closed
from analytics.handover.accountant.folder import hand_over, verified
from analytics.handover.accountant.manifest import NAME as MANIFEST
from analytics.handover.accountant.period_names import named_period
from analytics.salon import open_salon
from analytics.settings import read_settings
from analytics.storage.book import read_book
from analytics.storage.keeping import Chosen, keep_export
from analytics.storage.working import working_privately

IN_A_FORK = get_context("fork")
AS_OF = date(2026, 8, 1)
CLIENT = "Zora Quendel"
VISIT = "B{0},1,C{1},Chair 1,2026-0{2}-{3:02} 10:00,2026-0{2}-{3:02} 11:30,completed,S1,60.00\n"
CLIENTS = f"client_id,client,phone\nC1,{CLIENT},+31 6 73910465\nC2,Milo Vrantz,+31 6 82640917\n"
MARCH, APRIL = named_period("2026-03"), named_period("2026-04")
Files = dict[str, bytes]


def bookings(visits: int) -> str:
    rows = (VISIT.format(number, 1 + number % 2, 3 + number % 3, 1 + number % 28) for number in range(visits))
    return BOOKINGS + "".join(rows)


def prepare(salon: Path) -> None:
    """A loaded salon, a handover of its first month, and one of them that is closed."""
    write_salon(salon, {"bookings.csv": bookings(60), "clients.csv": CLIENTS})
    load_unchecked(salon)
    hand_over(open_salon(salon, AS_OF), MARCH, close_it=True)
    hand_over(open_salon(salon, AS_OF), APRIL)
    write_export(salon, "bookings.csv", bookings(90))
    load_unchecked(salon)


def contents(folder: Path) -> Files:
    files = (path for path in folder.rglob("*") if path.is_file() and path.suffix != ".lock")
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in files}


@dataclass(frozen=True)
class Work:
    """do: the work on a salon. again: what the next start does; both raise where they should not."""

    do: Callable[[Path], object]
    again: Callable[[Path], object]


def load(salon: Path) -> None:
    write_export(salon, "bookings.csv", bookings(120))
    with working_privately(salon):
        load_unchecked(salon)


def close(salon: Path) -> None:
    with working_privately(salon):
        hand_over(open_salon(salon, AS_OF), APRIL, close_it=True)


def keep(salon: Path) -> None:
    with working_privately(salon):
        dropped = Path(tempfile.mkdtemp()) / "dropped.csv"
        dropped.write_bytes(bookings(20_000).encode())
        keep_export(dropped, "May.csv", salon, Chosen(tables={"May.csv": "bookings"}))


def erase(salon: Path) -> None:
    with working_privately(salon):
        carry_out(salon, find(salon, CLIENT), AS_OF, lambda: load_unchecked(salon))


def go_on_with_erasing(salon: Path) -> None:
    with working_privately(salon):
        go_on(salon, lambda: load_unchecked(salon))
    begin(salon)


def begin(salon: Path) -> None:
    finish_stopped(salon)
    with working_privately(salon):
        pass


WORKS = {
    "load": Work(load, begin),
    "close": Work(close, begin),
    "keep": Work(keep, begin),
    "erase": Work(erase, go_on_with_erasing),
}


def state(kind: str, salon: Path) -> object:
    """What the work changes, as somebody who looks afterwards sees it."""
    read_settings(salon)
    if kind == "load":
        return read_book(salon).tables["bookings"].height
    if kind == "close":
        closed = [one.name for one in read_closed(salon)]
        month = salon / "handover" / "2026-04"
        return closed, verified(month)[1:], (month / MANIFEST).read_bytes()
    if kind == "keep":
        return {
            name: content for name, content in contents(salon).items() if name.startswith(("exports", "salon.toml"))
        }
    held = b"".join(contents(salon).values())
    return [name.encode() in held for name in (CLIENT, "73910465")], read_book(salon).tables["bookings"].height


def in_a_fork(work: Callable[[], object]) -> object:
    """What the work answers, or the error that it ended with, as text."""
    here, there = IN_A_FORK.Pipe(duplex=False)

    def answer() -> None:
        try:
            there.send(work())
        except BaseException as error:
            there.send(f"{type(error).__name__}: {error}")

    process = IN_A_FORK.Process(target=answer)
    process.start()
    there.close()
    said = here.recv()
    process.join()
    return said


def killed(salon: Path, work: Callable[[Path], object], after_s: float) -> bool:
    """Whether the kill came before the work's end."""
    process = IN_A_FORK.Process(target=work, args=(salon,))
    process.start()
    process.join(after_s)
    process.kill()
    process.join()
    return process.exitcode == -signal.SIGKILL


@dataclass(frozen=True)
class Kind:
    """old, new: the states before and after. files: what lies in the salon then. seconds: how long the work takes."""

    old: object
    new: object
    files: tuple[set[str], set[str]]
    seconds: float


def kind_of(name: str, prepared: Path, folder: Path) -> Kind:
    salon = shutil.copytree(prepared, folder / name)
    old, before = in_a_fork(lambda: state(name, salon)), set(contents(salon))
    began = time.monotonic()
    if said := in_a_fork(lambda: WORKS[name].do(salon) and None):
        raise RuntimeError(f"{name}: {said}")
    took = time.monotonic() - began
    new = in_a_fork(lambda: state(name, salon))
    if old == new:
        raise RuntimeError(f"{name} changes nothing")
    return Kind(old, new, (before, set(contents(salon))), took)


@dataclass(frozen=True)
class End:
    """wrong: what is neither old nor new, or lies there that was not there; empty where all is well."""

    came: bool
    state: str
    wrong: str


def kill_one(name: str, kind: Kind, salon: Path, after_s: float) -> End:
    """Kill the work on this salon, start again, and look."""
    came = killed(salon, WORKS[name].do, after_s)
    said = in_a_fork(lambda: WORKS[name].again(salon) and None)
    now, left = in_a_fork(lambda: state(name, salon)), set(contents(salon))
    is_now = "new" if now == kind.new else "old" if now == kind.old else "neither"
    more = sorted(left - set.union(*kind.files))
    wrong = [f"the next start: {said}"] if said else []
    wrong += [f"neither old nor new: {str(now)[:300]}"] if is_now == "neither" else []
    wrong += [f"left lying: {more}"] if more else []
    return End(came, is_now, "; ".join(wrong))


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("count", type=int, nargs="?", default=200)
    parser.add_argument("--first", type=int, default=0)
    parser.add_argument("--only", choices=WORKS, action="append")
    chosen = parser.parse_args()
    names = chosen.only or list(WORKS)
    ends: Counter[tuple[str, str]] = Counter()
    with tempfile.TemporaryDirectory() as made:
        folder = Path(made)
        prepared = folder / "prepared"
        if said := in_a_fork(lambda: prepare(prepared)):
            sys.exit(str(said))
        kinds = {name: kind_of(name, prepared, folder) for name in names}
        print({name: round(kind.seconds, 2) for name, kind in kinds.items()}, flush=True)
        for seed in range(chosen.first, chosen.first + chosen.count):
            name = names[seed % len(names)]
            salon = shutil.copytree(prepared, folder / str(seed))
            moment = random.Random(seed).random() * kinds[name].seconds
            end = kill_one(name, kinds[name], salon, moment)
            ends[name, f"killed, {end.state}" if end.came else "was done"] += 1
            if end.wrong:
                ends["", "wrong"] += 1
                print(f"seed {seed}: {name} killed after {moment:.3f} s: {end.wrong}", flush=True)
            shutil.rmtree(salon)
    print(f"{chosen.count} kills: {dict(sorted(ends.items()))}")


if __name__ == "__main__":
    main()
