"""Files that nobody means well by: cut short, lying about themselves, endless, or plain noise. Made anew on each run."""

from __future__ import annotations

import io
import json
import struct
from dataclasses import dataclass, field
from typing import Any

import laspy
import numpy as np

from pavewright.files import ReadLine, ReadPoint, write_dxf_points


@dataclass(frozen=True)
class Hostile:
    """A file, how it is called, and what is said of it when it is read."""

    name: str
    content: bytes
    asked: dict[str, Any] = field(default_factory=dict)
    refused: str | None = None
    """Words that its refusal has to hold; None where any answer in words will do."""

    @property
    def apart(self) -> bool:
        """Whether it may end the process that reads it, by its memory or its time."""
        return self.name in _ALONE or self.name.startswith("laz ")


ORDER = {"kind": "csv", "order": "name,east,north,level", "unit": "m"}
GEO = {"kind": "geojson", "unit": "m"}
XML = {"kind": "landxml"}
LAS = {"kind": "las"}
PLY = {"kind": "ply", "unit": "m"}

_ALONE = frozenset(
    {
        "las of 2^32 - 1 points",
        "las 2^32 - 1 records before",
        "ply of 10^11 points",
        "landxml nested surfaces",
        "landxml deep",
    }
)


def las(count: int = 500, *, laz: bool = False) -> bytes:
    """Return a sound cloud."""
    header = laspy.LasHeader(point_format=3, version="1.2")
    header.scales, header.offsets = np.array([0.001] * 3), np.zeros(3)
    cloud = laspy.LasData(header)
    dice = np.random.default_rng(3)
    cloud.x, cloud.y, cloud.z = dice.uniform(0.0, 3.0, (3, count))
    stream = io.BytesIO()
    cloud.write(stream, do_compress=laz)
    return stream.getvalue()


def dxf() -> bytes:
    """Return a sound drawing."""
    points = tuple(ReadPoint(name, x, y, 9900.0, "") for name, x, y in (("K1", 0.0, 0.0), ("K2", 4000.0, 0.0)))
    return write_dxf_points(points, (ReadLine("KERB", ("K1", "K2"), closed=False),))


def with_entity(*tags: object) -> bytes:
    """Return a sound drawing with one more thing in it, given as its tags."""
    lines = "".join(f"{tag}\n" for tag in tags)
    head, mark, tail = dxf().decode("utf-8").partition("ENTITIES\n")
    return f"{head}{mark}{lines}{tail}".encode("utf-8", "surrogateescape")


def patched(content: bytes, at: int, form: str, *values: float) -> bytes:
    """Return content with values written over it."""
    part = struct.pack(form, *values)
    return content[:at] + part + content[at + len(part) :]


