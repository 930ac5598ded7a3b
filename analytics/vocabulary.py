"""What the trade calls the words of the tables: kinds of work and product, states, ways of payment, figures."""

KINDS = {
    "root_touch_up": "root touch-up",
    "full_colour": "all-over colour",
    "lightening": "lightening",
    "toner": "toner",
    "cut": "cut",
    "styling": "styling",
    "treatment": "treatment",
    "other": "other",
    "colour": "colour",
    "developer": "developer",
    "lightener": "lightener",
    "additive": "additive",
    "retail": "retail",
}
STATES = {
    "ready": "ready now",
    "nearing": "within two weeks",
    "long_past": "past one application",
    "booked": "booked",
    "resting": "too early",
    "quiet": "gone quiet",
}
METHODS = {"cash": "cash", "card": "card", "bank": "bank transfer", "voucher": "voucher", "other": "other"}
FIGURES = {
    "net_revenue": "Net revenue",
    "gross_revenue": "Revenue with tax",
    "net_per_open_day": "Net per open day",
    "visits": "Visits",
    "clients": "Clients seen",
    "new_clients": "New clients",
    "average_visit": "Average visit, net",
    "chair_hours": "Chair hours",
    "occupied_share": "Share of opening hours taken",
    "net_per_chair_hour": "Net per chair hour",
    "product_cost": "Product mixed, at its cost",
    "product_share": "Product share of service revenue",
    "retail_net": "Retail, net",
    "retail_share": "Retail share of net revenue",
    "discounts": "Discounts given",
    "tips": "Tips (not revenue)",
    "no_show_share": "No-show share of visits due",
    "open_days": "Days open",
}
