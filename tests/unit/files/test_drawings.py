"""DXF, GeoJSON and LandXML in: what is asked, what is refused, and what comes back unchanged."""

from __future__ import annotations

import io
import json

import ezdxf
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pavewright.files import (
    FileRefusedError,
    ReadLine,
    ReadPoint,
    dxf_layers,
    read_dxf,
    read_geojson,
    read_landxml,
    write_dxf_points,
)
from pavewright.files._foreign import file_here


def drawing(unit=6, *, levels=True):
    document = ezdxf.new("R2010", units=unit)
    space = document.modelspace()
    z = 9.95 if levels else 0.0
    space.add_point((1.0, 2.0, z), dxfattribs={"layer": "SPOTS"})
    space.add_line((0, 0, z), (4, 0, z), dxfattribs={"layer": "WALL"})
    space.add_lwpolyline([(0, 0), (4, 0), (4, 3), (0, 3)], close=True, dxfattribs={"layer": "EDGE", "elevation": z})
    space.add_text("not taken", dxfattribs={"layer": "WORDS"})
    stream = io.StringIO()
    document.write(stream)
    return stream.getvalue().encode()


def test_layers_and_unit_of_a_drawing_are_told_before_anything_is_taken():
    assert dxf_layers(drawing()) == ({"EDGE": 1, "SPOTS": 1, "WALL": 1}, "m")
    assert dxf_layers(drawing(unit=0))[1] is None


def test_points_and_lines_of_the_chosen_layers_come_over():
    found = read_dxf(drawing(), ["SPOTS", "EDGE"], "m")
    first = found.points[0]
    assert (first.name, first.x_mm, first.y_mm, first.level_mm) == ("SPOTS 1", 1000.0, 2000.0, pytest.approx(9950.0))
    (line,) = found.lines
    assert line.closed
    assert len(line.points) == 4
    assert len(found.points) == 5
    assert found.caveats == ()


def test_a_flat_drawing_gives_no_levels_and_says_so():
    found = read_dxf(drawing(levels=False), ["SPOTS"], "m")
    assert found.points[0].level_mm is None
    assert "flat" in found.caveats[0]


