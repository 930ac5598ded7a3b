"""What tells of a client in a text: her name in either order, telephone number, mail address, and a number that is
nobody else's word."""

import re
from dataclasses import dataclass
from functools import cached_property

from analytics.storage.erased import NO_NAME, folded

FEWEST_DIGITS = 7  # of a telephone number that is looked for within texts
NATIONAL_DIGITS = 9  # the last digits of it, whatever its prefix
BETWEEN = r"[\s\-./()\u00a0]*"


@dataclass(frozen=True)
class Traces:
    """numbers, names, phones, emails: as they were typed. instead: what stands in her place."""

    numbers: frozenset[str]
    names: frozenset[str]
    phones: frozenset[str]
    emails: frozenset[str]
    instead: str

    @cached_property
    def pattern(self) -> re.Pattern[str] | None:
        """Of her name or number (group `who`), telephone number and mail address in any text; None where nothing of
        hers can be told from other words."""
        who = [form for name in self.names for form in _forms(name)]
        who += [rf"(?<!\w){re.escape(number)}(?!\w)" for number in self.numbers if _distinct(number)]
        reach = [_phone(phone) for phone in self.phones if len(re.sub(r"\D", "", phone)) >= FEWEST_DIGITS]
        reach += [rf"(?<![\w.+-]){re.escape(email)}(?![\w-])" for email in self.emails if "@" in email]
        parts = ([f"(?P<who>{'|'.join(who)})"] if who else []) + reach
        return re.compile("|".join(parts), re.IGNORECASE) if parts else None

    @cached_property
    def known(self) -> frozenset[str]:
        """Every whole cell that is her name, folded; of two columns too."""
        return frozenset(folded(name) for name in self.names)

    @cached_property
    def parts(self) -> frozenset[str]:
        """The first and the last words of her name, folded: what a cell beside another says of it."""
        words = [name.split() for name in self.known]
        return frozenset(
            " ".join(part) for name in words for at in range(1, len(name)) for part in (name[:at], name[at:])
        )

    def cleaned(self, text: str) -> str:
        """The text without her."""
        if self.pattern is None or not text:
            return text
        return self.pattern.sub(lambda found: self.instead if found.lastgroup == "who" else "", text)

    def halves(self, first: str, second: str) -> tuple[str, str] | None:
        """What stands in place of two cells side by side that are her first and last name, in either order."""
        if folded(first) not in self.parts or not second.strip():
            return None
        if folded(f"{first} {second}") in self.known or folded(f"{second} {first}") in self.known:
            return NO_NAME, self.instead.removeprefix(NO_NAME).strip()
        return None


def _distinct(number: str) -> bool:
    """Whether a client's number is no word or amount that stands elsewhere for something else."""
    letters, digits = any(sign.isalpha() for sign in number), sum(sign.isdigit() for sign in number)
    return bool((letters and digits and len(number) >= 4) or digits >= 6)


def _forms(name: str) -> list[str]:
    """First name first, and last name first; a name of one word only where it is long enough to be a name."""
    words = [re.escape(word) for word in re.split(r"[\s,]+", name) if word]
    if len(words) < 2:
        return [rf"(?<!\w){words[0]}(?!\w)"] if words and len(words[0]) >= 5 else []
    turned = [words[at:] + words[:at] for at in range(len(words))]
    return [r"(?<!\w)" + r"[\s,]+".join(form) + r"(?!\w)" for form in turned]


def _phone(phone: str) -> str:
    digits = re.sub(r"\D", "", phone)[-NATIONAL_DIGITS:]
    return rf"(?<!\d)[+(]?[\d\s\-./()]{{0,8}}{BETWEEN.join(digits)}(?!\d)"
