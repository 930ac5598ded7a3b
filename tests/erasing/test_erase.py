"""A client who was erased stands nowhere, comes back with no old export, and every sum is as it was."""

import io
import itertools
import shutil
import tempfile
import zipfile
from collections.abc import Callable
from datetime import date
from pathlib import Path

import openpyxl
import polars as pl
import pytest
from salons import load_unchecked

from analytics.commands import erasing as command
from analytics.commands.cli import main
from analytics.erasing.erase import carry_out, find, go_on
from analytics.handover.accountant.folder import hand_over
from analytics.handover.accountant.period_names import named_period
from analytics.salon import open_salon
from analytics.storage import together
from analytics.storage.asked import NO_ANSWER, Mark, read_marks, write_mark
from analytics.storage.book import BOOK, read_book

AS_OF = date(2026, 11, 1)
HERS = ("Zora", "Quendel", "C1047", "73910465", "zora.q@post.example", "Lindenlaan")
BOOKINGS = "booking_id,client_id,client,stylist,starts_at,ends_at,status,service_id,price,remarks\n"
VISIT = 'B{0},{1},"{2}",Anna,2026-0{3}-03 10:00,2026-0{3}-03 11:00,completed,S1,{4},"{5}"\n'
CLIENTS = "client_id,client,phone,email,may_contact,street\n"


def bookings(first: int, last: int) -> str:
    """A visit a month of Zora's, and one of Milo's whose remark speaks of her."""
    rows = ""
    for month in range(first, last):
        rows += VISIT.format(f"Z{month}", "C1047", "Zora Quendel", month, 77, "likes tea, lives in Lindenlaan")
        rows += VISIT.format(f"M{month}", "C2", "Milo Vrantz", month, 40.5, "sister of ZORA  QUENDEL, 06-73910465")
    return BOOKINGS + rows


def sheet(rows: list[list[object]]) -> bytes:
    book = openpyxl.Workbook()
    for row in rows:
        book.active.append(row)
    book.active["A1"].comment = openpyxl.comments.Comment("ask Zora Quendel", "owner")
    content = io.BytesIO()
    book.save(content)
    return content.getvalue()


def ods(rows: list[list[str]]) -> bytes:
    cells = "".join(
        "<table:table-row>"
        + "".join(
            f'<table:table-cell office:value-type="string"><text:p>{text}</text:p></table:table-cell>' for text in row
        )
        + "</table:table-row>"
        for row in rows
    )
    names = "".join(
        f' xmlns:{name}="urn:oasis:names:tc:opendocument:xmlns:{name}:1.0"' for name in ("office", "table", "text")
    )
    xml = (
        f'<?xml version="1.0" encoding="UTF-8"?><office:document-content{names} office:version="1.2"><office:body>'
        f'<office:spreadsheet><table:table table:name="One">{cells}</table:table></office:spreadsheet></office:body>'
        "</office:document-content>"
    )
    kind = "application/vnd.oasis.opendocument.spreadsheet"
    manifest = (
        '<manifest:manifest xmlns:manifest="urn:oasis:names:tc:opendocument:xmlns:manifest:1.0">'
        f'<manifest:file-entry manifest:full-path="/" manifest:media-type="{kind}"/>'
        '<manifest:file-entry manifest:full-path="content.xml" manifest:media-type="text/xml"/></manifest:manifest>'
    )
    content = io.BytesIO()
    with zipfile.ZipFile(content, "w") as archive:
        archive.writestr("mimetype", kind)
        archive.writestr("content.xml", xml)
        archive.writestr("META-INF/manifest.xml", manifest)
    return content.getvalue()


