"""Stock and retail: what went from the shelf unseen, what to order, and what is sold over the counter."""

from analytics.sentences import retail as of_retail
from analytics.sentences import stock as of_stock
from dashboard import bars, parts, shelves
from dashboard.data import reading

read = reading()
settings, month, today = read.settings, read.month or "", read.today
stock, reorder, retail = read.shelf("stock"), read.shelf("reorder"), read.figure("retail", month)
sellers = of_retail.stylists(read.year("retail_by_stylist"), month)

parts.answer(of_stock.stock_sentence(stock, settings))
parts.said(of_stock.stock_value_sentence(stock, reorder, settings, today))
parts.said(of_stock.below_nothing_sentence(stock, settings))
if unseen := read.unseen():
    parts.head("What went unseen, by product, at cost")
    parts.html(bars.drawn(shelves.unseen_bars(unseen, settings)))
    parts.note(of_stock.UNSEEN_SAYS)

parts.head("What to order")
parts.said(of_stock.order_sentence(reorder, settings, today))
if orders := read.orders():
    parts.html(bars.drawn(shelves.order_bars(orders, settings)))
parts.said(of_stock.expiry_sentence(reorder, settings, today))

parts.head("Retail")
parts.said(of_retail.retail_sentence(retail, read.figure("month"), settings, month))
parts.html(bars.drawn(shelves.retail_bars(read.sold(), settings)))
parts.said(of_stock.slow_sentence(reorder, settings))
if not sellers.is_empty():
    parts.head("In how many visits each stylist sells something, twelve months")
    parts.said(of_retail.stylists_sentence(sellers, settings))
    parts.html(bars.drawn(shelves.stylist_bars(sellers.to_dicts(), settings), whole=1.0))

parts.head("Product by product")
parts.table(
    read.shelf_now(),
    {
        "product": "Product",
        "advice": "Advice",
        "packs": parts.number_column("Packs to order"),
        "likely_g": parts.number_column("Probably there (g)"),
        "booked_g": parts.number_column("By the book (g)"),
        "closing_value": parts.money_column("Worth by the book", settings),
        "weekly_g": parts.number_column("Use a week (g)"),
        "weeks_left": parts.number_column("Weeks left", 1),
        "runs_out_on": parts.day_column("Used up about"),
        "counted_on": parts.day_column("Last counted"),
        "expires_on": parts.day_column("Expires unused from"),
        "expiring_g": parts.number_column("Expires unused (g)"),
    },
    "Stock by product, today",
    "reorder",
)
parts.worked_out("stock", "reorder", "retail", "retail_by_stylist")
parts.show_rows(lambda: read.shelf("stock", rows=True), "stock_rows", "Show every movement")
parts.show_rows(lambda: read.shelf("reorder", rows=True), "reorder_rows", "Show use week by week")
parts.show_rows(lambda: read.rows("retail", month), "retail_rows", "Show the rows of retail")