def drawings() -> list[Hostile]:
    """Return DXF drawings."""
    layer = {"kind": "dxf", "unit": "mm", "layers": ["X"]}
    circle = ("0", "CIRCLE", "8", "X", "10", "0.0", "20", "0.0", "40")
    mesh = (
        "0", "POLYLINE", "8", "X", "66", "1", "70", "16", "71", "2", "72", "2",
        *(part for x, y in ((0, 0), (0, 1000), (1000, 0), (1000, 1000)) for part in ("0", "VERTEX", "8", "X", "10", f"{x}.0", "20", f"{y}.0", "30", "5.0", "70", "64")),
        "0", "SEQEND",
    )  # fmt: skip
    bulge = (
        "0",
        "LWPOLYLINE",
        "8",
        "X",
        "90",
        "2",
        "70",
        "0",
        "10",
        "0.0",
        "20",
        "0.0",
        "42",
        "1e15",
        "10",
        "1.0",
        "20",
        "0.0",
    )
    whole = dxf()
    found = [
        Hostile("circle of 1e15", with_entity(*circle, "1e15"), layer, "100 km"),
        Hostile("circle of inf", with_entity(*circle, "inf"), layer),
        Hostile("circle of nothing", with_entity(*circle, "0.0"), layer),
        Hostile("circle below nothing", with_entity(*circle, "-500.0"), layer),
        Hostile("bulge of 1e15", with_entity(*bulge), layer),
        Hostile("mesh", with_entity(*mesh), layer),
        Hostile(
            "latin layer",
            with_entity("0", "POINT", "8", "M\udcfcll", "10", "1.0", "20", "2.0"),
            {"kind": "dxf", "unit": "mm", "layers": ["Müll"]},
        ),
        Hostile("far point", with_entity("0", "POINT", "8", "X", "10", "1e300", "20", "2.0"), layer, "100 km"),
        Hostile("point of words", with_entity("0", "POINT", "8", "X", "10", "abc", "20", "2.0"), layer),
        Hostile("layers of numbers", whole, {"kind": "dxf", "unit": "mm", "layers": [1, None, {}]}),
        Hostile("layers of words", whole, {"kind": "dxf", "layers": "KERB"}),
        Hostile("binary", b"AutoCAD Binary DXF\r\n\x1a\x00" + bytes(200), {"kind": "dxf"}, "binary"),
        Hostile("end only", b"0\nEOF\n", {"kind": "dxf"}),
        Hostile("nothing", b"", {"kind": "dxf"}, "not a DXF drawing"),
        Hostile("zeros", bytes(5000) + b"EOF", {"kind": "dxf"}),
    ]
    found += [
        Hostile(f"cut at {share}, {'an end' if tail else 'no end'}", whole[: len(whole) * share // 10] + tail, layer)
        for share in range(1, 10, 2)
        for tail in (b"", b"\n  0\nEOF\n")
    ]
    return [Hostile(f"dxf {each.name}", each.content, each.asked, each.refused) for each in found]


def clouds() -> list[Hostile]:
    """Return LAS, LAZ and PLY clouds."""
    plain, packed = las(), las(laz=True)
    record = 34
    start = struct.unpack_from("<I", plain, 96)[0]
    packed_start = struct.unpack_from("<I", packed, 96)[0]
    found = [
        Hostile("las of 2^32 - 1 points", patched(plain, 107, "<I", 2**32 - 1), LAS, "its end is missing"),
        Hostile("las cut between points", plain[: start + 250 * record], LAS, "the file ends after 250"),
        Hostile("las cut within a point", plain[: start + 250 * record + 7], LAS, "its end is missing"),
        Hostile("las head only", plain[:start], LAS),
        Hostile("las half a head", plain[:100], LAS, "cannot be read"),
        Hostile("las scale 1e-300", patched(plain, 131, "<3d", 1e-300, 1e-300, 1e-300), LAS, "cannot be read"),
        Hostile("las scale 1e300", patched(plain, 131, "<3d", 1e300, 1e300, 1e300), LAS, "cannot be read"),
        Hostile("las scale nan", patched(plain, 131, "<3d", *[float("nan")] * 3), LAS, "cannot be read"),
        Hostile("las scale below nothing", patched(plain, 131, "<3d", -1.0, -1.0, -1.0), LAS, "cannot be read"),
        Hostile("las offset 1e308", patched(plain, 155, "<3d", 1e308, 1e308, 1e308), LAS, "cannot be read"),
        Hostile("las record of nothing", patched(plain, 105, "<H", 0), LAS),
        Hostile("las format 127", patched(plain, 104, "<B", 127), LAS),
        Hostile("las data past the end", patched(plain, 96, "<I", 2**32 - 1), LAS),
        Hostile("las 2^32 - 1 records before", patched(plain, 100, "<I", 2**32 - 1), LAS),
        Hostile("laz of 2^32 - 1 points", patched(packed, 107, "<I", 2**32 - 1), LAS),
        Hostile("laz chunk table far off", patched(packed, packed_start, "<q", 2**62), LAS),
        Hostile("laz chunk table at nothing", patched(packed, packed_start, "<q", 0), LAS),
        Hostile("laz noise", packed[: packed_start + 8] + np.random.default_rng(1).bytes(4000), LAS),
        Hostile("laz cut", packed[: len(packed) // 2], LAS),
        Hostile("las marks of 1e308", plain, LAS | {"marks": [{part: dict.fromkeys(("x_mm", "y_mm", "level_mm"), 1e308) for part in ("cloud", "site")}] * 3}, "100 km"),
        Hostile("las marks of words", plain, LAS | {"marks": [{"cloud": {"x_mm": "a"}, "site": {}}]}),
        Hostile("las marks all in one place", plain, LAS | {"marks": [{part: {"x_mm": 1, "y_mm": 1, "level_mm": 1} for part in ("cloud", "site")}] * 3}),
        Hostile("las cells of 1e9", plain, LAS | {"cell_mm": 1e9}),
        Hostile("las a spot every 1e-9", plain, LAS | {"every_mm": 1e-9}),
        Hostile("ply of 10^11 points", b"ply\nformat ascii 1.0\nelement vertex 99999999999\nproperty float x\nproperty float y\nproperty float z\nend_header\n1 2 3\n", PLY),
        Hostile("ply of lists", b"ply\nformat ascii 1.0\nelement vertex 1\nproperty list uchar int x\nproperty float y\nproperty float z\nend_header\n200 1 2\n", PLY),
        Hostile("ply of one axis", b"ply\nformat ascii 1.0\nelement vertex 1\nproperty float x\nend_header\n200\n", PLY),
        Hostile("ply of words", b"ply\nformat ascii 1.0\nelement vertex 1\nproperty float x\nproperty float y\nproperty float z\nend_header\na b c\n", PLY),
        Hostile("ply of no end", b"ply\nformat ascii 1.0\nelement vertex 1\nproperty float x\n" * 2000, PLY),
        Hostile("kind in a list", plain, {"kind": ["las"]}, "Say what kind"),
        Hostile("kind in a table", plain, {"kind": {"a": 1}}, "Say what kind"),
    ]  # fmt: skip
    noise = np.random.default_rng(2)
    found += [
        Hostile(f"{kind} of noise {n}", head + noise.bytes(3000), {"kind": kind, "unit": "m"})
        for kind, head in (("las", b"LASF"), ("ply", b"ply\n"))
        for n in range(3)
    ]
    for n in range(6):
        at = int(noise.integers(0, len(packed) - 8))
        found.append(
            Hostile(f"laz broken at {n}", patched(packed, at, "<q", int(noise.integers(-(2**62), 2**62))), LAS)
        )
    return found


def features(*places: Any, name: str = "P") -> bytes:
    """Return GeoJSON of points."""
    rows = [
        {"type": "Feature", "properties": {"name": name}, "geometry": {"type": "Point", "coordinates": place}}
        for place in places
    ]
    return json.dumps({"type": "FeatureCollection", "features": rows}).encode()


def texts() -> list[Hostile]:
    """Return CSV, GeoJSON and LandXML."""
    nested = (
        "<Surface name='s'>" * 3000 + "<Definition><Pnts><P id='1'>1 2 3</P></Pnts></Definition>" + "</Surface>" * 3000
    )
    head = "<LandXML><Units><Metric linearUnit='meter'/></Units>"
    figures = "1" * 400
    return [
        Hostile("geojson 20,000 points of one name", features(*[[n * 1e-3, 7e-3 * n] for n in range(20_000)]), GEO),
        Hostile("geojson 20,001 points", features(*[[n * 1e-3, 7e-3 * n] for n in range(20_001)]), GEO, "more than 20000"),
        Hostile("geojson words for places", features(["1", "2"], ["3", "4"]), GEO, "cannot be read"),
        Hostile("geojson words of nan", features(["nan", "inf"]), GEO, "cannot be read"),
        Hostile("geojson 400 figures", b'{"type":"Point","coordinates":[' + figures.encode() + b",2]}", GEO, "cannot be read"),
        Hostile("geojson 5000 figures", b'{"type":"Point","coordinates":[' + figures.encode() * 20 + b",2]}", GEO, "cannot be read"),
        Hostile("geojson 1e999", b'{"type":"Point","coordinates":[1e999,2]}', GEO, "cannot be read"),
        Hostile("geojson true for a place", features([True, False]), GEO, "cannot be read"),
        Hostile("geojson nothing for a place", features(None), GEO, "cannot be read"),
        Hostile("geojson deep", b'{"type":"GeometryCollection","geometries":[' * 500 + b"]}" * 500, GEO, "cannot be read"),
        Hostile("geojson deep lists", b"[" * 100_000, GEO, "cannot be read"),
        Hostile("geojson a table for a name", json.dumps({"type": "Feature", "properties": {"name": {"a": 1}}, "geometry": {"type": "Point", "coordinates": [1, 2]}}).encode(), GEO),
        Hostile("geojson half a sign", b'{"type":"Feature","properties":{"name":"\\ud83d"},"geometry":{"type":"Point","coordinates":[1,2]}}', GEO),
        Hostile("landxml nested surfaces", f"{head}{nested}</LandXML>".encode(), XML),
        Hostile("landxml wide surfaces", f"{head}{'<Surface><P>1 2 3</P></Surface>' * 30_000}</LandXML>".encode(), XML),
        Hostile("landxml entities", b'<!DOCTYPE a [<!ENTITY a "aaaaaaaa"><!ENTITY b "&a;&a;&a;">]><LandXML>&b;</LandXML>', XML, "cannot be read"),
        Hostile("landxml deep", f"{head}{'<a>' * 50_000}{'</a>' * 50_000}</LandXML>".encode(), XML),
        Hostile("landxml inf", f"{head}<CgPoint>inf nan 1</CgPoint></LandXML>".encode(), XML),
        Hostile("landxml encoding unknown", b"<?xml version='1.0' encoding='none-such'?><LandXML/>", XML, "cannot be read"),
        Hostile("landxml half a sign", f"{head}<CgPoints><CgPoint name='&#xD83D;'>1 2 3</CgPoint></CgPoints></LandXML>".encode(), XML),
        Hostile("csv half a sign", b"\xed\xa0\xbd,1,2,3\n", ORDER),
        Hostile("geojson names of every kind", json.dumps({"type": "FeatureCollection", "features": [{"type": "Feature", "properties": {"name": name}, "geometry": {"type": "Point", "coordinates": [number, 2]}} for number, name in enumerate([None, 1, 1.5, True, [], {}, "", " ", "x" * 5000, "\u0000", "\u202e", "a\nb"])]}).encode(), GEO),
        Hostile("csv point named #1", b"#1,1,2,3\n#2,4,5,6\n", ORDER, "begins with #"),
        Hostile("csv nul", b"A,1,2,\x003\n", ORDER, "not text"),
        Hostile("csv a line of 10^6", b"A," + b"1" * 1_000_000 + b",2,3\n", ORDER),
        Hostile("csv quotes", b'"A,1,2,3\n' * 50, ORDER),
        Hostile("csv inf", b"A,inf,2,3\n", ORDER, "stands for"),
        Hostile("csv 400 figures", f"A,{figures},2,3\n".encode(), ORDER),
        Hostile("csv one name", b"".join(b"A,%d,2,3\n" % n for n in range(20_000)), ORDER, "rename one"),
        Hostile("csv utf-16", "A,1,2,3\n".encode("utf-16"), ORDER),
        Hostile("csv commas", b"," * 200_000 + b"\n", ORDER),
        Hostile("csv empty", b"", ORDER, "holds no point"),
    ]  # fmt: skip


def all_files() -> list[Hostile]:
    """Return every file."""
    return [*texts(), *drawings(), *clouds()]


ENDINGS = {"csv": ".csv", "geojson": ".geojson", "landxml": ".xml", "dxf": ".dxf", "las": ".las", "ply": ".ply"}
