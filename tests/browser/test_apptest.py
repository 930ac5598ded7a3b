"""The pages without a browser: what they say where there is little to show, and what choosing on them changes."""

import shutil
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest
from streamlit.testing.v1 import AppTest

from dashboard.access.shown import OF_A_CLIENT
from dashboard.data import Reading
from dashboard.start import APP
from tests.browser.serving import DEMO, TODAY, load_here, page_file
from tests.browser.test_every_page import answer, look_at_all

MENU = "service_id,service,kind,price,tax_rate,hands_on_min\nS1,Cut,cut,40,9,30\n"
BOOKINGS = "booking_id,client_id,starts_at,ends_at,status,service_id,price\n"
ONE_CUT = "B1,C1,2026-10-06 10:00,2026-10-06 10:45,completed,S1,40\n"


def opened(folder: Path, monkeypatch: pytest.MonkeyPatch, page: str = "month", today: date = TODAY) -> AppTest:
    """A page of the salon."""
    monkeypatch.setattr("sys.argv", ["app", "--salon", str(folder), "--today", today.isoformat()])
    app = AppTest.from_file(str(APP), default_timeout=30).run()
    return app if page == "month" else app.switch_page(page_file(page)).run()


def write_small(folder: Path, bookings: str, heading: str = BOOKINGS) -> Path:
    (folder / "exports").mkdir()
    (folder / "salon.toml").write_text('[salon]\nname = "Small"\n', "utf-8")
    (folder / "exports" / "menu.csv").write_text(MENU, "utf-8")
    (folder / "exports" / "bookings.csv").write_text(heading + bookings, "utf-8")
    load_here(folder)
    return folder


