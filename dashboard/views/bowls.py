"""Bowls: what leaves in the bowl and what it costs, where, and what to mix instead."""

from analytics.sentences import waste as of_waste
from dashboard import bars, charts, parts
from dashboard.data import reading

read = reading()
settings, month = read.settings, read.month or ""
waste, mixing, clients, mixes = (read.figure(name) for name in ("waste", "mixing", "mixing_clients", "mixes"))
answer = of_waste.waste_sentence(waste, settings, month)

parts.answer(answer)
parts.said(of_waste.range_sentence(waste, settings, month))
if not mixing.is_empty():
    parts.said(of_waste.savings_sentence(mixing, clients, waste, settings, month))
    parts.picture(
        charts.months_with_usual(read.left_months(), month, "left in the bowls", settings, parts.paper()),
        answer,
        "left",
    )
for split, title in (("service", "by service"), ("stylist", "by stylist"), ("product", "by product")):
    if rows := read.left_by(split):
        parts.head(f"Where it was left, {title}, at what it cost")
        parts.html(bars.drawn(bars.bowl_bars(rows, settings)))
parts.note(of_waste.LEFT_SAYS)

if not mixing.is_empty():
    parts.head("What to mix, from all months")
    parts.caution(of_waste.CAUTIONS)
    parts.note(of_waste.mixing_sentence(mixing, settings))
    parts.html(bars.drawn(bars.mix_bars(mixing.to_dicts(), settings)))
    if read.chair is None:
        parts.file_button("Mixing card for the wall (PDF)", read.card, "mixing-card.pdf")
    amounts = {
        "service": "Service",
        "kind": "Grams of",
        "advised_mix_g": parts.number_column("Mix (g)"),
        "usual_mix_g": parts.number_column("Usual now (g)"),
        "used_median_g": parts.number_column("Half use up to (g)"),
        "used_p90_g": parts.number_column("Nine in ten (g)"),
        "second_bowl_share": parts.share_column("Second bowl"),
        "saving_per_month": parts.money_column("Saved a month", settings),
        "saving_as_mixed": parts.money_column("Saved against by eye", settings),
        "weighed_bowls": parts.number_column("Bowls weighed"),
        "bowls": parts.number_column("Bowls"),
        "why": "To know",
    }
    parts.table(mixing, amounts, "Amounts to mix by service", "mixing", ("second_bowl_share",))
    if not clients.is_empty():
        parts.head("Clients whose own amount is known")
        parts.table(clients, {"client": "Client"} | amounts, "Amounts by client", "clients", ("second_bowl_share",))
    parts.head("As it was mixed, from all months")
    parts.table(
        mixes,
        {
            "service": "Service",
            "kind": "Main product",
            "bowls": parts.number_column("Bowls"),
            "second_bowls": parts.number_column("Second bowls"),
            "ready_per_visit_g": parts.number_column("Ready, a visit (g)"),
            "ratio": parts.number_column("Developer to 1 part", 2),
            "ratio_low": parts.number_column("one in ten under", 2),
            "ratio_high": parts.number_column("one in ten over", 2),
            "strength_percent": parts.number_column("Ready strength (%)", 1),
            "strength_most_percent": parts.number_column("Strongest (%)", 1),
            "developers": "Developers, most used first",
        },
        "Bowls as they were mixed, by service",
        "mixes",
    )
parts.worked_out("waste", "mixing", "mixing_clients", "mixes")
parts.show_rows(lambda: read.rows("waste", month), "waste_rows")
parts.show_rows(lambda: read.rows("mixing"), "mixing_rows", "Show what each visit took")
