"""Every table that exports are read into, once: grain, key, and of each column its type, unit, meaning and rule.

Loading turns these definitions into typed columns, the checks into expectations, and the reference prints them. The
tables that figures answer with are in results.py.
"""

from analytics.definitions.columns import Column, Table

STATUSES = ("completed", "booked", "cancelled", "no_show")
ROOT_KINDS = ("root_touch_up", "full_colour")
COLOUR_KINDS = (*ROOT_KINDS, "lightening", "toner")
SERVICE_KINDS = (*COLOUR_KINDS, "cut", "styling", "treatment", "other")
PRODUCT_KINDS = ("colour", "developer", "lightener", "additive", "retail")
METHODS = ("cash", "card", "bank", "voucher", "other")
PURPOSES = ("visit", "deposit", "voucher")
MOVEMENTS = ("delivery", "count", "returned", "discarded")

SITE = Column("site", "text", "the salon of a group; empty where there is one", default="")

BOOKINGS = Table(
    "bookings",
    "one row per booked service line",
    (
        Column("booking_id", "text", "the visit; lines of one visit share it", required=True),
        Column("line", "whole", "1, 2, … within the visit; made from file order where absent", low=1),
        Column("client_id", "text", "the client; where an export has names only, the name", required=True),
        Column("client", "text", "the client's name"),
        Column("stylist", "text", "who did it"),
        Column("chair", "text", "the chair; the stylist's own name where the export has none"),
        Column("starts_at", "moment", "local date and time the chair is taken", required=True),
        Column("ends_at", "moment", "local date and time it is free again"),
        Column("minutes", "number", "how long the chair was taken, minutes, for the whole visit", low=0, high=1440),
        Column("status", "word", "what became of it", required=True, words=STATUSES),
        Column("service_id", "text", "the line of the menu, by id"),
        Column("service", "text", "the line of the menu, by name"),
        Column("price", "money", "charged before discount, in the currency and tax regime of the salon", required=True),
        Column("discount", "money", "taken off this line", default="0"),
        Column("tip", "money", "a tip, which is not revenue", default="0"),
        Column("booked_on", "day", "the day the visit was made"),
        Column("regrowth_mm", "number", "root regrowth measured at the visit, mm", low=0, high=400),
        SITE,
    ),
    key=("site", "booking_id"),
    time="starts_at",
    either=(("service_id", "service"), ("ends_at", "minutes")),
    at_least=(("ends_at", "starts_at"),),
    parts=("day", "start_time", "end_time"),
    made_from={"starts_at": ("day", "start_time"), "ends_at": ("day", "end_time"), "client_id": ("client",)},
    required=True,
)

SERVICES = Table(
    "services",
    "one row per line of the menu and start of validity",
    (
        Column("service_id", "text", "the line of the menu", required=True),
        Column("service", "text", "its name", required=True),
        Column("kind", "word", "the kind of work", required=True, words=SERVICE_KINDS),
        Column("price", "money", "the list price", low=0),
        Column(
            "tax_rate",
            "percent",
            "tax on the service, percent",
            required=True,
            low=0,
            high=100,
        ),
        Column("hands_on_min", "number", "the stylist's hands-on minutes", required=True, low=0, high=1440),
        Column("processing_min", "number", "minutes it develops with the chair full", default="0", low=0, high=1440),
        Column("resets_roots", "yes_no", "colours the roots, so that regrowth starts again (default by kind)"),
        Column("valid_from", "day", "first day of this row; empty: always"),
        SITE,
    ),
    key=("site", "service_id", "valid_from"),
    time="valid_from",
    required=True,
)

PRODUCT_LOG = Table(
    "product_log",
    "one row per product in a bowl",
    (
        Column("logged_at", "moment_or_day", "when it was mixed", required=True),
        Column("booking_id", "text", "the visit it was mixed for"),
        Column("service_id", "text", "the service it was mixed for"),
        Column("stylist", "text", "who mixed it"),
        Column("product_id", "text", "the product, by id"),
        Column("product", "text", "the product, by name"),
        Column("mixed_g", "grams", "grams mixed", required=True, low=0, high=2000),
        Column("left_g", "grams", "grams left, weighed after the service; empty: not weighed", low=0, high=2000),
        SITE,
    ),
    time="logged_at",
    either=(("product_id", "product"),),
    at_least=(("mixed_g", "left_g"),),
    parts=("time",),
    made_from={"logged_at": ("logged_at", "time")},
)

