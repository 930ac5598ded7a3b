"""What each client was charged."""

from frames import agrees, bookings, days, services, small_salon, visit, work_out

BOTH = days("2026-02-01", "2026-04-01")


def test_equals_the_answer_worked_by_hand() -> None:
    agrees(work_out("charged_by_client", period=BOTH, **small_salon()), "charged_by_client")


def test_a_number_in_two_salons_is_two_clients_and_what_did_not_happen_is_not_charged() -> None:
    book = bookings(
        visit("V1", "2026-03-03 09:00", 60, ("CUT", "121"), ("CUT", "121"), site="North"),
        visit("V1", "2026-03-03 09:00", 60, ("CUT", "121"), site="South"),
        visit("V2", "2026-03-04 09:00", 60, ("CUT", "121"), site="South", status="no_show"),
    )
    menu = services(*[{"service_id": "CUT", "site": site} for site in ("North", "South")])
    frame = work_out("charged_by_client", bookings=book, services=menu)
    assert frame.select("site", "client_id", "visits", "net").rows() == [
        ("North", "Ada", 1, 200),
        ("South", "Ada", 1, 100),
    ]