@pytest.mark.parametrize(
    ("content", "layers", "unit", "words"),
    [
        (drawing(), ["SPOTS"], "mm", "the drawing is in m"),
        (drawing(unit=0), ["SPOTS"], "", "ask who drew it"),
        (drawing(), [], "m", "Choose layers that are there: EDGE"),
        (drawing(), ["NOT"], "m", "Choose layers that are there"),
        (drawing(), ["WORDS"], "m", "Nothing in the file"),
        (drawing()[: len(drawing()) // 2], ["SPOTS"], "m", "its end is missing"),
        (b"", ["SPOTS"], "m", "not a DXF drawing"),
        (b"hello\nEOF\n", ["SPOTS"], "m", "cannot be read|holds 0 things"),
        (b"AutoCAD Binary DXF\r\n\x1a\x00", ["SPOTS"], "m", "binary"),
    ],
)
def test_a_drawing_is_refused_in_words(content, layers, unit, words):
    with pytest.raises(FileRefusedError, match=words):
        read_dxf(content, layers, unit)


def test_an_arc_comes_over_within_five_millimetres():
    document = ezdxf.new("R2010", units=4)
    document.modelspace().add_circle((0, 0), 1000.0, dxfattribs={"layer": "0"})
    stream = io.StringIO()
    document.write(stream)
    found = read_dxf(stream.getvalue().encode(), ["0"], "mm")
    assert found.lines[0].closed
    assert all((point.x_mm**2 + point.y_mm**2) ** 0.5 == pytest.approx(1000.0, abs=0.5) for point in found.points)
    ends = [(point.x_mm, point.y_mm) for point in found.points]
    sag = max(
        1000.0 - ((a[0] + b[0]) ** 2 + (a[1] + b[1]) ** 2) ** 0.5 / 2 for a, b in zip(ends, ends[1:], strict=False)
    )
    assert sag <= 5.0


names = st.lists(st.text("abcXYZ 0123", min_size=1, max_size=8).filter(str.strip).map(str.strip), min_size=2, max_size=9,
                 unique=True)  # fmt: skip
places = st.floats(-1e6, 1e6).map(lambda value: round(value, 3))


@settings(max_examples=25, deadline=None)
@given(names, st.data())
def test_points_and_lines_written_as_dxf_are_read_the_same(named, data):
    seen, points = set(), []
    for name in named:
        x, y = data.draw(places), data.draw(places)
        if (x, y) in seen:
            continue
        seen.add((x, y))
        points.append(
            ReadPoint(name, x, y, data.draw(st.none() | places), data.draw(st.sampled_from(["", "peg", "nail"])))
        )
    content = write_dxf_points(tuple(points))
    layers, unit = dxf_layers(content)
    assert unit == "mm"
    assert read_dxf(content, layers, "mm").points == tuple(points)


def test_lines_written_as_dxf_are_read_the_same():
    points = tuple(
        ReadPoint(name, x, y, 10_000.0 + x, "")
        for name, x, y in (("A", 0.0, 0.0), ("B", 3000.0, 0.0), ("C", 0.0, 4000.0))
    )
    line = ReadLine("KERB", ("A", "B", "C"), closed=True)
    found = read_dxf(write_dxf_points(points, (line,)), ["SURVEY_POINTS", "KERB"], "mm")
    assert found.points == points
    assert found.lines == (line,)


def test_the_own_drawing_of_a_job_can_be_read(made_pack):
    content = made_pack("demo")[1]["drawings.dxf"]
    layers, unit = dxf_layers(content)
    assert unit == "mm"
    found = read_dxf(content, ["PAVING_OUTLINE"], "mm")
    assert "PAVING_OUTLINE" in layers
    assert any(line.closed for line in found.lines)


def geojson(*features):
    return json.dumps({"type": "FeatureCollection", "features": list(features)}).encode()


def feature(shape, coordinates, **words):
    return {"type": "Feature", "properties": words, "geometry": {"type": shape, "coordinates": coordinates}}


def test_features_in_local_metres_come_over_with_the_caveat():
    found = read_geojson(
        geojson(
            feature("Point", [1.5, 2.5, 10.02], name="Peg", note="nail"),
            feature("Polygon", [[[0, 0], [4, 0], [4, 3], [0, 0]]], kind="edge"),
        ),
        "m",
    )
    assert found.points[0] == ReadPoint("Peg", 1500.0, 2500.0, pytest.approx(10020.0), "nail")
    assert found.lines == (ReadLine("edge", ("point 2", "point 3", "point 4"), closed=True),)
    assert "RFC 7946" in found.caveats[0]


@pytest.mark.parametrize(
    ("content", "unit", "words"),
    [
        (
            geojson(feature("Point", [-1.50001, 53.40001]), feature("Point", [-1.50009, 53.40007])),
            "m",
            "looks like degrees",
        ),
        (geojson(feature("Point", [1, 2])), "", "in which unit"),
        (geojson(), "m", "Nothing in the file"),
        (b"{", "m", "cannot be read as GeoJSON"),
        (b"[1,2]", "m", "cannot be read as GeoJSON"),
        (geojson(feature("Point", ["a", 2])), "m", "cannot be read as GeoJSON"),
        (geojson(feature("Point", [1e9, 2])), "m", "100 km off"),
        (b'{"type":"Feature","geometry":' * 200 + b"null" + b"}" * 200, "m", "cannot be read as GeoJSON"),
    ],
)
def test_geojson_is_refused_in_words(content, unit, words):
    with pytest.raises(FileRefusedError, match=words):
        read_geojson(content, unit)


LANDXML = b"""<?xml version="1.0"?>
<LandXML xmlns="http://www.landxml.org/schema/LandXML-1.2" version="1.2">
 <Units><Metric linearUnit="meter" areaUnit="squareMeter" volumeUnit="cubicMeter"/></Units>
 <CgPoints><CgPoint name="BM" code="nail">200.5 100.25 10.000</CgPoint></CgPoints>
 <Surfaces><Surface name="Ground"><SourceData><Breaklines>
  <Breakline brkType="standard"><PntList3D>201 101 9.9 202 102 9.8</PntList3D></Breakline></Breaklines></SourceData>
  <Definition surfType="TIN"><Pnts><P id="1">201 101 9.9</P><P id="2">203 101 9.7</P></Pnts></Definition>
 </Surface></Surfaces>
</LandXML>"""


def test_landxml_gives_north_before_east_and_says_that_this_is_from_memory():
    found = read_landxml(LANDXML)
    assert found.points[0] == ReadPoint("BM", 100_250.0, 200_500.0, 10_000.0, "nail")
    assert [point.name for point in found.points] == ["BM", "Ground 2", "Ground 3", "Ground 2 2"]
    assert found.lines == (ReadLine("break line", ("Ground 2", "Ground 3"), closed=False),)
    assert "from memory" in found.caveats[0]


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (LANDXML[:300], "not whole"),
        (
            LANDXML.replace(b"<Units>", b"<Other>").replace(b"</Units>", b"</Other>").replace(b"Metric", b"X"),
            "does not state its unit",
        ),
        (LANDXML.replace(b'meter"', b'league"', 1), "in league"),
        (b"<a/>", "no LandXML"),
        (LANDXML.replace(b"200.5 100.25 10.000", b"north"), "north and east"),
        (b'<!DOCTYPE x [<!ENTITY a "b">]><LandXML>&a;</LandXML>', "what no survey needs"),
    ],
)
def test_landxml_is_refused_in_words(content, words):
    with pytest.raises(FileRefusedError, match=words):
        read_landxml(content)


@settings(max_examples=60, deadline=None)
@given(st.binary(max_size=400), st.sampled_from([b"", b"<LandXML>", b'{"type":', b"  0\nSECTION\n"]))
def test_whatever_is_sent_is_read_or_refused(noise, head):
    for read in (lambda c: read_geojson(c, "m"), read_landxml, dxf_layers, lambda c: dxf_layers(c + b"\nEOF\n")):
        try:
            read(head + noise)
        except FileRefusedError as refused:
            assert str(refused).endswith((".", "}"))  # noqa: PT017 - whichever way it is refused, it is in words


def test_half_of_a_sign_in_a_name_becomes_a_mark_that_a_document_can_hold():
    content = b'{"type":"Feature","properties":{"name":"Gate \\ud83d"},"geometry":{"type":"Point","coordinates":[1,2]}}'
    found = file_here(content, {"kind": "geojson", "unit": "m"})
    assert [point["name"] for point in found["points"]] == ["Gate \ufffd"]
    json.dumps(found, ensure_ascii=False).encode("utf-8")
