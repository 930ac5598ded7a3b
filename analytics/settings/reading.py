"""The text of salon.toml -> Settings; every mistake is one sentence that names the key."""

import tomllib
from decimal import Decimal
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from analytics.definitions.tables import SERVICE_KINDS
from analytics.settings.sections import Settings
from analytics.stops import WorkStopped

FILE_NAME = "salon.toml"


def _with_kinds(document: dict[str, Any]) -> dict[str, Any]:
    """Move [roots.<kind>] into by_kind, each kind starting from what [roots] itself says."""
    roots = document.get("roots")
    if not isinstance(roots, dict):
        return document
    if "by_kind" in roots:
        raise WorkStopped(f"{FILE_NAME}: [roots] by_kind is not a setting we know; write [roots.<kind>] instead.")
    common = {key: value for key, value in roots.items() if not isinstance(value, dict)}
    kinds = {key: value for key, value in roots.items() if isinstance(value, dict)}
    for kind in kinds:
        if kind not in SERVICE_KINDS:
            raise WorkStopped(
                f"{FILE_NAME}: [roots.{kind}] is not a kind of service; use one of {', '.join(SERVICE_KINDS)}."
            )
    by_kind = {kind: common | own for kind, own in kinds.items()}
    return document | {"roots": common | ({"by_kind": by_kind} if by_kind else {})}


def _sentence(error: ValidationError) -> str:
    """The first mistake as one sentence."""
    first = error.errors()[0]
    place = [str(part) for part in first["loc"] if part != "by_kind"]
    key = f"[{'.'.join(place[:-1])}] {place[-1]}" if len(place) > 1 else ".".join(place)
    key = f"{FILE_NAME}: {key}".rstrip(": ")
    if first["type"] == "extra_forbidden":
        return f"{key} is not a setting we know; check its spelling and section against the reference, or take it out."
    if first["type"] == "missing":
        return f'{key} is missing; write it, for example [salon] name = "My salon".'
    if first["type"] == "value_error":
        return f"{key}: {first['ctx']['error']}; correct it and run the command again."
    message = first["msg"][0].lower() + first["msg"][1:]
    return f"{key} is {first['input']!r}, but {message}; correct it and run the command again."


def parse_settings(text: str) -> Settings:
    """Settings from the text of salon.toml. Raises WorkStopped naming the key that is wrong."""
    try:
        document = tomllib.loads(text, parse_float=Decimal)
    except tomllib.TOMLDecodeError as error:
        raise WorkStopped(f"{FILE_NAME} cannot be read: {error}; correct that line.") from None
    try:
        return Settings(**_with_kinds(document))
    except ValidationError as error:
        raise WorkStopped(_sentence(error)) from None


def read_settings(folder: Path) -> Settings:
    """Settings of the salon in this folder. Raises WorkStopped where there is none or a key is wrong."""
    if not folder.is_dir():
        raise WorkStopped(f"There is no folder {folder}; name the salon's folder with --salon.")
    path = folder / FILE_NAME
    if not path.is_file():
        raise WorkStopped(
            f'{folder} has no {FILE_NAME}; write one with at least [salon] and name = "…", and put exports in exports/.'
        )
    try:
        return parse_settings(path.read_text(encoding="utf-8-sig"))
    except UnicodeDecodeError:
        raise WorkStopped(f"{FILE_NAME} is not UTF-8 text; save it as UTF-8.") from None
    except OSError as error:
        raise WorkStopped(f"{path} cannot be opened ({error.strerror}); check its rights.") from None
