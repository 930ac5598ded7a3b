"""What of a voucher is still owed when part of it was used, and what of it will never be asked for.

Breakage is the part that nobody is expected to use. In proportion (IFRS 15, B46, from memory) it is earned as the
voucher is used: of what was paid, a share p of which stays unused, each amount used earns p ÷ (1 − p) of itself beside
it, so that what is owed is what was paid less what was used ÷ (1 − p), and never less than nothing. At expiry (B47,
from memory) it is earned at once when the voucher can no longer be used; then p is 0.
"""

from decimal import Decimal

NOTHING = Decimal(0)


def value_used(paid: Decimal, face: Decimal, used: Decimal) -> Decimal:
    """What was paid for the part of the face that was used."""
    return paid * used / face if face else NOTHING


def still_owed(paid: Decimal, value: Decimal, unused_share: Decimal = NOTHING) -> Decimal:
    """What is owed of a voucher after so much of its value was used; unused_share: 0 up to, but not, 1."""
    return max(paid - value / (1 - unused_share), NOTHING)
