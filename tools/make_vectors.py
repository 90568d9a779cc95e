#!/usr/bin/env python3
"""Write what the program answers to questions that a page answers by itself as well, for the tests of its scripts.

python tools/make_vectors.py
python tools/make_vectors.py --check
"""

from __future__ import annotations

import datetime as dt
import json
import random
import sys
from dataclasses import replace
from pathlib import Path
from typing import Any

import click
import shapely
import vectors_bedding
import vectors_holds
import vectors_labels
import vectors_log
import vectors_operations
import vectors_photo
import vectors_setting_out
import vectors_shape
from shapely.geometry import LineString, Point, Polygon

from pavewright import rulebook
from pavewright.as_laid import TRUSTED, WallPromise, check
from pavewright.as_laid._verdicts import within
from pavewright.desk import demo_document, make_plan_so_far
from pavewright.desk._level_readings import staff
from pavewright.desk._site_view import site_view
from pavewright.geometry import FoldedSurface, Plane, TriangulatedSurface, contour_lines
from pavewright.geometry._folded import Facet
from pavewright.job import AsLaid, AsLaidReading, LevelBook
from pavewright.survey.levelling._levelling import Sighting, greatest_misclosure_mm, reduce_rows
from pavewright.typed import USUAL_MM, FallUnit, LengthKind, Typed, fall_typed, length_typed
from pavewright.units import mm_to_feet_and_inches

PATH = Path(__file__).resolve().parent.parent / "tests" / "js" / "vectors.json"
FIGURES = PATH.parents[2] / "src/pavewright/web/static/lib/shape/figures.js"
CHANCE = 20_270_412
"""Seed, so that the same questions are asked every time."""
OUTER = ((0.0, 0.0), (6000.0, 0.0), (6500.0, 3000.0), (3000.0, 5200.0), (-400.0, 3100.0))
HOLE = ((2000.0, 1500.0), (2900.0, 1600.0), (2500.0, 2400.0))
SHEET = TriangulatedSurface(
    ((0.0, 0.0, 100.0), (4000.0, 0.0, 180.0), (4000.0, 4000.0, 60.0), (0.0, 4000.0, 25.0), (2000.0, 1800.0, 230.0)),
    ((0, 1, 4), (1, 2, 4), (2, 3, 4), (3, 0, 4)),
)
FOLDED = FoldedSurface(
    (
        Facet(((0.0, 0.0), (3000.0, 0.0), (3000.0, 4000.0), (0.0, 4000.0)), Plane(10_000.0, (0.0, 0.0), -0.02, 0.004)),
        Facet(
            ((3000.0, 0.0), (7000.0, 0.0), (7000.0, 4000.0), (3000.0, 4000.0)),
            Plane(9_940.0, (3000.0, 0.0), 0.0125, 0.004),
        ),
    )
)


def places(chance: random.Random, count: int) -> list[tuple[float, float]]:
    """Return places on and beside a site of some metres."""
    return [(round(chance.uniform(-1500, 8000), 1), round(chance.uniform(-1500, 6000), 1)) for _ in range(count)]


def rings(chance: random.Random) -> list[dict[str, Any]]:
    """Return for places whether they lie within rings, and how far outside."""
    whole, outer = Polygon(OUTER, [HOLE]), Polygon(OUTER)
    return [
        {"at": at, "inside": bool(whole.contains(Point(at))), "outside_mm": float(outer.distance(Point(at)))}
        for at in places(chance, 40)
    ]


def plane_of(plane: Plane) -> dict[str, Any]:
    """Return a plane as it stands in the JSON of a plan."""
    return {
        "level_mm": plane.level_mm,
        "origin_mm": plane.origin_mm,
        "slope_x": plane.slope_x,
        "slope_y": plane.slope_y,
    }


def surfaces(chance: random.Random) -> dict[str, Any]:
    """Return levels of a folded surface and of triangles at places."""
    return {
        "folded": {
            "facets": [{"outline": facet.outline, "plane": plane_of(facet.plane)} for facet in FOLDED.facets],
        },
        "on_folded": [{"at": at, "level_mm": FOLDED.level_at(at)} for at in places(chance, 40)],
        "sheet": {"points": SHEET.points, "triangles": SHEET.triangles, "gapped": SHEET.gapped},
        "on_sheet": [{"at": at, "level_mm": SHEET.level_at(at)} for at in places(chance, 40)],
    }


