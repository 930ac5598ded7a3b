"""Papers: PDF files that typst makes from a template beside this file and plain data.

A template begins with `#import "paper.typ": *` and `#show: paper`, and reads what it shows from `data`. Data is handed
over as JSON, so that text from an export is never read as markup. Same data, same bytes; PDF/UA-1, so that it can be
read aloud; fonts are those shipped beside it.
"""

import json
import unicodedata
from datetime import date
from functools import cache
from pathlib import Path
from typing import Any

from analytics.settings import Settings
from analytics.wording import day

HERE = Path(__file__).parent
FONTS = ("NotoSans-Regular.ttf", "NotoSans-Bold.ttf", "DejaVuSans.ttf")
MISSING = "\u25a1"  # stands for a sign that none of the fonts has
PLAIN = {  # signs that a paper cannot show or that turn the text around them
    **dict.fromkeys(range(32), " "),
    **dict.fromkeys((0x7F, *range(0x80, 0xA0), 0x200E, 0x200F, *range(0x202A, 0x202F), *range(0x2066, 0x206A)), ""),
}


def paper(
    template: str, data: dict[str, Any], settings: Settings, *, title: str, period: str, made_on: date | None
) -> bytes:
    """The PDF of `template`.typ. `data` holds text, numbers, lists and dicts of them; title and period head each page.

    `made_on` stands at the foot; None leaves it out, for papers that must not change from one day to the next.
    """
    import typst

    heads = {
        "salon": settings.salon.name,
        "title": title,
        "period": period,
        "made": f"Made on {day(made_on, settings)}" if made_on else "",
    }
    shown = json.dumps(plain({**data, **heads}), ensure_ascii=False)
    return bytes(
        typst.compile(
            str(HERE.joinpath(f"{template}.typ")),
            root=str(HERE),
            font_paths=[str(HERE.joinpath("fonts"))],
            ignore_system_fonts=True,
            sys_inputs={"data": shown},
            pdf_standards=["ua-1"],
            timestamp=0,
        )
    )


def plain(value: Any) -> Any:
    """The same data with text that a paper can show on one line: line breaks and control signs are blanks, signs that
    the fonts have not are written in their plain form or, where there is none, as an empty square."""
    if isinstance(value, str):
        return "".join(_shown(sign) for sign in value.translate(PLAIN))
    if isinstance(value, dict):
        return {name: plain(part) for name, part in value.items()}
    if isinstance(value, list | tuple):
        return [plain(part) for part in value]
    return value


def _shown(sign: str) -> str:
    if ord(sign) in _drawn():
        return sign
    simple = unicodedata.normalize("NFKC", sign)
    return simple if simple != sign and all(ord(part) in _drawn() for part in simple) else MISSING


@cache
def _drawn() -> frozenset[int]:
    """The signs that the fonts have."""
    from fontTools.ttLib import TTFont

    return frozenset(code for font in FONTS for code in TTFont(HERE.joinpath("fonts", font), lazy=True).getBestCmap())
