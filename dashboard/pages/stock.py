"""Stock and retail: what to order, what walks away, and what is sold over the counter."""

from analytics.definitions.rows import Row
from analytics.sentences import retail as of_retail
from analytics.sentences import stock as of_stock
from dashboard.data import reading
from dashboard.page import Page
from dashboard.parts import bars, layout, stock_bars

PAGE = Page(
    title="Stock and retail",
    order=90,
    readers=("owner",),
    filters=("site", "month", "chair"),
    picture=(1280, 740),
)
MOST_BARS, FIRST_BARS = 12, 3
IN_THE_ORDER = ("product_id", "product", "packs", "order_cost", "runs_out_on")


def unseen() -> list[Row]:
    """What was missing from count to count, dearest first."""
    counted = of_stock.between_counts(stock).sort("unexplained_cost", "product_id", descending=[True, False])
    return [row for row in counted.to_dicts() if (row["unexplained_cost"] or 0) > 0][:MOST_BARS]


def most_sold() -> list[Row]:
    """Retail of the month, what brought most on top."""
    return retail.sort("net", "product_id", descending=[True, False]).head(MOST_BARS).to_dicts()


read = reading(PAGE)
settings, month, today = read.settings, read.month or "", read.today
shelves = read.any_chair  # they are as they are today
stock, reorder, shelf = (shelves.figure(name) for name in ("stock", "reorder", "shelf"))
retail, sellers = read.figure("retail", month), of_retail.stylists(read.year("retail_year_by_stylist"))

wanted = of_stock.orders(reorder)

layout.answer(of_stock.opening_sentence(reorder, shelf, stock, settings, today))
if not wanted.is_empty():
    layout.download("The order as a list (CSV)", wanted.select(*IN_THE_ORDER), f"order-{today}.csv")
    orders = stock_bars.order_bars(wanted.to_dicts(), settings)
    layout.html(bars.drawn(orders[:FIRST_BARS]))
    if more := orders[FIRST_BARS:]:
        with layout.fold(of_stock.more_to_order(len(more), settings), "orders"):
            layout.html(bars.drawn(more))
layout.said(of_stock.stock_sentence(shelf, settings))
if missing := stock_bars.unseen_bars(unseen(), settings):
    layout.html(bars.drawn(missing[:FIRST_BARS]))
with layout.fold("What walks away, what the shelf holds, what expires", "shelf"):
    layout.said(of_stock.stock_value_sentence(shelf, settings, today))
    layout.said(of_stock.below_zero_sentence(stock, settings))
    layout.said(of_stock.expiry_sentence(reorder, shelf, settings, today))
    layout.head("Unexplained use, by product, at cost")
    layout.html(bars.drawn(missing))
    layout.note(of_stock.UNEXPLAINED_SAYS)
with layout.fold("Retail: what sold, and what lies", "retail"):
    layout.said(of_retail.retail_sentence(retail, read.figure("month"), settings, month))
    layout.html(bars.drawn(stock_bars.retail_bars(most_sold(), settings)))
    layout.said(of_stock.slow_sentence(reorder, shelf, settings))
    if not sellers.is_empty():
        layout.head("In how many visits each stylist sells something, twelve months")
        layout.said(of_retail.stylists_sentence(sellers, settings))
        layout.html(bars.drawn(stock_bars.stylist_bars(sellers.to_dicts(), settings), whole=1.0))
with layout.fold("Product by product", "products"):
    layout.table(
        reorder.sort("runs_out_on", "product_id", nulls_last=True),
        {
            "product": "Product",
            "advice": "Advice",
            "packs": layout.number_column("Packs to order"),
            "likely_g": layout.number_column("Probably there (g)"),
            "booked_g": layout.number_column("On record (g)"),
            "closing_value": layout.money_column("Worth on record", settings),
            "weekly_g": layout.number_column("Use a week (g)"),
            "weeks_left": layout.number_column("Weeks left", 1),
            "runs_out_on": layout.day_column("Used up about"),
            "counted_on": layout.day_column("Last counted"),
            "expires_on": layout.day_column("Expires unused from"),
            "expiring_g": layout.number_column("Expires unused (g)"),
        },
        "Stock by product, today",
        "reorder",
    )
layout.worked_out("stock", "reorder", "shelf", "retail", "retail_year_by_stylist")
layout.show_rows(lambda: shelves.rows("stock"), "stock_rows", "Show every movement")
layout.show_rows(lambda: shelves.rows("reorder"), "reorder_rows", "Show use week by week")
layout.show_rows(lambda: read.rows("retail", month), "retail_rows", "Show the rows of retail")