def packed(files: dict[str, bytes]) -> bytes:
    content = io.BytesIO()
    with zipfile.ZipFile(content, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, inside in files.items():
            archive.writestr(name, inside)
    return content.getvalue()


def write(folder: Path, workbooks: bool) -> Path:
    """A salon whose exports are of every kind, with a mark and a list; workbooks, which take longer, where asked."""
    payments = "paid_at\tbooking_id\tclient\tmethod\tamount\r\n"
    payments += "".join(f"2026-0{month}-03 11:00\tBZ{month}\tQuendel, Zora\tcard\t77\r\n" for month in range(2, 8))
    sales = [["sold_at", "product_id", "quantity", "price", "tax_rate", "client_id", "Note"]]
    sales += [["2026-03-03 11:00", "P1", 1, 12.5, 21, "C1047", "gift for Zora Quendel's aunt in Lindenlaan"]]
    sales += [["2026-03-04 11:00", "P1", 2, 12.5, 21, "C2", "none"]]
    exports = {
        "menu.csv": b"service_id,service,kind,price,tax_rate,hands_on_min\nS1,Root touch-up,root_touch_up,77,21,45\n",
        "products.csv": b"product_id,product,kind,pack_g,pack_cost\nP1,Oil,retail,100,5\n",
        "old/bookings 1.csv": bookings(2, 5).encode(),
        "bookings 2.csv": b"\xef\xbb\xbf" + bookings(4, 8).replace("\n", "\r\n").replace(",", ";").encode(),
        "clients.csv": (
            CLIENTS + "C1047,Zora Quendel,+31 6 73910465,zora.q@post.example,yes,Lindenlaan 7\n"
            "C2,Milo Vrantz,+31 6 82640917,milo@post.example,yes,Kade 1\n"
        ).encode(),
        "payments.tsv": payments.encode(),
        "pack.zip": packed({"in/bookings.csv": bookings(3, 4).encode()}),
    }
    if workbooks:
        exports |= {
            "more.zip": packed({"in/sales.xlsx": sheet(sales), "in/deeper.zip": packed({"list.txt": b"Zora Quendel"})}),
            "clients old.ods": ods(
                [["client_id", "client", "phone"], ["C1047", "Zora Quendel", "0673910465"], ["C2", "Milo Vrantz", "1"]]
            ),
            "guests.xlsx": sheet([["Guests of the party"], ["Zora Quendel", "Lindenlaan 7"], ["Milo", "Kade 1"]]),
        }
    for name, content in exports.items():
        (folder / "exports" / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / "exports" / name).write_bytes(content)
    (folder / "salon.toml").write_text('[salon]\nname = "Kwartels"\n', "utf-8")
    (folder / "call-sheet.csv").write_text("client,phone\r\nZora Quendel,+31 6 73910465\r\nMilo Vrantz,1\r\n", "utf-8")
    load_unchecked(folder)
    for number in ("C1047", "C2"):
        write_mark(folder, Mark(date(2026, 10, 1), number, NO_ANSWER))
    return folder


@pytest.fixture(scope="module")
def written(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return write(tmp_path_factory.mktemp("written") / "kwartels", workbooks=False)


@pytest.fixture
def salon(written: Path, tmp_path: Path) -> Path:
    return Path(shutil.copytree(written, tmp_path / "kwartels"))


def erased(salon: Path, who: str = "C1047") -> None:
    carry_out(salon, find(salon, who), AS_OF, lambda: load_unchecked(salon))


def hits(folder: Path) -> list[str]:
    """Where anything of hers stands in the bytes of a file, those within archives and workbooks too."""
    return [f"{path}: {word}" for path in folder.rglob("*") if path.is_file() for word in _in(path.read_bytes())]


def _in(content: bytes) -> list[str]:
    found = [word for word in HERS for form in ("utf-8", "utf-16-le") if word.lower().encode(form) in content.lower()]
    if zipfile.is_zipfile(io.BytesIO(content)):
        with zipfile.ZipFile(io.BytesIO(content)) as archive:
            found += [word for name in archive.namelist() for word in [*_in(archive.read(name)), *_in(name.encode())]]
    return found


def sums(salon: Path) -> dict[str, pl.DataFrame]:
    opened = open_salon(salon, AS_OF)
    return {name: opened.figure(name) for name in ("tax", "takings", "revenue", "chairs", "month", "retail", "returns")}


def test_nothing_of_hers_is_left_of_any_kind_of_file_and_every_sum_stays(tmp_path: Path):
    check_erased(write(tmp_path / "kwartels", workbooks=True), "C1047")


def test_she_is_known_by_her_name_too(salon: Path):
    check_erased(salon, "zora  QUENDEL")


def check_erased(salon: Path, who: str) -> None:
    before = sums(salon)
    assert {word for hit in hits(salon) for word in HERS if hit.endswith(word)} == set(HERS)
    erased(salon, who)
    assert hits(salon) == []
    for name, frame in sums(salon).items():
        assert frame.equals(before[name]), name
    assert [mark.client_id for mark in read_marks(salon).marks] == ["C2"]
    book = read_book(salon)
    assert book.tables["clients"]["client"].to_list() == ["Milo Vrantz"]
    assert set(open_salon(salon, AS_OF).figure("roots")["client_id"]) == {"C2"}
    assert (salon / "erased.csv").read_text("utf-8").splitlines()[1].startswith("2026-11-01,")


def test_what_is_not_hers_stays_byte_for_byte(salon: Path):
    before = {path: path.read_bytes() for path in (salon / "exports").rglob("*.csv")}
    erased(salon)
    for path, content in before.items():
        old, new = content.split(b"\n"), path.read_bytes().split(b"\n")
        assert len(old) == len(new)
        assert all(
            a == b for a, b in zip(old, new, strict=True) if not any(w.lower().encode() in a.lower() for w in HERS)
        )


def test_an_old_export_does_not_bring_her_back(salon: Path):
    old = {path.name: path.read_bytes() for path in (salon / "exports").rglob("*") if path.is_file()}
    before = sums(salon)
    erased(salon)
    for name, content in old.items():
        (salon / "exports" / f"again {name}").write_bytes(content)
    report = load_unchecked(salon)
    named = report.findings.filter(code="erased_client")
    assert set(named["file"]) >= {"again bookings 1.csv", "again clients.csv", "again pack.zip/in/bookings.csv"}
    content = (salon / BOOK).read_bytes()
    assert not [word for word in HERS if word.encode() in content]
    for name, frame in sums(salon).items():
        assert frame.equals(before[name]), name
    carry_out(salon, find(salon, None), AS_OF, lambda: load_unchecked(salon))
    assert hits(salon) == []


def test_all_who_are_overdue_go_with_one_confirmation(salon: Path, capsys: pytest.CaptureFixture[str], monkeypatch):
    monkeypatch.setattr(command, "load_salon", load_unchecked)
    overdue = ["erase", "--overdue", "--salon", str(salon), "--today", "2029-07-03"]
    assert main(overdue) == 1 and "[keeping]" in capsys.readouterr().err
    with (salon / "salon.toml").open("a", encoding="utf-8") as settings:
        settings.write("[keeping]\nmonths_without_visit = 36\n")
    assert main([*overdue[:-1], "2029-07-02"]) == 0 and hits(salon)
    assert "Nobody has been unseen" in capsys.readouterr().out
    assert main(["check", "--salon", str(salon), "--today", "2029-07-03"]) == 0
    assert "2 clients were without a visit for 36 months or longer" in capsys.readouterr().err
    asked = []
    monkeypatch.setattr("builtins.input", lambda text: asked.append(text) or "yes")
    before = sums(salon)
    assert main(overdue) == 0
    said = capsys.readouterr().out
    assert "C1047, Zora Quendel: last seen 3 July 2026, 36 months ago" in said and "C2, Milo Vrantz" in said
    assert "local rules" in said and len(asked) == 1 and "these 2 clients" in asked[0]
    left = b"".join(path.read_bytes() for path in salon.rglob("*") if path.is_file() and path.suffix != ".zip")
    assert hits(salon) == [] and not [word for word in (b"Milo", b"Vrantz", b"82640917") if word in left]
    for name, frame in sums(salon).items():
        assert frame.equals(before[name]), name
    assert main(overdue) == 0 and "Nobody has been unseen" in capsys.readouterr().out


def test_a_closed_period_shows_no_correction(salon: Path):
    opened = open_salon(salon, AS_OF)
    hand_over(opened, named_period("2026-Q2"), key=None, close_it=True)
    erased(salon)
    after = hand_over(open_salon(salon, AS_OF), named_period("2026-Q3"), key=None, close_it=False)
    assert not [sentence for sentence in after.said if "correct" in sentence.lower()]
    assert hits(salon) == []


def test_killed_at_any_step_it_is_the_old_or_the_new(salon: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    """Stopped dead before each write and each move in turn; the next start goes on where it had begun to count."""
    kept, found = Path(shutil.copytree(salon, tmp_path / "kept")), find(salon, "C1047")
    outcomes = []
    for stop in range(1, 2 * len(found.new) + 3):
        with monkeypatch.context() as broken:
            stopping_at(stop, broken)
            with pytest.raises(KilledError):
                carry_out(salon, found, AS_OF, lambda: None)
        outcomes.append(go_on(salon, (salon / BOOK).unlink))
        if outcomes[-1]:
            assert hits(salon) == []
            shutil.rmtree(salon)
            shutil.copytree(kept, salon)
        else:
            assert bytes_of(salon) == bytes_of(kept)
        assert not (salon / ".erasing").exists()
    assert outcomes == sorted(outcomes) and len(set(outcomes)) == 2


class KilledError(BaseException):
    pass


def stopping_at(stop: int, broken: pytest.MonkeyPatch) -> None:
    """Whatever writes or moves a file dies at the step of this number."""
    steps = itertools.count(1)

    def counted(do: Callable[..., None]) -> Callable[..., None]:
        def step(*given: object) -> None:
            if next(steps) == stop:
                raise KilledError
            do(*given)

        return step

    for name in ("replace_private", "_moved"):
        broken.setattr(together, name, counted(getattr(together, name)))


def bytes_of(folder: Path) -> dict[str, bytes]:
    files = [path for path in folder.rglob("*") if path.is_file() and path.suffix != ".lock"]
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in files}


def test_the_command_shows_asks_and_tells_nobody(salon: Path, capsys: pytest.CaptureFixture[str], monkeypatch):
    monkeypatch.setattr(command, "load_salon", load_unchecked)
    (salon.parent / "temp").mkdir()
    monkeypatch.setattr(tempfile, "tempdir", str(salon.parent / "temp"))
    assert main(["erase", "C1047", "--dry-run", "--salon", str(salon)]) == 0
    said = capsys.readouterr().out
    assert "exports/clients.csv: export" in said and "asked.csv: marks on the call sheet, once" in said
    assert "exports/pack.zip" in said and "Nothing was changed." in said and hits(salon)
    monkeypatch.setattr("builtins.input", lambda _: "no")
    assert main(["erase", "C1047", "--salon", str(salon)]) == 1 and hits(salon)
    assert main(["erase", "nobody at all", "--yes", "--salon", str(salon)]) == 1
    assert "check how it is written" in capsys.readouterr().err
    assert main(["erase", "C1047", "--yes", "--salon", str(salon)]) == 0
    assert hits(salon) == [] and not [word for word in HERS if word in capsys.readouterr().out]
    assert list((salon.parent / "temp").iterdir()) == []
