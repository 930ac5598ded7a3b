"""Which figures there are, and what each says of itself.

There is no list to keep. A module in figures/ is a figure, a command and a page's explanation, and ends with its own
line of the table, FIGURE: its function, the function of its rows and its RESULT. It is imported when its figure is
asked for, since some need parts that take long to import.
"""

import importlib
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING

if TYPE_CHECKING:  # polars is not needed to say which figures there are
    from analytics.definitions.results import Figure, Result


@cache
def figure_names() -> list[str]:
    """Every figure there is, in alphabetical order."""
    names = (entry.name for entry in files("analytics.figures").iterdir())
    return sorted(name.removesuffix(".py") for name in names if name.endswith(".py") and not name.startswith("_"))


@cache
def figure(name: str) -> "Figure":
    """The figure of this name."""
    found: Figure = importlib.import_module(f"analytics.figures.{name}").FIGURE
    return found


def result(name: str) -> "Result":
    """What the figure of this name answers with."""
    return figure(name).result


@cache
def explain(name: str) -> str:
    """How the figure is worked out, in words: the docstring of its module, which is not imported for it."""
    source = files("analytics.figures").joinpath(f"{name}.py").read_text(encoding="utf-8")
    return source.split('"""', 2)[1].strip()


def summary(name: str) -> str:
    """The first sentence of the explanation."""
    return explain(name).split(".")[0].replace("\n", " ") + "."
