"""What a thin export lacks is made, marked and said; what it says in its own words is believed."""

from datetime import date, datetime
from decimal import Decimal
from pathlib import Path

import polars as pl
import pytest
from salons import SETTINGS, load_unchecked, write_export

from analytics.intake.cells.kinds import kind_named, proposed_kind
from analytics.salon import open_salon
from analytics.stops import Asked, WorkStopped
from analytics.storage.book import read_book

DIARY = """Date,Time,Client,Stylist,Service,Price
03/03/2026,09:00,Una Vale,Anna,Root touch-up,60.00
03/03/2026,09:00,Una Vale,Anna,Cut,30.00
03/03/2026,11:00,Bo Proef,Anna,Cut,30.00
04/03/2026,09:00,Una Vale,Anna,Cut,30.00
13/04/2026,09:00,Una Vale,Anna,Cut,32.00
"""
PRICES = "Service,Price\nRoot touch-up,60.00\nCut,30.00\n"


def thin(folder: Path, exports: dict[str, str], more: str = "") -> Path:
    (folder / "salon.toml").write_text(SETTINGS + more, encoding="utf-8")
    for name, text in exports.items():
        write_export(folder, name, text)
    return folder


def test_a_diary_alone_becomes_visits_with_a_drafted_menu(tmp_path: Path) -> None:
    """Una's two lines of one morning are a visit, as long as a root touch-up's usual 75 and a cut's 45 minutes."""
    salon = thin(tmp_path, {"diary.csv": DIARY})
    report = load_unchecked(salon)
    book = read_book(salon)
    bookings = book.tables["bookings"]
    assert bookings["booking_id"].n_unique() == 4
    first = bookings.filter(pl.col("starts_at") == datetime(2026, 3, 3, 9, 0))
    assert first["line"].to_list() == [1, 2]
    assert first["ends_at"].unique().to_list() == [datetime(2026, 3, 3, 11, 0)]
    menu = book.tables["services"].sort("service_id", "valid_from", nulls_last=False)
    assert menu.select("service", "kind", "price", "valid_from").rows() == [
        ("Cut", "cut", Decimal(30), None),
        ("Cut", "cut", Decimal(32), date(2026, 4, 13)),
        ("Root touch-up", "root_touch_up", Decimal(60), None),
    ]
    made = [column for table, column in book.made.select("table", "column").rows() if table == "bookings"]
    assert made == ["client_id", "chair", "booking_id", "status", "ends_at"]
    assert {"column_made", "menu_drafted"} <= set(report.findings["code"])
    assert report.files.select("rows_read", "rows_used").row(0) == (5, 5)


UNPRICED = "".join(f"{line.rpartition(',')[0]}\n" for line in DIARY.splitlines())


def test_a_diary_without_prices_has_those_of_the_price_list(tmp_path: Path) -> None:
    """Two prices of a cut, the second from 1 April; what is made is marked."""
    listed = "Service,Price,Valid from\nRoot touch-up,60.00,\nCut,30.00,\nCut,32.00,2026-04-01\n"
    salon = thin(tmp_path, {"diary.csv": UNPRICED, "prices.csv": listed})
    report = load_unchecked(salon)
    book = read_book(salon)
    prices = book.tables["bookings"].sort("starts_at", "line")["price"].to_list()
    assert prices == [Decimal(60), Decimal(30), Decimal(30), Decimal(30), Decimal(32)]
    assert ("bookings", "price") in book.made.select("table", "column").rows()
    assert report.files["set_aside"].sum() == 0


@pytest.mark.parametrize(
    ("diary", "prices"),
    [
        (UNPRICED, None),  # no price list
        (UNPRICED, "Service,Price\nRoot touch-up,60.00\nCut,\n"),  # one that lacks a price
        (UNPRICED, "Service,Price\nPerm,60.00\nTint,30.00\n"),  # another salon's
    ],
)
def test_a_diary_without_prices_says_where_they_could_come_from(tmp_path: Path, diary: str, prices: str | None) -> None:
    salon = thin(tmp_path, {"diary.csv": diary} | ({"prices.csv": prices} if prices else {}))
    with pytest.raises(Asked, match=r"no heading of it can be the price.*drop a price list") as asked:
        load_unchecked(salon)
    assert not [one for one in asked.value.questions if one.headings]


def test_amounts_that_may_be_the_price_are_asked_about_and_no_list_stands_in(tmp_path: Path) -> None:
    heading, *rows = DIARY.splitlines()
    diary = "\n".join([heading.replace("Price", "Zzyx,Qqyx"), *(f"{row},{at}7.50" for at, row in enumerate(rows, 1))])
    listed = "Service,Price\nRoot touch-up,95.00\nCut,17.00\n"
    with pytest.raises(Asked, match="Zzyx"):
        load_unchecked(thin(tmp_path, {"diary.csv": diary, "prices.csv": listed}))


