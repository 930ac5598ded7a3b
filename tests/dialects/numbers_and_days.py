"""Ways of writing days, times, amounts and durations; each takes one value and answers the cell."""

from datetime import UTC, date, datetime, time
from decimal import Decimal
from zoneinfo import ZoneInfo

HERE = ZoneInfo("Europe/Amsterdam")
DAY_ZERO = date(1899, 12, 30)
DUTCH_MONTHS = {1: "jan", 2: "feb", 3: "mrt", 4: "apr", 5: "mei"}
SPANISH_MONTHS = {1: "enero", 2: "febrero", 3: "marzo", 4: "abril", 5: "mayo"}
NARROW_BLANK = "\u202f"


def iso_day(day: date) -> str:
    return day.isoformat()


def iso_moment(moment: datetime) -> str:
    return moment.strftime("%Y-%m-%d %H:%M")


def iso_clock(clock: time) -> str:
    return clock.strftime("%H:%M")


def plain(number: Decimal) -> str:
    return f"{number:f}"


def same(value: object) -> object:
    """As it is: workbooks have cells of their own kind for days and numbers."""
    return value


def as_float(number: Decimal) -> float:
    return float(number)


class Share(float):
    """A part of one that a workbook shows as percent: 0.21 as 21 %."""


def as_share(number: Decimal) -> Share:
    return Share(number / 100)


def german_day(day: date) -> str:
    return day.strftime("%d.%m.%Y")


def german_moment(moment: datetime) -> str:
    return moment.strftime("%d.%m.%Y %H:%M")


def german_clock(clock: time) -> str:
    return clock.strftime("%H:%M Uhr")


def short_day(day: date) -> str:
    """14.3.26"""
    return f"{day.day}.{day.month}.{day:%y}"


def short_moment(moment: datetime) -> str:
    return f"{short_day(moment)} {moment:%H:%M}"


def dutch_day(day: date) -> str:
    return f"{day.day} {DUTCH_MONTHS[day.month]} {day.year}"


def dutch_moment(moment: datetime) -> str:
    return f"{dutch_day(moment)} {moment:%H:%M}"


def french_day(day: date) -> str:
    return day.strftime("%d/%m/%y")


def french_moment(moment: datetime) -> str:
    return f"{french_day(moment)} {moment.hour}h{moment:%M}"


def dotted_moment(moment: datetime) -> str:
    """14-03-2026 à 13h15"""
    return f"{moment:%d-%m-%Y} à {moment.hour}h{moment:%M}"


def spanish_day(day: date) -> str:
    return f"{day.day} de {SPANISH_MONTHS[day.month]} de {day.year}"


def spanish_moment(moment: datetime) -> str:
    return f"{spanish_day(moment)}, {moment:%H:%M}"


def italian_day(day: date) -> str:
    return day.strftime("%d/%m/%Y")


def italian_clock(clock: time) -> str:
    return f"{clock.hour}.{clock:%M}"


def american_day(day: date) -> str:
    return f"{day.month}/{day.day}/{day.year}"


def american_clock(clock: time) -> str:
    return f"{clock.hour % 12 or 12}:{clock:%M} {'PM' if clock.hour >= 12 else 'AM'}"


def american_moment(moment: datetime) -> str:
    return f"{american_day(moment)} {american_clock(moment.time())}"


def zoned_moment(moment: datetime) -> str:
    """In turn as UTC and with the distance from it: 2026-03-14T12:15:00Z, 2026-03-14T13:15:00+01:00."""
    here = moment.replace(tzinfo=HERE)
    if moment.day % 2:
        return here.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")
    return here.isoformat()


def serial_day(day: date) -> str:
    return str((day - DAY_ZERO).days)


def serial_moment(moment: datetime) -> str:
    part = Decimal(moment.hour * 60 + moment.minute) / 1440
    return f"{(moment.date() - DAY_ZERO).days + part:.10f}".replace(".", ",")


def _grouped(number: Decimal, group: str, sign: str) -> str:
    return f"{number:,.2f}".replace(",", "\0").replace(".", sign).replace("\0", group)


def german_money(amount: Decimal) -> str:
    """1.234,50 €"""
    return f"{_grouped(amount, '.', ',')} €"


def dutch_money(amount: Decimal) -> str:
    """€ 1.234,50; whole amounts as € 12,-"""
    if amount == int(amount) and amount >= 0:
        return f"€ {f'{int(amount):,}'.replace(',', '.')},-"
    return f"€ {_grouped(amount, '.', ',')}"


def french_money(amount: Decimal) -> str:
    """1 234,50 € with narrow blanks"""
    return f"{_grouped(amount, NARROW_BLANK, ',')}{NARROW_BLANK}€"


def american_money(amount: Decimal) -> str:
    """$1,234.50 and ($12.00)"""
    written = f"${_grouped(abs(amount), ',', '.')}"
    return f"({written})" if amount < 0 else written


def swiss_money(amount: Decimal) -> str:
    """1'234.50 and 12.00-"""
    return _grouped(abs(amount), "'", ".") + ("-" if amount < 0 else "")


def spanish_money(amount: Decimal) -> str:
    """1.234,50"""
    return _grouped(amount, ".", ",")


def italian_money(amount: Decimal) -> str:
    """EUR 1.234,50"""
    return f"EUR {_grouped(amount, '.', ',')}"


def comma(number: Decimal) -> str:
    """62,5"""
    return f"{number:f}".replace(".", ",")


def percent(number: Decimal) -> str:
    return f"{number:f} %"


def percent_comma(number: Decimal) -> str:
    return f"{number:.1f} %".replace(".", ",")


def hours_and_minutes(minutes: Decimal) -> str:
    """1h30"""
    return f"{int(minutes) // 60}h{int(minutes) % 60:02d}"


def clock_minutes(minutes: Decimal) -> str:
    """1:30"""
    return f"{int(minutes) // 60}:{int(minutes) % 60:02d}"


def said_minutes(minutes: Decimal) -> str:
    """90 min"""
    return f"{int(minutes)} min"
