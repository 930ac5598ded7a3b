"""Which figures there are and what they say of themselves, read from figures/ without importing them.

There is no list to keep: a module in figures/ is a figure, a command and a page's explanation.
"""

import ast
from functools import cache
from importlib.resources import files


@cache
def _module(name: str) -> ast.Module:
    return ast.parse(files("analytics.figures").joinpath(f"{name}.py").read_text(encoding="utf-8"))


def figure_names() -> list[str]:
    """Every figure there is, in alphabetical order."""
    names = (entry.name for entry in files("analytics.figures").iterdir())
    return sorted(name.removesuffix(".py") for name in names if name.endswith(".py") and not name.startswith("_"))


def explain(name: str) -> str:
    """How the figure is worked out, in words."""
    return ast.get_docstring(_module(name)) or ""


def summary(name: str) -> str:
    """The first sentence of the explanation."""
    return explain(name).split(".")[0].replace("\n", " ") + "."


def takes(name: str, parameter: str) -> bool:
    """Whether the figure's function has a parameter of this name."""
    functions = [node for node in _module(name).body if isinstance(node, ast.FunctionDef) and node.name == name]
    return any(argument.arg == parameter for node in functions for argument in node.args.args + node.args.kwonlyargs)
