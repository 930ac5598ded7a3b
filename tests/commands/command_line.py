"""What the tests of commands share."""

import csv
import io
from collections.abc import Callable
from pathlib import Path

DEMO = Path(__file__).resolve().parents[2] / "demo_data"


TODAY = ["--today", "2026-11-24"]


COLUMNS = {  # of the contract, in its order
    "roots": "client_id client kind stylist last_root_on days_since growth_mm_per_day regrowth_mm regrowth_low_mm "
    "regrowth_high_mm ready_from ready_by expected_on expected_low_on expected_high_on chance_of_return state "
    "booked_on may_contact",
    "chairs": "month service_id service kind lines chair_hours hands_on_hours gross net product_cost "
    "net_per_chair_hour net_per_hands_on_hour after_product_per_chair_hour",
    "occupancy": "month chair open_hours occupied_hours occupied_share",
    "bowls": "month product_id product kind bowls mixed_g weighed_mixed_g left_g left_share left_cost colour_lines "
    "colour_lines_logged",
    "mixing": "service_id service bowls used_median_g used_p90_g usual_mix_g advised_mix_g saving_per_month",
    "month": "month figure value unit previous year_ago expected usual_low usual_high",
    "tax": "month tax_rate gross net tax",
    "takings": "month method amount fees",
    "reconciliation": "month charged_gross tips vouchers_sold received difference",
}


FIGURES = list(COLUMNS)


OF_THE_HOUR = ["changes", "clientele", "prices", "economics", "hours_of_week", "stylists", "processing", "durations"]


Run = Callable[..., str]


def rows_of_csv(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text, newline="")))
