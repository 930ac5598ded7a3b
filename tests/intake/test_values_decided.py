"""What the values of a whole file decide: the order of its dates and its decimal sign."""

import pytest

from analytics.intake.cells.values import (
    DayOrder,
    DecimalSign,
    date_order,
    decimal_sign,
)


@pytest.mark.parametrize(
    ("texts", "decided", "example", "needed"),
    [
        ([], None, None, False),
        (["2026-03-14", "14 mrt 2026", "46095", "20260314", "nonsense", ""], None, None, False),
        (["14/03/2026"], "dmy", None, True),
        (["3/14/2026 2:30 PM"], "mdy", None, True),
        (["za 14/03/2026 om 9:30"], "dmy", None, True),
        (["3/14/26"], "mdy", None, True),
        (["99-03-14"], "ymd", None, True),
        (["26-03-99"], "dmy", None, True),
        (["03/04/2026", "2026-03-14"], None, "03/04/2026", True),
        (["26-03-14"], None, "26-03-14", True),
        (["14/03/26", "03/04/26"], None, "14/03/26", True),
        (["14/03/26", "4/3/26"], "dmy", None, True),  # 14 is no month, 4 no year
        (["14/03/26", "03/04/2026"], "dmy", None, True),  # 14 is no month, 2026 no day
        (["31/02/2026"], "dmy", None, True),  # no such day, and yet no month 31
        (["45/45/2026", "14/03/2026 x", "phone 06-12-34"], None, None, False),
        (["14/03/2026", "03/14/2026"], None, "03/14/2026", True),
        (["14/03/2026"] * 9 + ["03/14/2026"], None, "03/14/2026", True),
        (["14/03/2026"] * 10 + ["03/14/2026"], "dmy", None, True),
        (["14/03/2026"] + ["03/14/2026"] * 10, "mdy", None, True),
        (["14/03/26"] * 20 + ["41/03/26"], None, "14/03/26", True),  # one slip decides nothing
        (["26-03-14"] * 20 + ["6-03-14"], None, "26-03-14", True),
        (["14/03/26"] * 5 + ["41/03/26"], "ymd", None, True),
        (["03/14/26"] * 5 + ["14/03/26"] * 50, None, "14/03/26", True),
    ],
)
def test_date_order(texts: list[str], decided: DayOrder | None, example: str | None, needed: bool) -> None:
    order = date_order(iter(texts))
    assert (order.decided, order.example, order.needed) == (decided, example, needed)


def test_date_order_says_what_is_possible_and_what_fits_alone() -> None:
    order = date_order(["14/03/26", "03/04/26", "03/14/2026"])
    assert (order.possible, order.only) == ((), {"dmy": 0, "mdy": 1, "ymd": 0})
    assert date_order(["14/03/26"]).possible == ("dmy", "ymd")
    assert date_order([]).possible == ("dmy", "mdy", "ymd")


@pytest.mark.parametrize(
    ("texts", "decided", "example", "needed"),
    [
        ([], None, None, False),
        (["12", "1 234", "1'234", "n/a", "-", "1.2.3", "12.5 kg"], None, None, False),
        (["12.5"], ".", None, False),
        (["12,50 €", "1.234"], ",", None, True),
        (["1.234"], None, "1.234", True),
        (["1,234", "12"], None, "1,234", True),
        (["1.234.567"], ",", None, False),
        (["1,234,567"], ".", None, False),
        (["0.125", "1.125"], ".", None, True),
        (["1.2E-05"], ".", None, False),
        (["12,-"], ",", None, False),
        (["CHF 12.–"], ".", None, False),
        (["12.5", "12,5"], None, None, False),
        (["12.5", "12,5", "1.234"], None, "1.234", True),
        (["12.5"] * 9 + ["12,5", "1.234"], None, "1.234", True),
        (["12.5"] * 10 + ["12,5", "1.234"], ".", None, True),
    ],
)
def test_decimal_sign(texts: list[str], decided: DecimalSign | None, example: str | None, needed: bool) -> None:
    sign = decimal_sign(iter(texts))
    assert (sign.decided, sign.example, sign.needed) == (decided, example, needed)


def test_decimal_sign_counts_what_can_be_read_with_one_sign_alone() -> None:
    assert decimal_sign(["12.5", "12,5", "0,125", "1.234", "12"]).only == {".": 1, ",": 2}
