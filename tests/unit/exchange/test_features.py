"""Map features: on the earth where somebody says where, else local and said so."""

from __future__ import annotations

import json
import math
import sys

import pytest
import shapely
from click.testing import CliRunner

from pavewright.cli import main
from pavewright.desk import demo_document, make_plan_so_far
from pavewright.exchange import (
    Earth,
    ExchangeKind,
    ExchangeRefusedError,
    Whereabouts,
    finished_work,
    placed_at,
    to_geojson,
    to_ifc,
)


def features(content, kind):
    return [each for each in json.loads(content)["features"] if each["properties"]["kind"] == kind]


def test_local_metres_say_so_and_areas_are_those_of_the_plan(made_plan):
    plan = made_plan("demo")
    content = to_geojson(plan)
    told = json.loads(content)["pavewright"]
    assert (told["georeferenced"], told["unit"]) == (False, "m")
    area = features(content, "area")[0]
    assert shapely.from_geojson(json.dumps(area["geometry"])).area == pytest.approx(
        plan.survey.site.areas[0].shape.area_m2, abs=0.01
    )
    assert len(features(content, "piece")) == len(plan.laying.areas[0].pieces)
    assert to_geojson(plan) == content


def test_on_the_earth_distances_and_directions_hold(made_plan):
    plan = made_plan("demo")
    there = placed_at(plan, 51.5, -1.25, "A")
    first, second = plan.survey.point("A"), plan.survey.point("B")
    (east1, north1), (east2, north2) = there.lon_lat(first.xy), there.lon_lat(second.xy)
    assert (round(east1, 9), round(north1, 9)) == (-1.25, 51.5)
    # a degree of latitude at 51.5° is 111 258.9 m, one of longitude 69 438.6 m: worked out by series, not by our formula
    x, y = (east2 - east1) * 69_438.6, (north2 - north1) * 111_258.9
    assert math.hypot(x, y) == pytest.approx(math.dist(first.xy, second.xy) / 1000.0, rel=1e-4)
    bearing = math.degrees(math.atan2(second.x_mm - first.x_mm, second.y_mm - first.y_mm))
    from_north = math.degrees(math.atan2(x, y))
    assert (bearing - from_north) % 360.0 == pytest.approx(plan.survey.site.north_bearing_deg, abs=0.01)


def test_outer_rings_run_anticlockwise_and_close(made_plan):
    plan = made_plan("demo")
    for each in features(to_geojson(plan, Whereabouts(51.5, -1.25, (0.0, 0.0), 0.0)), "piece"):
        ring = each["geometry"]["coordinates"][0]
        assert ring[0] == ring[-1]
        assert shapely.LinearRing(ring).is_ccw


def test_without_a_place_it_is_refused_with_what_to_do():
    made = make_plan_so_far(demo_document())
    with pytest.raises(ExchangeRefusedError, match="--at"):
        finished_work(made, ExchangeKind.GEOJSON)
    with pytest.raises(ExchangeRefusedError, match="no point Nowhere"):
        finished_work(made, ExchangeKind.IFC, Earth(51.5, -1.25, "Nowhere"))
    with pytest.raises(ExchangeRefusedError, match="latitude is between"):
        finished_work(made, ExchangeKind.IFC, Earth(151.5, -1.25))
    unmeasured = json.loads(demo_document())
    del unmeasured["site"]["north_bearing_deg"]
    with pytest.raises(ExchangeRefusedError, match="where north is"):
        finished_work(make_plan_so_far(json.dumps(unmeasured)), ExchangeKind.GEOJSON, Earth(51.5, -1.25))


def test_without_the_library_a_sentence_says_what_to_install(monkeypatch, made_plan):
    monkeypatch.setitem(sys.modules, "ifcopenshell", None)
    with pytest.raises(ExchangeRefusedError, match="with the extra ifc"):
        to_ifc(made_plan("demo"))


def test_the_command_writes_both_files(tmp_path):
    job, ifc, geojson = (tmp_path / name for name in ("job.json", "a.ifc", "a.json"))
    job.write_bytes(demo_document())
    words = ["export", str(job), "--quiet", "--geojson", str(geojson)]
    refused = CliRunner().invoke(main, words)
    assert refused.exit_code == 2 and "--local" in refused.output and not geojson.exists()
    done = CliRunner().invoke(main, [*words, "--local", "--ifc", str(ifc)])
    assert done.exit_code == 0, done.output
    assert ifc.read_bytes().startswith(b"ISO-10303-21;")
    assert json.loads(geojson.read_bytes())["type"] == "FeatureCollection"
    assert CliRunner().invoke(main, [*words, "--at", "here"]).exit_code == 2
    assert CliRunner().invoke(main, ["export", str(job)]).exit_code == 2
