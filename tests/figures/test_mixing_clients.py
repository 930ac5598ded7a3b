"""How much to mix for a client with bowls enough of her own."""

import pytest
from frames import bookings, clients, only, product_log, products, services, visit, work_out

DYE = products({"product_id": "DYE", "pack_g": "60", "pack_cost": "9"})
MENU = services({"service_id": "ROOTS", "kind": "root_touch_up"})
PEOPLE = clients({"client_id": "Ada", "client": "Ada Lark"})


def bowls_of(client: str, weighed: int, mixed_g: int, left_g: int) -> tuple[list, list]:
    """One visit a day, each with a bowl that was weighed."""
    starts = [f"2026-03-{day:02} 10:00" for day in range(1, weighed + 1)]
    visits = [visit(f"{client}{at}", at, 60, ("ROOTS", "60"), client_id=client) for at in starts]
    rows = [
        {"logged_at": at, "booking_id": f"{client}{at}", "service_id": "ROOTS", "product_id": "DYE"}
        | {"mixed_g": str(mixed_g), "left_g": str(left_g)}
        for at in starts
    ]
    return visits, rows


def mixing_clients(*groups: tuple[list, list]):
    visits, rows = ([one for group in groups for one in group[part]] for part in (0, 1))
    tables = {"bookings": bookings(*visits), "product_log": product_log(*rows)}
    return work_out("mixing_clients", services=MENU, products=DYE, clients=PEOPLE, **tables)


def test_long_hair_takes_its_own_amount_by_hand() -> None:
    """Ten times 68 g of 90: 70 g leaves 2, as 65 g would be 3 short at ten times the cost; 20 g less a bowl is 3.00, of
    ten bowls a month 30.00. Nine bowls of another client are too few to say."""
    row = only(mixing_clients(bowls_of("Ada", 10, 90, 22), bowls_of("Bo", 9, 40, 10)))
    assert (row["client_id"], row["client"], row["service"], row["kind"]) == ("Ada", "Ada Lark", "Roots", "colour")
    assert (row["used_median_g"], row["usual_mix_g"], row["advised_mix_g"]) == (68, 90, 70)
    assert (row["saving_per_month"], row["saving_as_mixed"]) == (30, 30)


@pytest.mark.parametrize(("weighed", "rows"), [(9, 0), (10, 1)])
def test_ten_weighed_bowls_are_enough(weighed: int, rows: int) -> None:
    assert mixing_clients(bowls_of("Ada", weighed, 50, 10)).height == rows