PRODUCTS = Table(
    "products",
    "one row per product and start of validity",
    (
        Column("product_id", "text", "the product", required=True),
        Column("product", "text", "its name", required=True),
        Column("kind", "word", "what it is used as", required=True, words=PRODUCT_KINDS),
        Column("pack_g", "grams", "grams in a pack", required=True, low=0.001),
        Column("pack_cost", "money", "cost of a pack without tax", required=True, low=0),
        Column("strength_percent", "number", "hydrogen peroxide of a developer, percent", low=0, high=12),
        Column("tax_rate", "percent", "tax when sold, percent", low=0, high=100),
        Column("valid_from", "day", "first day of this row; empty: always"),
        SITE,
    ),
    key=("site", "product_id", "valid_from"),
    time="valid_from",
)

CLIENTS = Table(
    "clients",
    "one row per client",
    (
        Column("client_id", "text", "the client", required=True),
        Column("client", "text", "name"),
        Column("phone", "text", "telephone"),
        Column("email", "text", "mail address"),
        Column("may_contact", "yes_no", "may be called or written to", default="no"),
        Column("natural_level", "number", "natural depth, 1–10", low=1, high=10),
        Column("target_level", "number", "wanted depth, 1–10", low=1, high=10),
        Column("grey_share", "number", "share of grey, 0–1", low=0, high=1),
        Column("patch_tested_on", "day", "day of the last skin test"),
        SITE,
    ),
    key=("site", "client_id"),
    time="patch_tested_on",
    made_from={"client_id": ("client",)},
)

PAYMENTS = Table(
    "payments",
    "one row per payment",
    (
        Column("paid_at", "moment_or_day", "when it was paid", required=True),
        Column("booking_id", "text", "the visit it pays for"),
        Column("method", "word", "how it was paid", required=True, words=METHODS),
        Column("amount", "money", "the amount, refunds negative", required=True),
        Column("fee", "money", "what the payment cost the salon", default="0"),
        Column("purpose", "word", "what was paid: a visit, a deposit for one, or a voucher sold", words=PURPOSES),
        Column("voucher", "text", "number of the voucher that was sold or used"),
        SITE,
    ),
    time="paid_at",
    parts=("time",),
    made_from={"paid_at": ("paid_at", "time")},
)

SALES = Table(
    "sales",
    "one row per retail item sold",
    (
        Column("sold_at", "moment_or_day", "when it was sold", required=True),
        Column("product_id", "text", "the product, by id"),
        Column("product", "text", "the product, by name"),
        Column("quantity", "quantity", "pieces", required=True),
        Column("price", "money", "price of one piece, in the tax regime of the salon", required=True),
        Column("tax_rate", "percent", "tax, percent; else the product's, else the default", low=0, high=100),
        Column("discount", "money", "taken off the row", default="0"),
        Column("stylist", "text", "who sold it"),
        Column("client_id", "text", "the client"),
        Column("booking_id", "text", "the visit it was sold in"),
        SITE,
    ),
    time="sold_at",
    parts=("time",),
    made_from={"sold_at": ("sold_at", "time")},
    either=(("product_id", "product"),),
)

STOCK_MOVES = Table(
    "stock_moves",
    "one row per movement of stock",
    (
        Column("moved_at", "moment_or_day", "when it moved or was counted", required=True),
        Column("product_id", "text", "the product, by id"),
        Column("product", "text", "the product, by name"),
        Column("movement", "word", "what happened", required=True, words=MOVEMENTS),
        Column("packs", "number", "packs"),
        Column("grams", "grams", "grams"),
        Column("unit_cost", "money", "cost of a pack without tax (deliveries)", low=0),
        Column("expires_on", "day", "last day on which it may be used (deliveries)"),
        SITE,
    ),
    time="moved_at",
    parts=("time",),
    made_from={"moved_at": ("moved_at", "time")},
    either=(("product_id", "product"), ("packs", "grams")),
)

VOUCHERS = Table(
    "vouchers",
    "one row per voucher",
    (
        Column("number", "text", "the voucher", required=True),
        Column("sold_on", "day", "the day it was sold", required=True),
        Column("face", "money", "what it may be used for", required=True, low=0),
        Column("paid", "money", "what was paid for it; empty: its face", low=0),
        Column("expires_on", "day", "last day on which it may be used; empty: as salon.toml says"),
        Column("used", "money", "what of it was used so far", low=0),
        SITE,
    ),
    key=("site", "number"),
    time="sold_on",
    at_least=(("face", "used"), ("expires_on", "sold_on")),
)

# In the order in which they are loaded: what others refer to comes first.
TABLES = {
    table.name: table
    for table in (SERVICES, PRODUCTS, CLIENTS, BOOKINGS, PRODUCT_LOG, PAYMENTS, SALES, STOCK_MOVES, VOUCHERS)
}
