"""What may be sent, by kind: no byte more than the table says, of a content that is looked at, and on every route."""

from __future__ import annotations

import io
import itertools
from dataclasses import replace
from pathlib import Path

import pytest
from openpyxl import Workbook
from PIL import Image

from pavewright.desk import LOGO_PIXELS_MAX, PHOTO_PIXELS_MAX
from pavewright.web._uploads import LIMITS, Content, Kind, addresses, as_table, content_of, kind_at, refusal_of, shown

ROOT = Path(__file__).resolve().parents[3]
NAMES = (f"p{number}" for number in itertools.count())
FILES = [kind for kind, limit in LIMITS.items() if limit.is_file]
BYTES = {"Content-Type": "application/octet-stream"}
AS_KIND = "?asked=%7B%22kind%22:%22{}%22%7D"
OF_SUPPLIER = "?asked=%7B%22supplier%22:%22A%22,%22on%22:%222027-06-01%22%7D"
SAMPLES = {
    Content.JPEG: b"\xff\xd8\xff\xe0\x00\x10JFIF\x00",
    Content.PNG: b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR",
    Content.WEBP: b"RIFF\x24\x00\x00\x00WEBPVP8 ",
    Content.ZIP: b"PK\x03\x04\x14\x00\x00\x00",
    Content.OLD_BOOK: b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1\x00",
    Content.LAS: b"LASF\x00\x00\x00\x00",
    Content.PLY: b"ply\nformat binary_little_endian 1.0\nend_header\n\x00\x01",
    Content.BINARY_DXF: b"AutoCAD Binary DXF\r\n\x1a\x00\x00\x00",
    Content.SQLITE: b"SQLite format 3\x00\x10\x00",
    Content.TEXT: b"ply,thickness\n1,20\n",
    Content.OTHER: b"\x7fELF\x02\x01\x01\x00",
}
NOT_A_FILE_OF = {
    Kind.PHOTO: SAMPLES[Content.OTHER],
    Kind.LOGO: SAMPLES[Content.WEBP],
    Kind.PRICES: SAMPLES[Content.JPEG],
    Kind.POINTS: SAMPLES[Content.SQLITE],
    Kind.WEATHER: SAMPLES[Content.ZIP],
    Kind.STAMP: SAMPLES[Content.JPEG],
    Kind.BACKUP: SAMPLES[Content.TEXT],
}


def routes_that_take(client):
    """Every route that may be sent something."""
    found = [(method, route.path) for route in client.app.routes for method in route.methods - {"GET", "HEAD"}]
    return sorted(found, key=lambda each: (each[0] == "DELETE", each))


def filled(path, job):
    """An address of a route with something in each of its places."""
    parts = [{"{job}": job}.get(part, "x" if "{" in part else part) for part in path.split("/")]
    return "/".join(parts)


def address_of(kind, job):
    """An address at which a file of a kind is sent, with what has to stand in it."""
    asked = {Kind.PHOTO: f"?id={next(NAMES)}", Kind.POINTS: AS_KIND.format("csv"), Kind.PRICES: OF_SUPPLIER}
    found = next(path for path, each in addresses().items() if each is kind)
    return found.replace("{}", job) + asked.get(kind, "")


@pytest.fixture
def small(monkeypatch):
    """Every kind may hold a thousand bytes."""
    for kind, limit in list(LIMITS.items()):
        monkeypatch.setitem(LIMITS, kind, replace(limit, max_bytes=1_000))
    return 1_000


def test_every_route_that_takes_something_has_the_limit_of_its_kind_before_a_byte_is_read(client, demo):
    routes = routes_that_take(client)
    assert len(routes) > 80
    for method, path in routes:
        address = filled(path, demo)
        limit = LIMITS[kind_at(address)].max_bytes
        refused = client.request(method, address, headers={"content-length": str(limit + 1)})
        assert refused.status_code == 413, (method, path)
        assert refused.json()["message"].endswith(f"may hold {shown(limit)}."), (method, path)


def test_what_comes_without_its_length_is_read_no_further_than_its_limit_on_any_route(client, small, demo):
    read_to_the_end = set()
    for method, path in routes_that_take(client):
        taken, status = streamed(client, method, filled(path, demo), small)
        assert taken <= small + 100, (method, path)
        assert status != 500, (method, path)
        if status == 413:
            read_to_the_end.add(path)
    for kind in FILES:
        assert address_of(kind, "{job}").partition("?")[0] in read_to_the_end, kind
    assert len(read_to_the_end) > 30


def streamed(client, method, path, limit):
    """Send ten times a limit in pieces; return how many bytes were taken, and the status of the answer."""
    kind = kind_at(path)
    form, json_ = "application/x-www-form-urlencoded", "application/json"
    content_type = form if kind is Kind.FORM else json_ if kind is Kind.CHANGE else "application/octet-stream"
    known = {Kind.PHOTO: b"id=big", Kind.POINTS: b"asked={}", Kind.PRICES: b"asked={}"}
    scope = {
        "type": "http", "asgi": {"version": "3.0", "spec_version": "2.3"}, "http_version": "1.1", "method": method,
        "scheme": "http", "path": path, "raw_path": path.encode(), "query_string": known.get(kind, b""), "root_path": "",
        "headers": [(b"host", b"127.0.0.1"), (b"content-type", content_type.encode())],
        "client": ("127.0.0.1", 4), "server": ("127.0.0.1", 80), "state": {},
    }  # fmt: skip
    taken, statuses = [], []

    async def receive():
        taken.append(100)
        return {"type": "http.request", "body": SAMPLES_OF[kind], "more_body": sum(taken) < 10 * limit}

    async def send(message):
        statuses.append(message.get("status"))

    client.portal.call(client.app, scope, receive, send)
    return sum(taken), statuses[0]


