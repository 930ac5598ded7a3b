"""What each setting changes, for whoever owns the salon: its meaning stands with the setting itself."""

from analytics.sentences.assumed import never_set
from analytics.settings import Settings

TITLES = {
    "salon": "The salon",
    "hours": "Opening hours and closed days",
    "costs": "Costs",
    "tax": "Tax",
    "roots": "Roots",
    "mixing": "Mixing",
    "stock": "Stock and orders",
    "accounting": "For the accountant",
    "accounts": "Names of the accounts",
    "wages": "Wages",
    "access": "Who may see what",
    "keeping": "How long clients' records are kept",
    "dates": "How files write dates",
    "numbers": "How files write numbers",
    "files": "How files are written",
}
"""By section that is edited field by field, in the order of the page."""

CHOICES = {
    "tables": "Which table a file is",
    "columns": "What a heading means",
    "words": "What a word means",
    "constants": "What all rows of a file have in common",
}
"""By section that is written by choosing on the pages Start and Exports and findings, and taken out here."""

REVENUE = "Changes every net amount, and the tax that is due."
RANGE = "Changes who is due, and when."
ORDER = "Changes what to order, and when."
BOWL = "Changes how much to mix, and what that saves."
JOURNAL = "Changes the journal and the sheets of the accountant's folder."
CHANGES = {
    "salon.name": "Changes what stands at the foot of every page and on every paper.",
    "salon.currency": "Changes sign and digits of every amount; nothing is converted. The exports are loaded again.",
    "salon.locale": "Changes how numbers and dates look, and no figure.",
    "salon.timezone": "Changes hours around a change of the clock, and no other. The exports are loaded again.",
    "salon.chairs": "Changes how many chair hours are open, and with that how full the chairs are.",
    "salon.open_chairs": "Changes how many chair hours are open on days with fewer stylists than chairs.",
    "hours": "Changes how full the chairs are, what an empty hour costs, open days, and what was to be expected.",
    "costs.per_month": "Changes what an open chair hour costs, and which services and prices carry it.",
    "costs.card_fee_percent": "Changes what is left of card payments, where no payment states its own fee.",
    "costs.target_per_chair_hour": "Changes which prices are proposed.",
    "tax.prices": REVENUE,
    "tax.round_per": "Changes cents of the tax that is due.",
    "tax.default_rate": f"{REVENUE} Only where neither service nor product names a rate.",
    "stock.valuation": "Changes what the stock is worth, and what was used.",
    "stock.delivery_days": ORDER,
    "stock.cover_weeks": ORDER,
    "stock.unsaleable_after_days": "Changes what the stock is worth, and what was written down.",
    "stock.service_level": "Changes how much is kept in hand for weeks that use more.",
    "accounting.tolerance": "Changes which visits count as agreed; the amounts stay.",
    "accounting.tips": REVENUE,
    "accounting.vouchers": "Changes in which month vouchers are taxed.",
    "accounting.voucher_tax_rate": "Changes the tax on vouchers that are taxed when sold.",
    "accounting.deposits": "Changes in which month the tax on a deposit is due.",
    "accounting.missed_deposits": "Changes whether a deposit after a no-show is owed or earned.",
    "accounting.kept_deposits": "Changes the tax on deposits that are kept.",
    "accounting.vouchers_opening": "Changes what is owed for vouchers from the first day on.",
    "accounting.voucher_months": "Changes when vouchers expire that say nothing of it.",
    "accounting.breakage": "Changes in which month unused vouchers are earned.",
    "accounting.breakage_percent": "Changes how much of vouchers is earned as they are used.",
    "accounting.exempt": "Changes which revenue stands as exempt and which as taxed at 0 %.",
    "accounts": JOURNAL,
    "wages": "Adds hours and a base for wages to the accountant's folder.",
    "roots": RANGE,
    "roots.growth_mm_per_day": f"{RANGE} Only until growth was measured.",
    "roots.growth_sd": "Changes how wide the ranges of days are.",
    "roots.patch_test_hours": "Changes from when a skin test is asked for; the maker's instructions come first.",
    "mixing": BOWL,
    "mixing.step_g": "Changes to what advised amounts are rounded.",
    "dates": "Changes how days are read in files that leave it open. The exports are loaded again.",
    "numbers": "Changes how amounts are read in files that leave it open. The exports are loaded again.",
    "files": "Changes how letters with accents are read. The exports are loaded again.",
    "keeping": "Changes who is proposed on the page Client data, and by salon-figures erase --overdue; nothing goes "
    "by itself.",
    "access.stylists_see": "Changes whose clients a stylist sees on a phone.",
    "access.signed_in_hours": "Changes how often a phone asks for the passphrase; from the next start on.",
}
"""By section and key, or by section for all its keys."""

ALL_SET = "Hours and costs are set. Everything else has a usual value until you change it."
KEPT = "Kept in salon.toml."
TAKEN_BACK = "Taken out of salon.toml: what is usual counts again."


def opening(settings: Settings) -> str:
    """The sentence that the page opens with."""
    lacking = never_set(settings)
    return " ".join(lacking) if lacking else ALL_SET


def changes(section: str, key: str) -> str:
    """What changes with this setting."""
    return CHANGES.get(f"{section}.{key}") or CHANGES.get(section, "")


def label(key: str) -> str:
    """'touch_up_from_mm' -> 'Touch up from mm'."""
    return key.replace("_", " ").capitalize()
