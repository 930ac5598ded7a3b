"""Break-even: what a month of a service leaves over its product, and how many sales a dearer price may lose."""

from dataclasses import dataclass


def break_even_share(margin_before: float, margin_after: float) -> float | None:
    """The share of sales that can be lost before the margin of all of them is what it was.

    Negative: so many more are needed. None where a sale at the new price leaves nothing over, or left nothing before.
    """
    if margin_after <= 0 or margin_before <= 0:
        return None
    return 1 - margin_before / margin_after


@dataclass(frozen=True)
class Trial:
    """A month of one service as it is and as it would be, in the currency without tax, and in hours."""

    net_before: float
    net_after: float
    after_product_before: float
    after_product_after: float
    chair_hours_before: float
    chair_hours_after: float
    net_per_chair_hour_before: float | None
    net_per_chair_hour_after: float | None
    break_even_share: float | None


def price_trial(  # noqa: PLR0917
    lines_per_month: float,
    net_per_line: float,
    product_per_line: float,
    minutes_per_line: float,
    price_ratio: float = 1.0,
    minutes: float | None = None,
    staying_away: float = 0.0,
) -> Trial:
    """What a month of one service brings at another price, in another time, with some clients gone.

    price_ratio: new ÷ old price; discounts and tax keep their shares of it. minutes: of the chair, per line (None: as
    now). staying_away: share of lines lost, 0–1. Product per line stays, and freed chair hours are left empty.
    """
    lines = lines_per_month * (1 - staying_away)
    net = net_per_line * price_ratio
    before = lines_per_month * minutes_per_line / 60
    after = lines * (minutes_per_line if minutes is None else minutes) / 60
    return Trial(
        net_before=lines_per_month * net_per_line,
        net_after=lines * net,
        after_product_before=lines_per_month * (net_per_line - product_per_line),
        after_product_after=lines * (net - product_per_line),
        chair_hours_before=before,
        chair_hours_after=after,
        net_per_chair_hour_before=lines_per_month * net_per_line / before if before > 0 else None,
        net_per_chair_hour_after=lines * net / after if after > 0 else None,
        break_even_share=break_even_share(net_per_line - product_per_line, net - product_per_line),
    )