def test_a_state_that_was_made_goes_by_the_day_it_is_looked_at(tmp_path: Path) -> None:
    """On 4 March the visits of the 3rd have happened, those of the 4th and of April are booked."""
    salon = thin(tmp_path, {"diary.csv": DIARY})
    load_unchecked(salon)

    def completed(today: date) -> int:
        return open_salon(salon, today).book.tables["bookings"].filter(status="completed").height

    assert [completed(date(2026, 3, 3)), completed(date(2026, 3, 4)), completed(date(2026, 5, 1))] == [0, 3, 5]


def test_a_menu_of_names_and_prices_is_enough(tmp_path: Path) -> None:
    salon = thin(tmp_path, {"diary.csv": DIARY, "prices.csv": PRICES})
    load_unchecked(salon)
    menu = read_book(salon).tables["services"]
    assert (
        menu.select("service", "kind", "tax_rate").rows()
        == [
            ("Cut", "cut", Decimal(21)),
            ("Root touch-up", "root_touch_up", Decimal(21)),
        ]
        or menu.height == 2
    )
    assert menu["hands_on_min"].min() > 0  # type: ignore[operator]


def test_a_constant_for_a_whole_file(tmp_path: Path) -> None:
    """A statement without a method is left out and said, and read once the file says how all of it was paid."""
    statement = "Date,Time,Amount\n23/03/2026,10:55,90.00\n23/03/2026,11:45,30.00\n"
    salon = thin(tmp_path, {"diary.csv": DIARY, "payments.csv": statement})
    report = load_unchecked(salon)
    assert read_book(salon).tables["payments"].is_empty()
    (said,) = report.findings.filter(code="table_left_out").iter_rows(named=True)
    assert (said["file"], said["value"]) == ("payments.csv", "method")
    thin(tmp_path, {}, '[constants."pay*.csv"]\nmethod = "card"\n')
    load_unchecked(salon)
    assert read_book(salon).tables["payments"].select("method", "amount").rows() == [
        ("card", Decimal(90)),
        ("card", Decimal(30)),
    ]


@pytest.mark.parametrize(
    ("line", "says"),
    [('colour = "red"', "'colour' is not a column"), ('amounts = "pence"', "neither")],
)
def test_a_constant_that_is_none(tmp_path: Path, line: str, says: str) -> None:
    salon = thin(tmp_path, {"diary.csv": DIARY}, f'[constants."a.csv"]\n{line}\n')
    with pytest.raises(WorkStopped, match=says):
        load_unchecked(salon)


def test_amounts_in_cents_are_asked_and_then_read(tmp_path: Path) -> None:
    cents = DIARY.replace(".00\n", "00\n")
    salon = thin(tmp_path, {"diary.csv": cents})
    with pytest.raises(Asked, match=r"in cents\?") as stop:
        load_unchecked(salon)
    assert stop.value.questions[0].file == "diary.csv"
    thin(tmp_path, {}, '[constants."diary.csv"]\namounts = "cents"\n')
    load_unchecked(salon)
    assert read_book(salon).tables["bookings"]["price"].sum() == Decimal(182)


def test_a_stop_names_every_file_and_everything_it_needs(tmp_path: Path) -> None:
    one = DIARY.replace("Price", "Xx").replace(".00\n", " euro or so\n")
    salon = thin(tmp_path, {"march.csv": one, "april.csv": DIARY.replace("Client", "Yy")})
    with pytest.raises(Asked) as stop:
        load_unchecked(salon)
    assert {question.file for question in stop.value.questions} == {"march.csv", "april.csv"}


@pytest.mark.parametrize(
    ("name", "kind"),
    [
        ("Uitgroei kleuren", "root_touch_up"),
        ("Mèches et coupe", "lightening"),
        ("Knippen en föhnen", "cut"),
        ("Piega", "styling"),
        ("Haarkur", "treatment"),
        ("Massage", "other"),
    ],
)
def test_a_kind_is_proposed_by_the_words_of_a_name(name: str, kind: str) -> None:
    assert kind_named(name) == kind


def test_a_menus_own_word_goes_before_the_name() -> None:
    assert proposed_kind("Coloration", "Coloration racines") == "root_touch_up"
    assert proposed_kind("Knippen", "Model") == "cut"
    assert proposed_kind("Divers", "Massage") is None


def test_a_diary_of_codes_keeps_them_as_they_are_written(tmp_path: Path) -> None:
    """The drafted menu has the diary's own codes, else every line would name a service that is not on it."""
    diary = (
        "booking_id,client_id,starts_at,ends_at,status,service_id,price\n"
        "B1,C1,2026-10-06 10:00,2026-10-06 10:45,completed,S1,40\n"
    )
    salon = thin(tmp_path, {"diary.csv": diary})
    report = load_unchecked(salon)
    assert report.files.select("rows_used", "set_aside").row(0) == (1, 0)
    assert read_book(salon).tables["services"]["service_id"].to_list() == ["S1"]
