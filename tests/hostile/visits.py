"""Requests that no page of ours sends: odd methods, addresses, heads, bodies and fields on every route."""

from __future__ import annotations

import json
import random
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any
from urllib.parse import quote

if TYPE_CHECKING:
    from collections.abc import Iterator

JSON_HEAD = {"content-type": "application/json"}
METHODS = ("GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "OPTIONS", "TRACE", "BREW", "PROPFIND")
ODD_WORDS = (
    "..",
    ".",
    "%2e%2e%2fetc",
    "%00",
    "%ff",
    "\u00fc",
    "%F0%9F%8C%B3",
    "1" * 70,
    "-1",
    "0",
    "9" * 20,
    "a%0d%0aX:%20y",
    "a%2Fb",
    "null",
    "{job}",
    "'",
    "%",
    "a b",
    "levels",
)
BODIES = {
    "nothing": b"",
    "half": b"{",
    "list": b"[]",
    "words": b'"a"',
    "null": b"null",
    "number": b"1",
    "empty": b"{}",
    "deep lists": b"[" * 90_000,
    "deep tables": b'{"a":' * 2_000 + b"1" + b"}" * 2_000,
    "deep within": b'{"document":' + b"[" * 5_000 + b"]" * 5_000 + b"}",
    "1e999": b'{"document": {"x": 1e999}, "rev": 1e999, "given": {"a": 1e999}}',
    "nan": b'{"document": {"x": NaN}, "rev": NaN}',
    "5000 figures": b'{"document": {"x": ' + b"1" * 5000 + b'}, "rev": ' + b"9" * 5000 + b"}",
    "half a sign": b'{"document": {"x": "\\ud83d"}, "title": "\\ud83d", "note": "\\udc00", "name": "\\ud83d", "id": "\\ud83d"}',
    "half a sign for a field": b'{"\\ud83d": 1, "document": {"\\ud83d": 1}}',
    "nul": b'{"title": "\\u0000", "note": "\\u0000", "document": {"\\u0000": "\\u0000"}, "rev": 1}',
    "twice": b'{"rev": 1, "rev": 2, "document": {"a": 1, "a": 2}}',
    "utf-16": '{"rev": 1}'.encode("utf-16"),
    "utf-32": '{"rev": 1}'.encode("utf-32"),
    "latin": b'{"title": "\xfc"}',
    "bom": b"\xef\xbb\xbf{}",
    "noise": random.Random(1).randbytes(3000),
    "many fields": b'{"document": {' + b",".join(b'"k%d": 1' % n for n in range(20_000)) + b'}, "rev": 1}',
    "wide": b'{"document": {"areas": [' + b"0," * 100_000 + b"0]}}",
    "no job": b'{"format": "pavewright.job", "version": 1}',
    "a job of another time": b'{"format": "pavewright.job", "version": 99999999999999999999}',
    "version in words": b'{"format": "pavewright.job", "version": "1"}',
    "version in a list": b'{"format": "pavewright.job", "version": [1], "areas": {}, "measurements": [], "site": 3}',
    "format in a list": b'{"format": ["pavewright.job"], "version": 1}',
    "parts of another kind": b'{"format": "pavewright.job", "version": 1, "identity": [], "measurements": {"points": {}, "tape_plan": [1]}, "site": {"walls": 3}, "areas": [3, null, [], {}], "units": "x", "rates": 0, "crew": null, "calendar": [[]]}',
}  # fmt: skip
ODD_VALUES: tuple[Any, ...] = (
    None,
    True,
    -1,
    0,
    1.5,
    1e12,
    -1e300,
    10**40,
    "",
    "x",
    "x" * 70_000,
    "\u0000",
    "\u202e=1+1",
    [],
    [[]],
    {},
    {"a": {"b": [None]}},
    [None, 1, "a"],
)
FIELDS: dict[tuple[str, str], dict[str, Any]] = {
    ("POST", "/api/jobs"): {"title": "T", "copy_of": "x", "document": {}, "start_from": "demo"},
    ("PUT", "/api/jobs/{job}"): {"rev": 1, "document": {}, "note": "n"},
    ("POST", "/api/jobs/{job}/archived"): {"archived": False},
    ("POST", "/api/sums"): {"name": "fall", "given": {"run_mm": 3000.0, "one_in": 60.0}},
    ("POST", "/api/changes"): {"before": {}, "after": {}},
    ("POST", "/api/long-tasks"): {"verb": "storm", "document": {}, "rain_mm_per_h": 75.0, "minutes": 5.0, "cell_mm": 100.0},
    ("POST", "/api/jobs/{job}/deliveries"): {"id": "d1", "kind": "tapes", "entries": [{}], "date": "2027-06-01", "deliveries": [{}], "job": "x"},
}  # fmt: skip
ENTRIES: dict[str, dict[str, Any]] = {
    "tapes": {"start": "A", "end": "B", "length_mm": 3000.0, "side": {"point": "A", "line_from": "B", "line_to": "C", "side": "left"}},
    "staff": {"book": "Book", "point": "A", "reading_mm": 1400.0, "sight": "first", "setup": 1},
    "level_by_datum": {"book": "Other", "datum": "BM", "point": "A", "by_mm": 20.0, "way": "lower"},
    "as_laid": {"area": "Terrace", "x_mm": 1.0, "y_mm": 2.0, "level_mm": 3.0, "label": "a"},
    "walk_round": {"question": "Where?", "answer": "value", "value": "Here"},
    "take_back": {"of": "tapes", "entry": {"start": "A", "end": "B", "length_mm": 3000.0}},
}  # fmt: skip
STORED: tuple[Any, ...] = (
    {},
    {"format": "pavewright.job"},
    {"measurements": 3, "site": 3, "areas": 3, "as_laid": 3},
    {"measurements": {"tape_plan": 3, "level_books": 3}, "site": {"walk_round": 3}, "areas": [3], "as_laid": {"readings": 3}},
    {"measurements": {"tape_plan": {"tapes": 3, "sides": [3]}, "level_books": [3]}, "site": {"walk_round": [3]}, "areas": {}, "as_laid": {"readings": [3]}},
    {"format": "pavewright.job", "version": 1, "identity": {"title": ["a"]}, "measurements": {"level_books": [{"rows": 3}, {"rows": [3]}, {"name": "Book", "rows": [{"point": 1}]}]}},
)  # fmt: skip
HEADS = (
    {"host": ""}, {"host": "["}, {"host": "[::1"}, {"host": "[::1]:x"}, {"host": "127.0.0.1:99999999"}, {"host": "a" * 9000}, {"host": "127.0.0.1\u00fc".encode("latin-1")},
    {"origin": "http://[::1"}, {"origin": "http://["}, {"origin": "null"}, {"origin": ""}, {"origin": "\\"}, {"origin": b"\xff"}, {"origin": "http://a:b:c"}, {"origin": "http://" + "x" * 9000},
    {"content-length": "-1"}, {"content-length": "nan"}, {"content-length": "9" * 400}, {"content-length": "9" * 5000}, {"content-length": ""}, {"content-length": "1_0"}, {"content-length": "\u0661".encode()},
    {"content-type": ""}, {"content-type": "application/json; charset=utf-16"}, {"content-type": b"\xff"}, {"content-type": "application/jsonx"}, {"content-type": ";" * 5000},
    {"sec-fetch-site": "?"}, {"cookie": "a=b; " * 1000}, {"range": "bytes=9-1"}, {"if-none-match": '"'}, {"accept": "*/*;q=nan"}, {"accept-encoding": "x"}, {"transfer-encoding": "chunked"}, {"expect": "100-continue"},
    {"x-forwarded-host": "evil.example", "forwarded": "host=evil.example"},
)  # fmt: skip
PHOTO_PLACES = (
    "x_mm=nan&y_mm=1",
    "x_mm=1e999&y_mm=1",
    "x_mm=1",
    "x_mm=&y_mm=",
    "x_mm=a&y_mm=b",
    "x_mm=1e8&y_mm=0",
    "note=" + "x" * 400,
    "note=%00",
    "note=%ED%A0%80",
    "",
)


@dataclass(frozen=True)
class Visit:
    """One request."""

    name: str
    method: str
    path: str
    content: bytes = b""
    headers: dict[str, Any] = field(default_factory=lambda: dict(JSON_HEAD))


def addresses(routes: Any) -> list[tuple[str, str]]:
    """Return every method and address of an application."""
    found = [(method, route.path) for route in routes for method in sorted(route.methods or ())]
    return [(method, path.replace("{rev:int}", "{rev}").replace(":path}", "}")) for method, path in found]


def _filled(path: str, job: str, word: str | None = None) -> str:
    for name in ("{job}", "{long_task}", "{photo}", "{name}", "{path}", "{rev}"):
        known = {"{job}": job, "{name}": "levels", "{rev}": "1"}.get(name, "x")
        path = path.replace(name, known if word is None else word)
    return path


def _sent(name: str, method: str, path: str, value: Any) -> Visit:
    return Visit(name, method, path, json.dumps(value).encode())


def by_method_and_address(routes: Any, job: str) -> Iterator[Visit]:
    """Give every address with every method, and with every odd word in its places."""
    paths = sorted({path for _, path in addresses(routes)})
    for path in paths:
        yield from (Visit(f"{method} {path}", method, _filled(path, job)) for method in METHODS)
    for method, path in addresses(routes):
        if "{" in path:
            yield from (Visit(f"{method} {path} {word[:20]}", method, _filled(path, job, word)) for word in ODD_WORDS)
    for rev in ("0", "-1", "2147483647", "2147483648", "9" * 30, "1.0", "\u0661"):
        yield Visit(f"revision {rev}", "GET", f"/api/jobs/{job}/revisions/{rev}")
    for words in ("%", "%25_", "\u202e", "%00", "%ED%A0%80", "x" * 3000, "'; drop table jobs; --"):
        yield Visit(f"list {words[:20]}", "GET", f"/api/jobs?words={words}&archived=2")


def by_body(routes: Any, job: str) -> Iterator[Visit]:
    """Give every address that takes something with every odd body, and with every odd value in each field."""
    for method, path in addresses(routes):
        if method in {"POST", "PUT"}:
            query = "?id=p1" if path.endswith("/photos") else ""
            for name, body in BODIES.items():
                yield Visit(f"{method} {path} {name}", method, _filled(path, job) + query, body)
    for (method, path), sound in FIELDS.items():
        for name in sound:
            for value in ODD_VALUES:
                # a long task of a whole job would be work, and is tried by itself
                rest = {
                    key: each
                    for key, each in sound.items()
                    if key not in {"copy_of", "document", "deliveries"} or path == "/api/long-tasks"
                }
                if path == "/api/jobs":
                    rest = {}
                yield _sent(
                    f"{method} {path} {name} = {value!r:.30}", method, _filled(path, job), {**rest, name: value}
                )


def deliveries(job: str, count: int = 1) -> Iterator[Visit]:
    """Give deliveries with every odd value in each field of each kind of entry."""
    number = 0
    for kind, sound in ENTRIES.items():
        for name in (*sound, "more"):
            for value in ODD_VALUES[::count]:
                number += 1
                body = {
                    "id": f"odd-{job[:8]}-{number}",
                    "kind": kind,
                    "entries": [{**sound, name: value}],
                    "date": "2027-06-01",
                }
                yield _sent(f"{kind} {name} = {value!r:.30}", "POST", f"/api/jobs/{job}/deliveries", body)
        body = {"id": f"whole-{job[:8]}-{kind}", "kind": kind, "entries": [sound], "date": "2027-02-30"}
        yield _sent(f"{kind} on a day that is none", "POST", f"/api/jobs/{job}/deliveries", body)


def by_head(job: str) -> Iterator[Visit]:
    """Give odd heads on a page, a read and a change."""
    for head in HEADS:
        words = f"{head!r:.60}"
        yield Visit(f"page {words}", "GET", "/", headers=head)
        yield Visit(f"read {words}", "GET", f"/api/jobs/{job}", headers=head)
        yield Visit(
            f"change {words}", "POST", f"/api/jobs/{job}/archived", b'{"archived": false}', {**JSON_HEAD, **head}
        )


def photos(job: str) -> Iterator[Visit]:
    """Give pictures that are none, and places that are nowhere."""
    bombs = (
        b"",
        b"\xff\xd8\xff",
        b"GIF89a" + b"\xff" * 200,
        b"\x89PNG\r\n\x1a\n" + bytes(100),
        b"<svg/>",
        b"BM" + b"\xff" * 100,
    )
    for number, picture in enumerate(bombs):
        yield Visit(
            f"picture {number}",
            "POST",
            f"/api/jobs/{job}/photos?id=odd{number}",
            picture,
            {"content-type": "image/jpeg"},
        )
    for number, place in enumerate(PHOTO_PLACES):
        yield Visit(f"photo at {place[:20]}", "POST", f"/api/jobs/{job}/photos?id=place{number}&{place}", b"x")
    yield Visit("photo without a name", "POST", f"/api/jobs/{job}/photos", b"x")


ASKED = ("", "{", "null", "[]", "1", '{"kind":["las"]}', '{"kind":{"a":1}}', '{"kind":null}', '{"kind":"\\ud83d"}', '{"kind":"csv","order":["name"],"unit":{}}',
         '{"kind":"las","cell_mm":1e999}', '{"kind":"las","cell_mm":NaN,"every_mm":-1}', '{"kind":"dxf","layers":{"a":1}}', "[" * 3000, '{"kind":"csv","order":"' + "x," * 800 + '"}', '{"kind":"' + "9" * 5000 + '"}')  # fmt: skip


def kinds_of_files() -> Iterator[Visit]:
    """Give what is said of a file, said oddly."""
    for asked in ASKED:
        yield Visit(f"file asked {asked[:40]}", "POST", f"/api/files?asked={quote(asked)}", b"A,1,2,3\n", {})
