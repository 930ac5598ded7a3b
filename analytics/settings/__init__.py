"""The salon's own settings, salon.toml."""

from analytics.settings.accounts import Accounts, Section
from analytics.settings.money_sections import Costs
from analytics.settings.names import AMOUNTS
from analytics.settings.reading import FILE_NAME, parse_settings, read_settings
from analytics.settings.sections import WEEKDAYS, Access, Hours, SalonSection, Settings
from analytics.settings.values import DAY_MINUTES, Span
from analytics.settings.work_sections import RootLengths, Stock

__all__ = [
    "AMOUNTS",
    "DAY_MINUTES",
    "FILE_NAME",
    "WEEKDAYS",
    "Access",
    "Accounts",
    "Costs",
    "Hours",
    "RootLengths",
    "SalonSection",
    "Section",
    "Settings",
    "Span",
    "Stock",
    "parse_settings",
    "read_settings",
]
