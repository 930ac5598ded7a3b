"""A file dropped on a small salon, and how it would be read."""

from pathlib import Path

from analytics.storage.keeping import Chosen, Entries

DUTCH = (
    "Datum;Tijd;Boekingsnr;Klant;Behandeling;Status;Prijs;Duur\n"
    "13-3-2026;9:30;B7;Els;Root touch-up;Voltooid;84,50;45 min\n"
)


NO_PRICE = DUTCH.replace("Prijs", "Kassa")


def dropped(tmp_path: Path, content: str | bytes, name: str = "dropped") -> Path:
    path = tmp_path / name
    path.write_bytes(content if isinstance(content, bytes) else content.encode())
    return path


def of_bookings(headings: Entries) -> Chosen:
    return Chosen(columns={"bookings": headings})


def everything_in(folder: Path) -> dict[str, bytes | None]:
    return {str(path): path.read_bytes() if path.is_file() else None for path in sorted(folder.rglob("*"))}
