"""Stock at cost by moving average or first in, first out, the two ways of IAS 2 (paragraph 25).

Costs are exact decimals: what leaves takes its share of the cost, cut at DIGITS, and what stays keeps the rest, so that
value in = value out + value on the shelf, always. What is taken beyond the stock has no cost yet and leaves a quantity
below nothing whose value is nothing; the next that comes in makes it good first, at its own cost.
"""

from collections import deque
from decimal import Decimal

DIGITS = Decimal("1e-12")
NOTHING = Decimal(0)


class Shelf:
    """One product: quantity (negative where more was taken than there was) and value, in layers of (quantity, cost)."""

    def __init__(self, valuation: str) -> None:
        """valuation: "average" keeps one layer, "fifo" a layer for each arrival and takes the oldest first."""
        self.one_layer = valuation == "average"
        self.layers: deque[tuple[Decimal, Decimal]] = deque()
        self.quantity = self.value = NOTHING

    def put(self, quantity: Decimal, cost: Decimal) -> Decimal:
        """Add so much at this cost altogether; what comes back is the part that made good earlier use, not kept."""
        owed = min(max(-self.quantity, NOTHING), quantity)
        made_good = part(cost, owed, quantity)
        self.quantity += quantity
        self.value += cost - made_good
        if quantity > owed:
            held, worth = self.layers.pop() if self.one_layer and self.layers else (NOTHING, NOTHING)
            self.layers.append((held + quantity - owed, worth + cost - made_good))
        return made_good

    def take(self, quantity: Decimal) -> Decimal:
        """Take so much away; what it cost."""
        cost, wanted = NOTHING, quantity
        while wanted > 0 and self.layers:
            held, worth = self.layers.popleft()
            taken = min(held, wanted)
            cost_taken = part(worth, taken, held)
            if taken < held:
                self.layers.appendleft((held - taken, worth - cost_taken))
            cost += cost_taken
            wanted -= taken
        self.quantity -= quantity
        self.value -= cost
        return cost

    def cost_of(self, quantity: Decimal) -> Decimal | None:
        """What so much costs at the average of the shelf; None where there is nothing on it."""
        return part(self.value, quantity, self.quantity) if self.quantity > 0 else None


def part(cost: Decimal, quantity: Decimal, whole: Decimal) -> Decimal:
    """The cost of a part of the whole; all of it where the part is the whole."""
    return cost if quantity == whole else (cost * quantity / whole).quantize(DIGITS)
