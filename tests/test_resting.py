"""What rests on something made says so; minutes that were made of each other are not told."""

from datetime import date
from pathlib import Path

import polars as pl
import pytest
from salons import SETTINGS, load_unchecked, write_export

from analytics.catalogue import figure_names
from analytics.commands.cli import main
from analytics.definitions.resting import CIRCULAR, RESTING
from analytics.definitions.tables import TABLES
from analytics.records.chairs.price_trial import tried_price
from analytics.salon import open_salon
from analytics.sentences import resting_on

TODAY = date(2026, 5, 1)
HEAD = "Date,Time,{end}Client,Stylist,Service,Price\n"
ROWS = [
    f"{day:02}/03/2026,{at}:00,{{end{at}}}Client {day % 7},Anna,{service},{price}\n"
    for day in range(2, 28)
    for at, service, price in (("09", "Cut", "30.00"), ("11", "Root touch-up", "60.00"))
]


def thin(folder: Path, ends: bool, prices: bool = True) -> Path:
    (folder / "salon.toml").write_text(SETTINGS, encoding="utf-8")
    said = {"end09": "09:50,", "end11": "12:20,"} if ends else {"end09": "", "end11": ""}
    text = HEAD.format(end="End," if ends else "") + "".join(row.format(**said) for row in ROWS)
    if not prices:
        text = "".join(f"{line.rpartition(',')[0]}\n" for line in text.splitlines())
    write_export(folder, "diary.csv", text)
    write_export(
        folder,
        "menu.csv",
        "service_id,service,kind,price,tax_rate,hands_on_min\n"
        "C,Cut,cut,30,21,45\nR,Root touch-up,root_touch_up,60,21,75\n",
    )
    load_unchecked(folder)
    return folder


def test_every_column_and_figure_that_is_named_is_one() -> None:
    names = set(figure_names())
    assert all(column in TABLES[table].names for table, column in RESTING)
    assert {name for one in RESTING.values() for name in one.figures} | set(CIRCULAR) <= names


def test_minutes_that_were_made_of_the_menus_are_not_told(tmp_path: Path) -> None:
    salon = open_salon(thin(tmp_path, ends=False), TODAY)
    assert salon.figure("durations").is_empty() and salon.rows("durations").is_empty()
    assert salon.figure("chairs")["chair_hours"].sum() > 0
    said = resting_on(salon.book.made, ["durations"])
    assert said[0].startswith("How long the work of diary.csv took") and "cannot be told" in said[0]


def test_minutes_of_an_export_are_told(tmp_path: Path) -> None:
    salon = open_salon(thin(tmp_path, ends=True), TODAY)
    assert not salon.figure("durations").is_empty()
    assert not any("cannot be told" in one for one in resting_on(salon.book.made, ["durations"]))


def test_what_lines_were_charged_is_not_told_where_their_price_is_the_menus(tmp_path: Path) -> None:
    """26 cuts of 45 minutes at 30 with 21 % tax: 24.793 net, 33.058 an hour; at 36, 26 × 365.25 ÷ 12 ÷ days × 4.959
    more a month, as the menu says, though what was charged for them stays empty."""
    salon = open_salon(thin(tmp_path, ends=True, prices=False), TODAY)
    found = salon.figure("prices")
    cut = found.row(by_predicate=pl.col("service") == "Cut", named=True)
    assert found["net_per_line"].null_count() == found.height == 2
    assert (cut["price"], cut["lines"]) == (30, 26)
    assert float(cut["contribution_per_line"]) == pytest.approx(30 / 1.21, abs=0.005)
    tried = tried_price(found, cut["service_id"], 36, cut["minutes_per_line"], 0)
    assert tried["net_after"] - tried["net_before"] == pytest.approx(cut["lines_per_month"] * 6 / 1.21, abs=0.05)
    said = resting_on(salon.book.made, ["prices"])
    assert said[0].startswith("What the services of diary.csv were charged") and "left empty" in said[0]


def test_what_lines_were_charged_is_told_where_an_export_says_it(tmp_path: Path) -> None:
    """30.00 with 21 % tax."""
    salon = open_salon(thin(tmp_path, ends=True), TODAY)
    cut = salon.figure("prices").row(by_predicate=pl.col("service") == "Cut", named=True)
    assert float(cut["net_per_line"]) == pytest.approx(30 / 1.21, abs=0.005)
    assert not any("charged" in one for one in resting_on(salon.book.made, ["prices"]))


def test_the_command_says_what_its_figure_rests_on(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    thin(tmp_path, ends=False)
    assert main(["occupancy", "--salon", str(tmp_path), "--today", "2026-05-01", "--format", "csv"]) == 0
    written = capsys.readouterr()
    assert "No export says when visits ended: by the menu's minutes" in written.err
    assert "No export says" not in written.out
    assert main(["waste", "--salon", str(tmp_path), "--today", "2026-05-01"]) == 0
    assert "when visits ended" not in capsys.readouterr().err