SAMPLES_OF = {
    kind: (SAMPLES[limit.takes[0]] if limit.takes else b" ").ljust(100, b" ") for kind, limit in LIMITS.items()
}


def test_every_address_of_the_table_is_a_route(client):
    routes = {filled(path, "{}").replace("/x", "/{}") for _, path in routes_that_take(client)}
    assert {path for path in addresses() if path != "/pair/{}"} <= routes | {"/pair"}


@pytest.mark.parametrize("kind", FILES)
def test_a_byte_more_than_a_kind_may_hold_is_refused_and_the_last_one_that_it_may_hold_is_not(
    client, demo, small, kind
):
    beginning = SAMPLES[LIMITS[kind].takes[0]]
    statuses = {}
    for size in (small, small + 1):
        sent = client.post(address_of(kind, demo), content=beginning.ljust(size, b" "), headers=BYTES)
        statuses[size] = sent.status_code
    assert sent.json()["message"].startswith("That is more than is taken at once: ")
    assert (statuses[small] not in {413, 500}, statuses[small + 1]) == (True, 413)


@pytest.mark.parametrize("kind", NOT_A_FILE_OF)
def test_another_content_is_refused_whatever_it_is_called(client, demo, kind):
    called = {"Content-Type": "application/octet-stream" if kind is Kind.BACKUP else "image/jpeg"}
    refused = client.post(address_of(kind, demo), content=NOT_A_FILE_OF[kind], headers=called)
    assert refused.status_code == 415
    takes = " or ".join(each.value for each in LIMITS[kind].takes)
    assert refused.json()["message"].endswith(f"by its content: it has to be {takes}.")
    assert client.get(f"/api/jobs/{demo}/photos").json()["photos"] == []


def test_each_content_is_known_by_how_it_begins():
    assert {content: content_of(sample) for content, sample in SAMPLES.items()} == {each: each for each in Content}
    wide = "Löß;1,20\r\n".encode("utf-16")
    assert content_of(wide) is content_of("Löß;1,20".encode("cp1252")) is content_of(b"\xef\xbb\xbfa,b") is Content.TEXT


def test_every_kind_takes_what_its_table_says_and_nothing_else():
    for kind in FILES:
        limit = LIMITS[kind]
        let_in = {content for content, sample in SAMPLES.items() if refusal_of(kind, sample) is None}
        assert let_in == {*limit.takes, *limit.explained}, kind


def test_a_price_list_may_be_a_workbook_at_both_its_addresses(client, demo):
    book = Workbook()
    for row in (("Goods", "Unit", "Price"), ("Slab 600 x 600 (invented)", "each", 9.5)):
        book.active.append(row)
    out = io.BytesIO()
    book.save(out)
    for path in ("/api/firm/prices" + OF_SUPPLIER, "/api/files" + AS_KIND.format("prices")):
        assert client.post(path, content=out.getvalue()).status_code == 200, path


def test_what_a_reader_explains_better_is_left_to_it(client):
    asked = "/api/files" + AS_KIND.format("dxf")
    told = client.post(asked, content=SAMPLES[Content.BINARY_DXF].ljust(300, b"\x00"))
    assert (told.status_code, "text DXF" in told.json()["message"]) == (422, True)
    told = client.post("/api/firm/prices" + OF_SUPPLIER, content=SAMPLES[Content.OLD_BOOK].ljust(600, b"\x00"))
    assert (told.status_code, "old kind" in told.json()["message"]) == (422, True)


def test_a_backup_that_comes_in_small_pieces_is_known(client, tmp_path):
    backup = client.get("/api/backup").content

    def pieces():
        yield from (backup[at : at + 1] for at in range(20))
        yield backup[20:]

    assert client.post("/api/restore", content=pieces(), headers=BYTES).status_code == 200


@pytest.mark.parametrize(
    ("kind", "most", "side"), [(Kind.PHOTO, PHOTO_PIXELS_MAX, 8_000), (Kind.LOGO, LOGO_PIXELS_MAX, 8_000)]
)
def test_a_picture_of_more_pixels_than_its_kind_may_have_is_refused(client, demo, kind, most, side):
    assert LIMITS[kind].max_pixels == most
    statuses = []
    for rows in (most // side, most // side + 1):
        out = io.BytesIO()
        Image.new("1", (side, rows)).save(out, "PNG")
        sent = client.post(address_of(kind, demo), content=out.getvalue())
        statuses.append(sent.status_code)
    assert statuses == [201 if kind is Kind.PHOTO else 200, 422]
    assert "more pixels" in sent.json()["message"]


def test_the_page_shows_the_table():
    assert as_table() in (ROOT / "docs" / "operating.md").read_text("utf-8")