def test_one_cut_and_nothing_else(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    """No products, no bowls, no payments, no roots, no year before: a sentence each; in mid-month, so far."""
    opens = look_at_all(write_small(tmp_path, ONE_CUT), monkeypatch)
    assert "too few months before it to say what is usual" in opens["month"]
    assert "salon.toml names no costs per month" in opens["chairs"]
    assert "Too little was done in the twelve months" in opens["minutes"]
    assert "Cut leaves least for its time: €48.93 an hour" in opens["prices"]
    assert "nobody is due" in opens["roots"]
    assert "No bowl was logged in October 2026" in opens["bowls"]
    assert "nothing can be said about stock" in opens["stock"]
    assert "No payment is on record for the period" in opens["accountant"]
    assert "nothing was found wrong" in opens["exports"]
    assert "the month is not over" in answer(opened(tmp_path, monkeypatch, today=date(2026, 10, 20)))


GROUP = (
    "B1,C1,2026-10-06 10:00,2026-10-06 10:45,completed,S1,40,North\n"
    "B1,C1,2026-10-06 10:00,2026-10-06 10:45,completed,S1,15,South\n"
)


def test_a_group_of_salons_has_a_choice_of_salon(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    """All of them first, then one; a book without sites has no such choice."""
    write_small(tmp_path, GROUP, heading=BOOKINGS.strip() + ",site\n")
    app = opened(tmp_path, monkeypatch)
    assert "€50.46 net" in answer(app)
    app.selectbox(key="site").select("South").run()
    assert "€13.76 net" in answer(app)
    app.selectbox(key="chair in South").select("South: not named").run()
    assert not app.exception and "€13.76 net" in answer(app)
    app.switch_page(page_file("roots")).run()
    assert app.selectbox(key="site").value == "South"


def test_salons_stand_side_by_side(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    write_small(tmp_path, GROUP, heading=BOOKINGS.strip() + ",site\n")
    figures = Reading(tmp_path, TODAY, "2026-10").by_site("month").filter(month="2026-10", figure="net_revenue")
    assert [(row["site"], round(row["value"], 2)) for row in figures.to_dicts()] == [
        ("North", Decimal("36.70")),
        ("South", Decimal("13.76")),
    ]
    app = opened(tmp_path, monkeypatch)
    app.session_state["sites"] = True
    assert "North" in answer_of(app.run()) and "€13.76" in answer_of(app)


def test_one_salon_has_no_choice_of_salon(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    write_small(tmp_path, ONE_CUT)
    app = opened(tmp_path, monkeypatch)
    assert [box.label for box in app.selectbox] == ["Month", "Chair"]


def test_another_price_is_tried_with_sliders(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    """One cut at 40 with 9 % tax: 36.70 net; 44 brings a tenth more, and 1 − 1/1.1 of the clients may go."""
    write_small(tmp_path, ONE_CUT)
    app = opened(tmp_path, monkeypatch, "prices")
    assert "move a slider" in said(app)
    assert app.slider(key="price of S1").value == 40 and app.slider(key="minutes of S1").value == 45
    app.slider(key="price of S1").set_value(44.0).run()
    assert not app.exception
    assert "At €44.00 in place of €40.00, in 45 minutes, with every client coming" in said(app)
    assert "until 9.1% of these clients stay away" in said(app)
    app.slider(key="away from S1").set_value(20).run()
    assert "with 20% of its clients gone" in said(app) and "less." in said(app)


def test_a_target_is_set_on_the_page_and_prices_are_proposed_for_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    """45 minutes at 36.70 net are 48.93 an hour; 60 an hour want 45 net, 49.05 with tax; 1 − 36.7/45 may stay away."""
    write_small(tmp_path, ONE_CUT)
    app = opened(tmp_path, monkeypatch, "prices")
    app.number_input(key="target").set_value(60.0).run()
    assert not app.exception
    html = " ".join(element.proto.body for element in app.main if element.type == "html")
    assert "1 service leaves less than €60.00 of a chair hour" in html
    assert "Cut at €49.05 in place of €40.00" in html and "until 18% of them stay away" in html


def said(app: AppTest) -> str:
    """The sentences beside the page's tables."""
    html = [element.proto.body for element in app.main if element.type == "html"]
    return " ".join(body for body in html if body.startswith('<p class="said">'))


def test_nothing_of_a_client_reaches_the_accountant(demo_salon: Path):
    read = Reading(demo_salon, TODAY, "2026-10", hides_clients=True)
    for name in ("tax", "takings", "reconciliation"):
        assert not set(OF_A_CLIENT) & {*read.figure(name).columns, *read.rows(name).columns}
    owner = Reading(demo_salon, TODAY, "2026-10")
    assert "client_id" in owner.rows("chairs").columns
    assert not set(OF_A_CLIENT) & set(read.rows("chairs").columns)


def test_nothing_of_a_client_is_handed_to_the_accountant(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    """Each sheet of the page in turn; names stand in the bookings, and in a row that was set aside."""
    heading = "client,stylist," + BOOKINGS
    rows = (
        f"Zuzanna Verzonnen,Mila,{ONE_CUT}Zuzanna Verzonnen,Mila,{ONE_CUT.replace('10:45', 'late').replace('B1', 'B2')}"
    )
    write_small(tmp_path, rows, heading)
    app = opened(tmp_path, monkeypatch, "accountant")
    sheets = app.selectbox("sheet").options
    assert len(sheets) > 15
    for title in sheets:
        app.selectbox("sheet").set_value(title).run()
        assert not app.exception
        shown = [str(element.proto) for element in app.main] + [table.value.to_string() for table in app.dataframe]
        assert not [word for word in ("Zuzanna", "Verzonnen", "C1") if word in " ".join(shown)], title
    assert "1 row of this period is in no sum" in answer_of(app)


def answer_of(app: AppTest) -> str:
    """Everything that the page says in its own sentences."""
    return " ".join(element.proto.body for element in app.main if element.type == "html")


def test_an_empty_salon_says_what_to_do(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    app = opened(write_small(tmp_path, ""), monkeypatch)
    assert "put exports in the folder exports/" in answer(app)


def test_a_folder_without_a_book_says_where_to_load(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    (tmp_path / "salon.toml").write_text('[salon]\nname = "New"\n', "utf-8")
    app = opened(tmp_path, monkeypatch)
    assert "Drop what you have" in answer(app)
    assert "Drop your exports here" in answer(app.switch_page(page_file("exports")).run())


def test_settings_that_stop_the_work_are_one_sentence(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    shutil.copy(DEMO / "salon.toml", tmp_path)
    with (tmp_path / "salon.toml").open("a", encoding="utf-8") as file:
        file.write("\n[nonsense]\n")
    assert "nonsense" in answer(opened(tmp_path, monkeypatch))
