"""Bowls: what leaves in the bowl and what it costs, where, and what to mix instead."""

from analytics.definitions.rows import Row
from analytics.sentences import waste as of_waste
from dashboard import charts
from dashboard.data import reading
from dashboard.for_stylists import mixing_card
from dashboard.frames import Frame
from dashboard.page import Page
from dashboard.parts import bars, layout

PAGE = Page(
    title="Bowls",
    order=80,
    readers=("owner",),
    filters=("site", "month", "chair"),
    picture=(1280, 740),
)
MOST_BARS, FIRST_BARS = 12, 3


def left_by(split: str) -> list[Row]:
    """The products, services or stylists of the month by what was likely left of theirs, dearest first."""
    rows = waste.filter(month=month, split=split).sort("left_cost_likely", "item", descending=[True, False])
    return [row for row in rows.to_dicts() if (row["left_cost_likely"] or 0) > 0][:MOST_BARS]


def left_months() -> Frame:
    """What was likely left in all bowls, month by month, with what is usual."""
    return waste.filter(split="all").with_columns(
        value="left_cost_likely", usual_low="usual_cost_low", usual_high="usual_cost_high"
    )


read = reading(PAGE)
settings, month = read.settings, read.month or ""
waste, mixing, clients, mixes = (read.figure(name) for name in ("waste", "mixing", "mixing_clients", "mixes"))
answer = of_waste.waste_sentence(waste, settings, month)

layout.answer(answer)
if not mixing.is_empty():
    layout.said(of_waste.savings_sentence(mixing, waste, settings, month))
    worth = of_waste.worth_changing(mixing)
    layout.html(bars.drawn(bars.mix_bars(worth.to_dicts(), settings)[:FIRST_BARS]))
    if read.chair is None:
        layout.file_button("Mixing card for the wall (PDF)", lambda: mixing_card(read), "mixing-card.pdf")
    layout.caution(of_waste.CAUTIONS)
    with layout.fold("Month by month", "months"):
        layout.picture(
            charts.months_with_usual(left_months(), month, "left in the bowls", settings, layout.paper()),
            answer,
            "left",
        )
with layout.fold("Where it was left", "where"):
    layout.said(of_waste.range_sentence(waste, settings, month))
    for split, title in (("service", "By service"), ("stylist", "By stylist"), ("product", "By product")):
        if rows := left_by(split):
            layout.head(f"{title}, at what it cost")
            layout.html(bars.drawn(bars.bowl_bars(rows, settings)))
    layout.note(of_waste.LEFT_SAYS)
if not mixing.is_empty():
    amounts = {
        "service": "Service",
        "kind": "Grams of",
        "advised_mix_g": layout.number_column("Mix (g)"),
        "usual_mix_g": layout.number_column("Usual now (g)"),
        "used_median_g": layout.number_column("Half use up to (g)"),
        "used_p90_g": layout.number_column("Nine in ten (g)"),
        "second_bowl_share": layout.share_column("Second bowl"),
        "saving_per_month": layout.money_column("Saved a month", settings),
        "saving_as_mixed": layout.money_column("Saved against by eye", settings),
        "weighed_bowls": layout.number_column("Bowls weighed"),
        "bowls": layout.number_column("Bowls"),
        "why": "To know",
    }
    with layout.fold("What to mix, service by service", "amounts"):
        layout.note(of_waste.mixing_sentence(mixing, settings))
        layout.note(of_waste.by_eye_sentence(mixing))
        layout.html(bars.drawn(bars.mix_bars(worth.to_dicts(), settings)))
        layout.table(worth, amounts, "Amounts to mix by service", "mixing", ("second_bowl_share",))
    if not clients.is_empty():
        with layout.fold("Clients whose own amount is known", "own"):
            layout.table(
                clients, {"client": "Client"} | amounts, "Amounts by client", "clients", ("second_bowl_share",)
            )
    with layout.fold("As it was mixed", "mixes"):
        layout.table(
            mixes,
            {
                "service": "Service",
                "kind": "Main product",
                "bowls": layout.number_column("Bowls"),
                "second_bowls": layout.number_column("Second bowls"),
                "ready_per_visit_g": layout.number_column("Ready, a visit (g)"),
                "ratio": layout.number_column("Developer to 1 part", 2),
                "ratio_low": layout.number_column("one in ten under", 2),
                "ratio_high": layout.number_column("one in ten over", 2),
                "strength_percent": layout.number_column("Ready strength (%)", 1),
                "strength_most_percent": layout.number_column("Strongest (%)", 1),
                "developers": "Developers, most used first",
            },
            "Bowls as they were mixed, by service",
            "mixes",
        )
layout.worked_out("waste", "mixing", "mixing_clients", "mixes")
layout.show_rows(lambda: read.rows("waste", month), "waste_rows")
layout.show_rows(lambda: read.rows("mixing"), "mixing_rows", "Show what each visit took")