def contours() -> dict[str, Any]:
    """Return levels and lengths of contours of a plane within an area, and of triangles."""
    plane, area = Plane(10_000.0, (0.0, 0.0), -0.018, 0.007), Polygon(OUTER, [HOLE])
    levels = [plane.level_at(at) for at in OUTER]
    of_plane = []
    for number in range(int(min(levels) // 20), int(max(levels) // 20) + 2):
        level, far = number * 20.0, 40_000.0
        off = (level - plane.level_mm) / plane.fall
        down_x, down_y = plane.downhill
        x, y = -down_x * off, -down_y * off
        line = LineString([(x - down_y * far, y + down_x * far), (x + down_y * far, y - down_x * far)])
        length = float(line.intersection(area).length)
        if length > 1.0:
            of_plane.append({"level_mm": level, "length_mm": length})
    of_sheet = [
        {"level_mm": at, "length_mm": float(shapely.length(line))} for at, line in contour_lines(SHEET, 25.0).items()
    ]
    return {
        "plane": plane_of(plane),
        "rings": [OUTER, HOLE],
        "of_plane": of_plane,
        "step_mm": 20.0,
        "sheet_step_mm": 25.0,
        "of_sheet": of_sheet,
    }


def book(chance: random.Random, sights: int) -> dict[str, Any]:
    """Return staff readings as a phone takes them, and the book that the program reduces from what it delivers."""
    taken: list[dict[str, Any]] = []
    for number in range(sights):
        reading = float(chance.randrange(300, 2700))
        if number and number % 4 == 0:
            taken.append({"point": taken[-1]["point"], "reading_mm": reading, "sight": "moved"})
        else:
            taken.append({"point": f"P{number}", "reading_mm": reading, "sight": "next" if number else "first"})
    taken.append({"point": "P0", "reading_mm": float(chance.randrange(300, 2700)), "sight": "next"})
    document: dict[str, Any] = {}
    setups = 0
    held: list[dict[str, Any]] = []
    for one in taken:
        setups += one["sight"] != "next"
        held.append(one | {"book": "run", "setup": setups})
        if one["sight"] == "next":  # a backsight goes with the reading that follows it
            for each in held:
                staff(document, each)
            held = []
    rows = next(each for each in document["measurements"]["level_books"] if each["name"] == "run")
    kept = LevelBook.model_validate_json(json.dumps(rows))
    sightings = [Sighting(row.point, row.backsight_mm, row.intermediate_mm, row.foresight_mm) for row in kept.rows]
    reduced = reduce_rows(sightings, 10_000.0)
    return {
        "sights": taken,
        "datum_mm": 10_000.0,
        "levels": [[row.point, row.level_mm] for row in reduced],
        "setups": setups,
        "misclosure_mm": reduced[-1].level_mm - 10_000.0,
        "limit_mm": greatest_misclosure_mm(3.0, setups),
    }


def verdicts(chance: random.Random) -> dict[str, Any]:
    """Return verdicts on values either side of a limit, and on clearances against a promise."""
    rules = rulebook.load("england")
    figure, level = rules.figure("levels.below_dpc_mm"), rules.figure("as_laid.level_flags_mm")
    promise = WallPromise("rear", 0.0, replace(figure, value=150.0), 6.0, level)
    offs = [0.0, 3.0, -3.0, 3.0001, 9.0, -9.0, 9.0001, 20.0] + [round(chance.uniform(-14, 14), 2) for _ in range(20)]
    clear = [150.0, 144.0, 143.999, 141.0, 140.99, 100.0] + [round(chance.uniform(135, 155), 2) for _ in range(20)]
    return {
        "limit_mm": 6.0,
        "sd_mm": 1.5,
        "trusted_sd": TRUSTED,
        "on_limit": [{"off_mm": off, "verdict": within(off, 6.0, 1.5)} for off in offs],
        "promise": {"promised_mm": promise.promised_mm, "tolerance_mm": promise.tolerance_mm},
        "on_promise": [{"found_mm": found, "verdict": promise.verdict_on(found, 1.5)} for found in clear],
    }


def as_laid(chance: random.Random) -> dict[str, Any]:
    """Return single readings beside the walls of the demo, with what the program says of each and its walls."""
    so_far = make_plan_so_far(demo_document())
    plan = so_far.whole
    assert plan is not None  # noqa: S101 - the demo knows everything
    rules = rulebook.load(plan.edition)
    view = site_view(so_far, rules)
    found = []
    for met in view["walls"]:
        finished = plan.levels.area(met["area"])
        for spare in (45.0, 33.0, 30.0, 26.0, 12.0, 0.5, -0.5, -1.5, -2.5, -4.0, -30.0):
            along, away = chance.uniform(0.1, 0.9), chance.uniform(20.0, 400.0)
            clear = met["clear_at_start_mm"] + along * (met["clear_at_end_mm"] - met["clear_at_start_mm"])
            off = clear - met["promised_mm"] + met["tolerance_mm"] - spare
            (x1, y1), (x2, y2) = met["start"], met["end"]
            middle = plan.survey.site.area(met["area"]).shape.centre_mm
            x, y = x1 + along * (x2 - x1), y1 + along * (y2 - y1)
            run = ((middle[0] - x) ** 2 + (middle[1] - y) ** 2) ** 0.5
            at = round(x + (middle[0] - x) * away / run), round(y + (middle[1] - y) * away / run)
            level = round(finished.surface.level_at(at) + off, 1)
            reading = AsLaidReading(x_mm=at[0], y_mm=at[1], level_mm=level, area=met["area"], label="one")
            job = plan.job.model_copy(update={"as_laid": AsLaid(date=dt.date(2027, 5, 1), readings=(reading,))})
            report = check(job, plan.survey, plan.levels, rules)
            if report is None:
                continue
            area = report.areas[0]
            found.append(
                {
                    "entry": {"x_mm": at[0], "y_mm": at[1], "level_mm": level, "area": met["area"]},
                    "off_mm": area.readings[0].deviation_mm,
                    "planned_mm": area.readings[0].planned_mm,
                    "verdict": area.readings[0].verdict,
                    "walls": sorted([wall.wall, wall.min_mm, wall.verdict] for wall in area.walls),
                }
            )
    areas = [
        {
            "area": each["area"],
            "surface": {
                "facets": [{name: facet[name] for name in ("outline", "plane")} for facet in each["surface"]["facets"]]
            },
        }
        for each in view["levels"]["areas"]
    ]
    kept = {name: view[name] for name in ("walls", "near_wall_mm", "reading_sd_mm", "trusted_sd")}
    limit = view["level_limit"]["value"]
    return {"view": kept | {"levels": {"areas": areas}}, "limit_mm": limit, "readings": found}


LENGTHS = (
    "0", "6", "6.0", "6,0", "6,000", "6 000", "6000", "6.0 m", "6m", "6 M", "600cm", "6000 mm", "6 m 20 cm",
    "6 metres", "19' 8 1/2\"", "19' 8 1/2", "19ft 8in", "19 ft", "19'-8 1/2\"", '6 1/4"', "6-1/4 in", '1/2"',
    "6 \u00bc in", "6\u2032", "6'' ", "29", "30", "29.9", "100000", "100001", "120000", "10.150", "10,150", "10150",
    "10150.5", "\u221212 mm", "\u221212", "-0", "12.5", "12.3", "0.04", "4", "40", "60", "1.235", "1.5", ".5",
    "150.25", "4870.5", "12,345 mm", "1,250 m", "1,234,567", "1,234.5", "1 250.5", "2 500 m", "four", "", "m",
    "6 mmm", "1/0 in", "3 4", "6 ft 1/0 in", "--6", "6e3", "1.2.3", "0.0001", "99999999", "6 feet 3 inches", "1 yard",
    "6.0m.", "\u00a06\u202f000 mm", "1 inch", "10 in", "1 in 60",
)  # fmt: skip
FALLS = (
    "60", "1:60", "1 in 60", "1/80", "1 on 40", "2 %", "2%", "2 percent", "12 mm/m", "12 mm per m", "0", "0 %", "1.5",
    "2", "0.02", "300", "1:0", "3000", "1 : 80", "1,5 %", "level", "", "-60", "2:100", "1 in", "60 %", "0.5 mm a m",
)  # fmt: skip


def read_as(typed: Typed) -> dict[str, Any]:
    """Return what a text means as the scripts have it."""
    choices = [{"text": text, "value": value} for text, value in typed.choices]
    return {"value": typed.value, "choices": choices, "bare": typed.without_unit}


def typed_texts(chance: random.Random) -> dict[str, Any]:
    """Return what typed lengths and falls mean, for every kind of field."""
    texts = list(LENGTHS)
    for _ in range(40):
        size = round(chance.uniform(0.0, 12_000.0), chance.randrange(3))
        pick = (
            f"{size:g}",
            f"{size / 1000:.3f} m",
            f"{size / 10:g}cm",
            mm_to_feet_and_inches(size, 16),
            f"{size / 1000:.2f}",
        )
        texts.append(chance.choice(pick))
    near = 10_000.0
    return {
        "usual_mm": {kind.value: list(row) for kind, row in USUAL_MM.items()},
        "near_mm": near,
        "lengths": [
            {"text": text, "kind": kind.value, **read_as(length_typed(text, kind))}
            for text in texts
            for kind in LengthKind
        ],
        "levels": [{"text": text, **read_as(length_typed(text, LengthKind.LEVEL, near))} for text in texts],
        "falls": [
            {"text": text, "unit": unit.value, **read_as(fall_typed(text, unit))} for text in FALLS for unit in FallUnit
        ],
    }


def to_nanometres(value: Any) -> Any:  # noqa: ANN401 - anything that JSON holds
    """Return a value with its numbers cut where another machine may calculate another last figure; no minus zero."""
    if isinstance(value, float):
        return round(value, 6 if abs(value) >= 1.0 else 12) + 0.0
    if isinstance(value, dict):
        return {name: to_nanometres(each) for name, each in value.items()}
    return [to_nanometres(each) for each in value] if isinstance(value, list | tuple) else value


def vectors() -> str:
    """Return the file."""
    chance = random.Random(CHANCE)
    reported = {
        "made_by": "tools/make_vectors.py",
        "rings": {"outer": OUTER, "hole": HOLE, "places": rings(chance)},
        "surfaces": surfaces(chance),
        "contours": contours(),
        "books": [book(chance, sights) for sights in (3, 6, 13)],
        "verdicts": verdicts(chance),
        "as_laid": as_laid(chance),
        "typed": typed_texts(chance),
        "shapes": vectors_shape.shapes(random.Random(CHANCE)),
        "arcs": vectors_shape.arcs(random.Random(CHANCE)),
        "odd_levels": vectors_shape.levels(),
        "odd_readings": vectors_shape.readings(),
        "log": vectors_log.log(random.Random(CHANCE)),
        "bedding": vectors_bedding.bedding(random.Random(CHANCE)),
        "photos": vectors_photo.photos(random.Random(CHANCE)),
        "holds": vectors_holds.holds(random.Random(CHANCE)),
        "setting_out": vectors_setting_out.setting_out(random.Random(CHANCE)),
        "labels": vectors_labels.labels(random.Random(CHANCE)),
        "operations": vectors_operations.operations(random.Random(CHANCE)),
    }
    return json.dumps(to_nanometres(reported), indent=1, allow_nan=False) + "\n"


@click.command()
@click.option("--check", "only_check", is_flag=True, help="Write nothing; end with 1 where the file is stale.")
def main(*, only_check: bool) -> None:
    """Write or check the file."""
    if vectors_shape.write_figures(FIGURES, only_check=only_check) and only_check:
        sys.exit("stale: the figures of the shape; run tools/make_vectors.py")
    text = vectors()
    if not PATH.is_file() or PATH.read_text("utf-8") != text:
        if only_check:
            sys.exit("stale: tests/js/vectors.json; run tools/make_vectors.py")
        PATH.write_text(text, "utf-8")


if __name__ == "__main__":
    main()
