"""A small salon with a client who is to be erased, in every kind of file; and where she stands in it."""

import io
import zipfile
from datetime import date
from pathlib import Path

import openpyxl
from salons import load_unchecked

from analytics.storage.asked import NO_ANSWER, Mark, write_mark

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


def hits(folder: Path) -> list[str]:
    """Where anything of hers stands in the bytes of a file, those within archives and workbooks too."""
    return [f"{path}: {word}" for path in folder.rglob("*") if path.is_file() for word in _in(path.read_bytes())]


def _in(content: bytes) -> list[str]:
    found = [word for word in HERS for form in ("utf-8", "utf-16-le") if word.lower().encode(form) in content.lower()]
    if zipfile.is_zipfile(io.BytesIO(content)):
        with zipfile.ZipFile(io.BytesIO(content)) as archive:
            found += [word for name in archive.namelist() for word in [*_in(archive.read(name)), *_in(name.encode())]]
    return found
