"""Every page of salons of every kind runs to its end: nothing is raised, and nothing stands there in red."""

from collections.abc import Callable
from pathlib import Path

import pytest
from salons import load_unchecked
from streamlit.testing.v1 import AppTest

from dashboard.page import pages
from dashboard.parts import layout
from dashboard.start import APP
from tests.browser.serving import TODAY, page_file

BOOKINGS = "booking_id,client_id,stylist,starts_at,ends_at,status,service_id,price"
EXPORTS = {
    "menu.csv": "service_id,service,kind,price,tax_rate,hands_on_min\n"
    "S1,Cut,cut,40,9,30\nS2,Roots,root_touch_up,60,9,45\n",
    "products.csv": "product_id,product,kind,pack_g,pack_cost,valid_from\nP1,Umber 6,colour,60,9.00,2024-01-01\n"
    "P2,Oil,retail,100,5.00,2024-01-01\n",
    "log.csv": "logged_at,booking_id,product_id,mixed_g,left_g\n2026-10-06 10:05,B0,P1,60,12\n",
    "sales.csv": "sold_at,booking_id,product_id,units,price,tax_rate\n2026-10-06 11:00,B0,P2,1,15,21\n",
    "payments.csv": "paid_at,booking_id,method,amount,fee\n2026-10-06 11:00,B0,card,75,0.60\n",
}


def visit(number: int, client: str, day: str, site: str = "") -> str:
    """A finished visit for roots, one line of the export."""
    line = f"B{number},{client},Mila,{day} 10:00,{day} 11:00,completed,S2,60"
    return f"{line},{site}" if site else line


def write(folder: Path, bookings: list[str], more: tuple[str, ...] = tuple(EXPORTS), heading: str = BOOKINGS) -> None:
    """A salon in its folder, loaded."""
    (folder / "exports").mkdir()
    (folder / "salon.toml").write_text('[salon]\nname = "Small"\n\n[costs]\nper_month = 2000\n', "utf-8")
    (folder / "exports" / "bookings.csv").write_text("\n".join([heading, *bookings, ""]), "utf-8")
    for name in more:
        (folder / "exports" / name).write_text(EXPORTS[name], "utf-8")
    load_unchecked(folder)


def empty(folder: Path) -> None:
    write(folder, [], ("menu.csv",))


def one_client(folder: Path) -> None:
    write(folder, [visit(month, "C1", f"2026-{month:02}-06") for month in range(1, 11)])


def one_month(folder: Path) -> None:
    write(folder, [visit(number, f"C{number % 3}", f"2026-10-{number + 6:02}") for number in range(9)])


def no_stock(folder: Path) -> None:
    """Twenty clients, back every eight weeks for a year and a half; nothing of products."""
    days = [f"{year}-{month:02}-{day:02}" for year, months in ((2025, (5, 7, 9, 11)), (2026, (1, 3, 5, 7, 9)))
            for month in months for day in range(5, 25)]  # fmt: skip
    rows = [visit(number, f"C{number % 20}", day) for number, day in enumerate(days)]
    write(folder, rows, ("menu.csv", "payments.csv"))


def a_group(folder: Path) -> None:
    rows = [
        visit(number, f"C{number}", f"2026-10-{6 + number:02}", ("North", "South")[number % 2]) for number in range(6)
    ]
    write(folder, rows, heading=f"{BOOKINGS},site")


def not_loaded(folder: Path) -> None:
    (folder / "salon.toml").write_text('[salon]\nname = "New"\n', "utf-8")


def nothing_at_all(_: Path) -> None:
    """An empty folder: no settings, no exports."""


SALONS = (empty, one_client, one_month, no_stock, a_group, not_loaded, nothing_at_all)


def troubles(app: AppTest) -> list[str]:
    """What was raised on the page, and what stands on it in red."""
    return [element.value for element in (*app.exception, *app.error)]


def answer(app: AppTest) -> str:
    """The sentence that the page opens with."""
    html = [element.proto.body for element in app.main if element.type == "html"]
    return next((body for body in html if body.startswith('<h1 class="answer">')), "")


def unfolded(page: AppTest) -> AppTest:
    """The page with all opened that is folded away."""
    for box in page.expander:
        if box.key:
            page.session_state[box.key] = True
    return page.run()


def look_at_all(folder: Path, monkeypatch: pytest.MonkeyPatch, *, unfold: bool = False) -> dict[str, str]:
    """What each page opens with, one after the other. Fails on the first that does not run to its end."""
    monkeypatch.setattr("sys.argv", ["app", "--salon", str(folder), "--today", TODAY.isoformat()])
    opens, app = {}, AppTest.from_file(str(APP), default_timeout=60).run()
    for name in pages():
        page = app.switch_page(page_file(name)).run()
        if unfold:
            page = unfolded(page)
        assert not troubles(page), (name, troubles(page))
        opens[name] = answer(page)
        assert opens[name], name
    return opens


def test_every_page_of_the_demo_opens_with_a_sentence_of_its_own(demo_salon: Path, monkeypatch: pytest.MonkeyPatch):
    opens = look_at_all(demo_salon, monkeypatch)
    assert "October 2026 brought" in opens["month"]
    assert len(set(opens.values())) == len(opens)


@pytest.mark.parametrize("salon", SALONS)
def test_every_page_runs(salon: Callable[[Path], None], tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    salon(tmp_path)
    look_at_all(tmp_path, monkeypatch, unfold=salon in (no_stock, a_group))


@pytest.mark.parametrize("wrong", [lambda _: 1 / 0, layout.st.error])
def test_a_page_that_does_not_run_is_noticed(
    wrong: Callable[[str], object], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    """Where what every page calls raises, or shows an error."""
    one_month(tmp_path)
    monkeypatch.setattr(layout, "answer", wrong)
    with pytest.raises(AssertionError):
        look_at_all(tmp_path, monkeypatch)


def test_what_pages_say_of_themselves_fits_together(tmp_path: Path):
    said = pages().values()
    for names in ([page.title for page in said], [page.order for page in said]):
        assert len(set(names)) == len(names)
    assert all("owner" in page.readers for page in said)
    assert next(iter(pages().values())).needs == "months"  # the first is the address without a name
    assert not (APP.parent / "pages").exists()  # pages there would be run without the app around them
