"""Commands on the demo as a whole and on an empty salon."""

import json
from decimal import Decimal
from pathlib import Path

import pytest
from command_line import FIGURES, OF_THE_HOUR, TODAY, Run, rows_of_csv
from salons import BOOKINGS, MENU, load_unchecked, write_salon

from analytics.commands.cli import main


@pytest.mark.parametrize("figure", [*FIGURES, *OF_THE_HOUR])
def test_no_figure_of_the_demo_holds_what_is_no_number(demo: Path, run: Run, figure: str) -> None:
    text = run(figure, "--salon", str(demo), *TODAY, "--format", "json")
    json.loads(text, parse_constant=pytest.fail)


@pytest.mark.parametrize("words", [["--month", "2026-02"], ["--from", "2026-02-10", "--to", "2026-03-05"]])
def test_changes_and_clients_of_the_demo_add_up_to_the_difference_of_its_months(
    demo: Path, run: Run, words: list[str]
) -> None:
    """February whole, and 10–28 February and 1–4 March against the same days of the month and the year before; a whole
    one against what was to be expected, too. What the clients brought or took is the volume of the services."""
    asked = ["--salon", str(demo), *TODAY, *words, "--format", "csv"]
    month = [row for row in rows_of_csv(run("month", *asked)) if row["figure"] == "net_revenue"]
    changes, clientele = (rows_of_csv(run(figure, *asked)) for figure in ("changes", "clientele"))
    whole = words[0] == "--month"
    for row in month:
        for other in ("previous", "year_ago", *(["expected"] if whole else [])):
            those = [[one for one in rows if (one["month"], one["compared_with"]) == (row["month"], other)]
                     for rows in (changes, clientele)]  # fmt: skip
            gap = sum(Decimal(one["change"]) for one in those[0]) - (Decimal(row["value"]) - Decimal(row[other]))
            assert abs(gap) <= (Decimal("0.005") if other == "expected" else 0)
            volume = sum(Decimal(one["volume_effect"]) for one in those[0] if one["kind"] != "retail")
            assert sum(Decimal(one["effect"]) for one in those[1] if one["number"]) == volume
            assert {Decimal(one["net_change"]) for one in those[1]} == {sum(Decimal(one["change"]) for one in those[0])}
    assert {row["compared_with"] for row in changes} == {"previous", "year_ago"} | ({"expected"} if whole else set())


@pytest.fixture(scope="module")
def empty(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Headings and nothing below them."""
    folder = write_salon(
        tmp_path_factory.mktemp("empty"),
        {"bookings.csv": BOOKINGS, "menu.csv": MENU.splitlines()[0], "payments.csv": "paid_at,method,amount\n"},
    )
    load_unchecked(folder)
    return folder


@pytest.mark.parametrize("figure", [*FIGURES, *OF_THE_HOUR])
def test_an_empty_salon_has_empty_figures(empty: Path, run: Run, figure: str) -> None:
    words = [figure, "--salon", str(empty), *TODAY, "--format"]
    assert rows_of_csv(run(*words, "csv")) == [] == json.loads(run(*words, "json"))
    assert run(*words, "table").strip()


def test_a_month_of_an_empty_salon_is_said_to_be_empty(empty: Path, stops: Run) -> None:
    assert "no visits" in stops("chairs", "--salon", str(empty), "--month", "2026-03")


def test_nothing_wrong_is_said_in_words(empty: Path, run: Run) -> None:
    assert "Nothing was found wrong" in run("check", "--salon", str(empty))


def test_a_cut_month_is_said_to_be_one(demo: Path, capsys: pytest.CaptureFixture[str]) -> None:
    words = ["tax", "--salon", str(demo), "--today", "2026-11-01", "--from", "2026-01-01"]
    assert main([*words, "--to", "2026-03-15"]) == 0
    [said] = [line for line in capsys.readouterr().err.splitlines() if line.startswith("Part-months")]
    assert "2026-03" in said and "2026-02" not in said
    assert main([*words, "--to", "2026-03-01"]) == 0
    assert "Part-months" not in capsys.readouterr().err
