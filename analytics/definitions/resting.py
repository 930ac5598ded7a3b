"""Which figures rest on columns that no export held and that were made of others, and which cannot be told then.

Whoever shows a figure says what of it was made; one that would only give back what it was made of stays empty.
"""

from dataclasses import dataclass

VISITS = (
    "balances", "changes", "charged_by_client", "clientele", "differences", "due_and_paid", "economics", "journal",
    "month", "rebooking_gap", "reconciliation", "reconciliation_by_method", "retail", "retail_by_stylist",
    "return_curves", "returns", "stylists", "tax", "tax_of_period",
)  # fmt: skip
CLIENTS = (
    "ahead", "calibration", "charged_by_client", "clientele", "long_unseen", "mixing_clients", "rebooking_gap",
    "return_curves", "returns", "roots", "renamed_services",
)  # fmt: skip
HOURS = ("ahead", "backtest", "chairs", "economics", "hours_of_week", "month", "occupancy", "prices", "stylists")
MINUTES = ("durations", "processing")
KINDS = (
    "ahead", "bowls", "calibration", "chairs", "changes", "mixing", "month", "rebooking_gap", "renamed_services",
    "return_curves", "returns", "roots",
)  # fmt: skip
NET = (
    "balances", "chairs", "changes", "charged_by_client", "clientele", "economics", "journal", "month", "prices",
    "revenue", "revenue_of_period", "stylists", "tax", "tax_of_period",
)  # fmt: skip
EARNED = ("discounts", "revenue", "revenue_of_period", "tips")
PAID = (
    "balances", "cards", "differences", "journal", "reconciliation", "reconciliation_by_method", "takings",
    "takings_by_day",
)  # fmt: skip
STATES = tuple(dict.fromkeys((*VISITS, *CLIENTS, *HOURS, *MINUTES, "bowls", "mixing", *EARNED)))


@dataclass(frozen=True)
class Resting:
    """What was made, as the subject of a sentence, and the figures that rest on it."""

    what: str
    figures: tuple[str, ...]


RESTING = {
    ("bookings", "booking_id"): Resting("which lines are one visit", VISITS),
    ("bookings", "client_id"): Resting("which lines are one client's", CLIENTS),
    ("bookings", "status"): Resting("what happened and what is only booked", STATES),
    ("bookings", "ends_at"): Resting("when visits ended", (*HOURS, *MINUTES)),
    ("bookings", "price"): Resting("what lines were charged", (*NET, "due_and_paid", "reconciliation", "clientele")),
    ("bookings", "chair"): Resting("on which chair a visit was", ("occupancy", "chairs", "hours_of_week", "month")),
    ("services", "kind"): Resting("of which kind a service is", KINDS),
    ("services", "price"): Resting("what the menu asks", ("prices", "renamed_services")),
    ("services", "tax_rate"): Resting("the tax rate of services", NET),
    ("services", "hands_on_min"): Resting("how long a service takes", ("chairs", "economics", *MINUTES)),
    ("payments", "method"): Resting("how was paid", PAID),
}
"""By table and column."""

CIRCULAR = {"durations": (("bookings", "ends_at"), ("services", "hands_on_min")), "prices": (("bookings", "price"),)}
"""By figure: tables and columns of which it says nothing but themselves where they were made."""
