"""What a page says of itself, and which pages there are, read from pages/ without running them.

There is no list to keep: a file in pages/ is a page. Its PAGE says what the navigation, the filters, sign-in, the
pictures and the tests need to know of it.
"""

import ast
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Literal
from urllib.parse import urlsplit

PAGES_FOLDER = Path(__file__).resolve().parent / "pages"
START = "start"  # the page that opens until there is something to show
Filter = Literal["site", "month", "chair"]
Role = Literal["owner", "stylist", "accountant"]
Need = Literal["nothing", "settings", "months"]


@dataclass(frozen=True)
class Page:
    """One page. order: its place in the navigation. readers: the roles that may see it.

    filters: what of the shared filters narrows it. needs: what there must be for it to be shown: nothing at all, the
    settings, or a loaded book in which something happened. picture: width and height in pixels of its picture in the
    README, where it has one.
    """

    title: str
    order: int
    readers: tuple[Role, ...]
    filters: tuple[Filter, ...] = ()
    needs: Need = "months"
    picture: tuple[int, int] | None = None


@cache
def pages() -> dict[str, Page]:
    """The name of each page's file, which is its address -> what it says of itself, in order."""
    found = {path.stem: _said_in(path) for path in PAGES_FOLDER.glob("[!_]*.py")}
    return dict(sorted(found.items(), key=lambda item: (item[1].order, item[0])))


def at_root(own: list[str], loaded: bool, address: str) -> str:
    """The page without an address of its own, which opens where none is named: the start page until something is
    loaded, then the first. Where it is asked for by its address all the same, another stands there meanwhile."""
    first = START if START in own and not loaded else own[0]
    named = urlsplit(address).path.rstrip("/").rpartition("/")[2]
    return first if named != first else next((page for page in own if page != first), first)


def _said_in(path: Path) -> Page:
    """PAGE = Page(...) of a page's file, of plain values only."""
    for line in ast.parse(path.read_text("utf-8")).body:
        match line:
            case ast.Assign(targets=[ast.Name(id="PAGE")], value=ast.Call(keywords=said)):
                return Page(**{str(one.arg): ast.literal_eval(one.value) for one in said})
    raise ValueError(f"{path} says nothing of itself; write PAGE = Page(...) of plain values into it.")
