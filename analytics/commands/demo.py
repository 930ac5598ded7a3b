"""`salon-figures demo`: copy the demo salon, load it, show what comes out and write it to handover/."""

import shutil
import sys
from dataclasses import replace
from datetime import date, timedelta
from importlib.resources import files
from pathlib import Path

import polars as pl

from analytics.catalogue import result
from analytics.commands.shared import load_with_bar, written
from analytics.handover.accountant.folder import hand_over
from analytics.output import write
from analytics.periods import Period
from analytics.salon import Salon, open_salon
from analytics.sentences import accountant_sentence, figure_lines, month_sentence, roots_cautions, roots_sentence
from analytics.stops import WorkStopped
from analytics.wording import day

OF_THE_ACCOUNTANT = ("tax", "takings", "reconciliation")
SHOWN = 12
LIST = [
    "client",
    "kind",
    "stylist",
    "last_root_on",
    "days_since",
    "regrowth_mm",
    "ready_from",
    "ready_by",
    "expected_on",
]


def show_demo(folder: Path, today: date | None) -> None:
    """Raises WorkStopped where the folder is there already and is not a demo salon that was made before."""
    _copy(folder)
    load_with_bar(folder)
    salon = _on_its_day(folder, today)
    month = salon.cover.months()[-1]
    period = Period.month(month)
    _show_month(salon, period)
    _show_roots(salon)
    _show_accountant(salon, period)
    _write(salon, period)
    _say_how_to_go_on(salon)


def _copy(folder: Path) -> None:
    source = files("demo_data")
    made_before = (folder / "salon.toml").is_file() and (folder / "exports").is_dir()
    if made_before and (folder / "salon.toml").read_bytes() == source.joinpath("salon.toml").read_bytes():
        return
    if folder.exists() and any(folder.iterdir()):
        raise WorkStopped(f"{folder} is not empty; name another folder: salon-figures demo DIR.")
    (folder / "exports").mkdir(parents=True, exist_ok=True)
    shutil.copyfile(str(source.joinpath("salon.toml")), folder / "salon.toml")
    for export in source.joinpath("exports").iterdir():
        shutil.copyfile(str(export), folder / "exports" / export.name)


def _on_its_day(folder: Path, today: date | None) -> Salon:
    """The demo on the day after its last month, unless another day was asked for."""
    salon = open_salon(folder, today or date.today())
    return salon if today else replace(salon, as_of=salon.cover.end)


def _show_month(salon: Salon, period: Period) -> None:
    month = salon.figure("month", period)
    print(f"\n{salon.settings.salon.name}: the month\n")
    print(month_sentence(month, salon.settings, period.months()[0]) + "\n")
    lines = pl.DataFrame(figure_lines(month, salon.settings, period.months()[0]))
    write(lines.rename({"usual": "usual range", "year_ago": "a year ago", "previous": "month before"}), "table")


def _show_roots(salon: Salon) -> None:
    print(f"\nRoots that are ready in the week from {day(salon.as_of, salon.settings)}\n")
    print(roots_sentence(salon.figure("roots"), salon.settings, salon.as_of) + "\n")
    ready = ready_this_week(salon).select(LIST)
    write(ready.head(SHOWN).with_columns(pl.col("regrowth_mm").round(0).cast(pl.Int64)), "table")
    if ready.height > SHOWN:
        print(f"… and {ready.height - SHOWN} more: salon-figures roots, or the page Roots due")
    print("\n" + roots_cautions(salon.settings))


def ready_this_week(salon: Salon) -> pl.DataFrame:
    """Clients whose roots are ready, or will be within the week, and who have no visit booked; soonest past first."""
    week = salon.as_of + timedelta(days=7)
    return (
        salon.figure("roots")
        .filter(pl.col("state").is_in(["ready", "nearing"]) & (pl.col("ready_from") < week))
        .sort("ready_by", "client_id")
    )


def _show_accountant(salon: Salon, period: Period) -> None:
    print("\nFor the accountant\n")
    tax, takings, reconciliation = (salon.figure(name, period) for name in OF_THE_ACCOUNTANT)
    print(accountant_sentence(tax, takings, reconciliation, salon.settings, period.months()[0]) + "\n")
    for name, answer in zip(OF_THE_ACCOUNTANT, (tax, takings, reconciliation), strict=True):
        write(answer, "table", result(name), currency=salon.settings.salon.currency)
        print()


def _write(salon: Salon, period: Period) -> None:
    """The accountant's folder of the month, which holds no client; the month and the week's list as CSV beside it."""
    month = period.months()[0]
    folder = salon.folder / "handover"
    paths = [written(salon.figure("month", period), folder / f"month {month}.csv")]
    paths.append(written(ready_this_week(salon), folder / f"roots ready from {salon.as_of}.csv"))
    handed = hand_over(salon, period)
    print("Written:")
    for path in paths:
        print(f"  {path}")
    print(f"  {handed.folder}: summary.xlsx, statement.pdf and {len(handed.files) - 2} more for the accountant")


def _say_how_to_go_on(salon: Salon) -> None:
    today = f"--today {salon.as_of}"
    print(f"\nThe demo's records end on {day(salon.as_of - timedelta(days=1), salon.settings)}, so {today} is used.")
    print("To open the pages in a browser on this machine:")
    command = "salon-figures" if shutil.which("salon-figures") else sys.argv[0]
    print(f"  {command} dashboard --salon {salon.folder} {today}")
