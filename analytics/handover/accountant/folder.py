"""Write a handover to its folder, close its period, and check a folder that was sent."""

import json
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

import polars as pl

from analytics.handover.accountant.closed_periods import CORRECTION, Closed, changes, may_close, read_closed, record_of
from analytics.handover.accountant.manifest import NAME, fingerprint, manifest, verify
from analytics.handover.accountant.package import Handover
from analytics.handover.accountant.period_names import period_name
from analytics.periods import Period
from analytics.salon import Salon
from analytics.storage.private_files import private_folder
from analytics.storage.together import HANDING_OVER, go_on, put_together, throw_away

HANDOVER = "handover"


@dataclass(frozen=True)
class Written:
    """folder: where. files: what was written, the manifest last; empty where a closed period stays as it was sent.
    said: what people must know, in sentences."""

    folder: Path
    files: tuple[Path, ...]
    said: tuple[str, ...]


def hand_over(salon: Salon, period: Period, *, key: bytes | None = None, close_it: bool = False) -> Written:
    """Write handover/<period>/; where the period is closed and would differ, it stays as it was sent.

    Killed, it leaves the folder and the record of the closing as they were, or both as they shall be at the next start.
    """
    if go_on(salon.folder, HANDING_OVER):
        throw_away(salon.folder, HANDING_OVER)
    closed = read_closed(salon.folder)
    folder = salon.folder.joinpath(HANDOVER, period_name(period))
    done = next((one for one in closed if one.period == period), None)
    if close_it and done is None:
        may_close(salon, period, closed)
    made = Handover(salon, period, tuple(closed), key)
    written = manifest(made)
    if done is not None and fingerprint(written) != done.manifest:
        return Written(folder, (), _stays(made, done, closed))
    new = {folder.joinpath(name): content for name, content in {**made.files, NAME: written}.items()}
    record = {}
    if close_it and done is None:
        told = made.corrections.select(*CORRECTION)
        record = record_of(salon.folder, Closed(period, fingerprint(written), made.postings, told))
    _write(salon.folder, folder, new | record)
    return Written(folder, tuple(new), _said(made, close_it))


def _write(salon: Path, folder: Path, new: dict[Path, bytes]) -> None:
    """All files at once; what an earlier handover wrote and this one does not is taken away, anything else in the
    folder stays."""
    gone = dict.fromkeys(folder.joinpath(name) for name in sorted(_listed(folder)))
    for path in (folder.parent, folder):
        private_folder(path)
    put_together(salon, HANDING_OVER, gone | new)
    throw_away(salon, HANDING_OVER)


def _listed(folder: Path) -> set[str]:
    """The plain file names that the manifest in the folder lists."""
    with suppress(OSError, ValueError, KeyError, TypeError):
        names = json.loads(folder.joinpath(NAME).read_bytes())["files"]
        return {name for name in names if Path(name).name == name}
    return set()


def _said(made: Handover, closed: bool) -> tuple[str, ...]:
    said = [made.verdict_words]
    said += [f"{what}: {how}" for what, how in made.left_out]
    if made.corrections.height:
        periods = ", ".join(sorted(made.corrections["period"].unique()))
        said.append(f"Corrections of {periods} are in it; see corrections.csv.")
    if closed:
        said.append(
            f"{made.name} is closed: what later exports change in it becomes a correction of the next handover."
        )
    return tuple(said)


def _stays(made: Handover, done: Closed, closed: list[Closed]) -> tuple[str, ...]:
    told = pl.concat([done.corrections.clear(), *(one.corrections for one in closed)])
    now = changes(made.gathered, done, told)
    what = f"{now.height} amounts have changed since and" if now.height else "no amount has changed since; changes"
    return (f"{done.name} is closed and stays as it was handed over; {what} go into the next handover as corrections.",)


def verified(folder: Path) -> list[str]:
    """What is not as it was sent, one sentence each; the first says which manifest was looked at.

    Where the folder lies in a salon's handover/ and its period is closed, the manifest is held against the record too.
    """
    print_of, wrong = verify(folder)
    resolved = folder.resolve()
    salon = resolved.parent.parent
    with suppress(StopIteration):
        done = next(one for one in read_closed(salon) if one.name == resolved.name)
        if done.manifest != print_of:
            wrong.append(f"{NAME} is not the one that was written when {done.name} was closed.")
    return [f"Manifest {print_of}", *wrong]
