"""The colours of the pages and pictures: paper and ink, one accent for what wants doing, greys for context.

Kinds of work have the Okabe–Ito colours (Wong 2011, Nature Methods 8:441), the same on every page; vermilion is kept
for the accent. Text colours have a contrast of 4.5:1 and more on their paper.
"""

from dataclasses import dataclass


@dataclass(frozen=True)
class Ink:
    """One set of colours, for light or for dark."""

    paper: str
    panel: str
    text: str
    quiet: str
    line: str
    band: str
    range: str
    dot: str
    primary: str
    accent: str
    accent_text: str


LIGHT = Ink(
    paper="#FDFBF7",
    panel="#F4EFE6",
    text="#2B211A",
    quiet="#6A5E54",
    line="#DED5C8",
    band="#E9E1D5",
    range="#D3C6B4",
    dot="#4A3D33",
    primary="#6B4F3A",
    accent="#D55E00",
    accent_text="#A84300",
)
DARK = Ink(
    paper="#1C1714",
    panel="#2A231E",
    text="#F0E8DE",
    quiet="#B3A799",
    line="#4A3F36",
    band="#3A312A",
    range="#5A4C41",
    dot="#E2D6C8",
    primary="#D8B898",
    accent="#FF8A3D",
    accent_text="#FFA366",
)
KINDS = {
    "root_touch_up": "#E69F00",
    "full_colour": "#CC79A7",
    "lightening": "#F0E442",
    "toner": "#56B4E9",
    "cut": "#0072B2",
    "styling": "#009E73",
    "treatment": "#A89E92",
    "other": "#CFC7BB",
}
SHADES = (0, 1, 2, 3, 4)  # from little to much, light to dark on paper and dark to light on a dark screen
LIGHT_SHADES = (("#F4EFE6", "#2B211A"), ("#E4D7C4", "#2B211A"), ("#CBB598", "#2B211A"), ("#80604A", "#FDFBF7"),
                ("#523A2B", "#FDFBF7"))  # fmt: skip
DARK_SHADES = (("#2A231E", "#F0E8DE"), ("#41362D", "#F0E8DE"), ("#5C4B3E", "#F0E8DE"), ("#BF9C79", "#1C1714"),
               ("#EBD3B6", "#1C1714"))  # fmt: skip
ON_BLOCK = "#2B211A"
ON_KIND = {"cut": "#FFFFFF"}  # every other kind carries dark text


def ink(dark: bool) -> Ink:
    """The set for dark or for light."""
    return DARK if dark else LIGHT


def shades(dark: bool) -> tuple[tuple[str, str], ...]:
    """Paper and text of each shade, for dark or for light."""
    return DARK_SHADES if dark else LIGHT_SHADES


def theme_options() -> dict[str, str]:
    """The same colours as options of the server, light and dark each their own."""
    return {
        f"theme.{name}.{option}": value
        for name, colours in (("light", LIGHT), ("dark", DARK))
        for option, value in (
            ("backgroundColor", colours.paper),
            ("secondaryBackgroundColor", colours.panel),
            ("textColor", colours.text),
            ("primaryColor", colours.primary),
            ("linkColor", colours.accent_text),
            ("borderColor", colours.line),
            ("dataframeHeaderBackgroundColor", colours.panel),
            ("dataframeHeaderTextColor", colours.text),
            ("sidebar.backgroundColor", colours.panel),
            ("sidebar.textColor", colours.text),
        )
    }
