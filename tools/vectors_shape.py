"""What the survey makes of sketches and tapes, arcs and odd units, for the tests of the scripts that do the same."""

from __future__ import annotations

import json
import math
import statistics
from itertools import pairwise
from typing import TYPE_CHECKING, Any

from pavewright import rulebook
from pavewright.job import LevelBook, LevelBookRow, Measurements
from pavewright.job._levels import _unit_of
from pavewright.survey._figures import SurveyFigures, survey_figures
from pavewright.survey._points import PlacedPoints, place_points
from pavewright.survey._remarks import Remarks
from pavewright.survey.agreement._staff import _ROOM, _among_others
from pavewright.survey.agreement._units_of_length import units_that_fit
from pavewright.survey.edges._one_arc import off_arc_mm, rise_by_offsets_mm
from pavewright.survey.sketch import Drawn

if TYPE_CHECKING:
    import random
    from pathlib import Path

FIGURES = (
    "tape_sd_fixed_mm",
    "tape_sd_growing_mm_per_m",
    "square_corner_sd_mm_per_m",
    "on_line_sd_mm",
    "weak_point_mm",
    "confidence_percent",
    "greatest_standardised_residual",
    "min_redundancy",
    "sketch_direction_mm_per_m",
    "sketch_length_mm_per_m",
    "sketch_finger_mm",
    "sketch_scale_share",
    "look_again_sds",
    "staff_length_mm",
)


def figures_script() -> str:
    """Return the script that carries the figures of the rulebook to a page without signal."""
    figures = survey_figures(rulebook.load("england"))
    rows = "".join(f"  {name}: {getattr(figures, name).value:g},\n" for name in FIGURES)
    return (
        "// @ts-check\n"
        "// made by tools/make_vectors.py from the rulebook; do not edit\n"
        "/** Figures of the survey: how far readings may disagree, and how far each is trusted. */\n"
        "/** @typedef {typeof FIGURES} Figures */\n"
        f"export const FIGURES = {{\n{rows}}};\n"
    )


def polygon(chance: random.Random, corners: int) -> list[tuple[float, float]]:
    """Return corners of a garden of some metres, anticlockwise."""
    return [
        (reach * math.cos(turn), reach * math.sin(turn))
        for turn, reach in (
            (2.0 * math.pi * (number + chance.uniform(-0.15, 0.15)) / corners, chance.uniform(3000.0, 6500.0))
            for number in range(corners)
        )
    ]


def sketch_of(chance: random.Random, places: list[tuple[float, float]], distorted: float) -> list[dict[str, Any]]:
    """Return a sketch of places: turned, scaled and distorted."""
    mean = sum(math.dist(a, b) for a, b in pairwise(places)) / (len(places) - 1)
    turn, scale = chance.uniform(0.0, 2.0 * math.pi), chance.uniform(0.2, 0.7)
    found = []
    for number, (x, y) in enumerate(places):
        way, off = chance.uniform(0.0, 2.0 * math.pi), distorted * mean * math.sqrt(chance.random())
        u, v = x + off * math.cos(way), y + off * math.sin(way)
        at = scale * (u * math.cos(turn) - v * math.sin(turn)), scale * (u * math.sin(turn) + v * math.cos(turn))
        found.append({"name": f"P{number}", "x_mm": round(at[0], 1), "y_mm": round(at[1], 1)})
    return found


def tape(places: list[tuple[float, float]], start: int, end: int, off: float) -> dict[str, Any]:
    """Return one tape, off by so much."""
    return {
        "start": f"P{start}",
        "end": f"P{end}",
        "length_mm": float(round(math.dist(places[start], places[end]) + off)),
    }


def random_jobs(chance: random.Random) -> list[dict[str, Any]]:
    """Return jobs of a sketch and some of its tapes, a few with a slip."""
    found = []
    for number in range(16):
        corners = chance.randrange(4, 9)
        places = polygon(chance, corners)
        chords = [(0, 1), *((late, early) for late in range(2, corners) for early in (late - 1, late - 2))]
        chords += [(corners - 1, 0), (corners - 2, 0)][: 2 if corners > 4 else 1]
        kept = chords if number % 3 == 0 else chords[: chance.randrange(1, len(chords))]
        tapes = [tape(places, *chord, chance.gauss(0.0, 2.5)) for chord in kept]
        if number % 6 == 0:
            tapes[chance.randrange(1, len(tapes))]["length_mm"] += 1000.0
        plan = {"base_from": "P0", "base_to": "P1", "bearing_deg": float(chance.randrange(360)), "tapes": tapes}
        ring = [f"P{corner}" for corner in range(corners)]
        found.append(
            {
                "measurements": {"sketch": sketch_of(chance, places, 0.12), "tape_plan": plan},
                "walls": [[ring[0], ring[1]], [ring[1], ring[2]]] if number % 2 else [],
                "rings": [ring],
            }
        )
    return found


def made_jobs() -> list[dict[str, Any]]:
    """Return jobs that are odd in one way each."""
    four = {"A": (0, 0), "B": (400, 0), "C": (400, 300), "D": (0, 300)}

    def drawn(**more: tuple[float, float]) -> list[dict[str, Any]]:
        return [{"name": name, "x_mm": x, "y_mm": y} for name, (x, y) in (four | more).items()]

    def plan(*tapes: tuple[str, str, float], **more: Any) -> dict[str, Any]:  # noqa: ANN401 - of a document
        rows = [{"start": start, "end": end, "length_mm": length} for start, end, length in tapes]
        return {"base_from": "A", "base_to": "B", "tapes": rows, **more}

    base = ("A", "B", 6000.0)
    whole = (base, ("B", "C", 4000.0), ("A", "C", 7211.0), ("A", "D", 4000.0), ("C", "D", 6000.0), ("B", "D", 7211.0))
    squares = [{"at": "B", "first": "A", "second": "C"}, {"at": "A", "first": "B", "second": "D"}]
    on_line = [{"point": "M", "line_from": "A", "line_to": "B"}]
    right = [{"point": "X", "line_from": "C", "line_to": "D", "side": "right"}]
    wrong = [{"point": "D", "line_from": "A", "line_to": "C", "side": "right"}]
    line = [{"name": name, "x_mm": x, "y_mm": 0} for name, x in (("A", 0), ("B", 400), ("C", 200))]
    eye = {"name": "T", "x_mm": 2000.0, "y_mm": 1500.0, "place_sd_mm": 200.0}
    cases: list[dict[str, Any]] = [
        {"sketch": drawn()},
        {"tape_plan": plan(base)},
        {"sketch": drawn(), "tape_plan": plan(base)},
        {"sketch": drawn(), "tape_plan": plan(("B", "C", 4000.0))},
        {"sketch": drawn(), "tape_plan": plan(base, ("A", "X", 2000.0))},
        {"sketch": drawn(), "tape_plan": plan(base, ("A", "X", 2000.0), ("B", "X", 5000.0))},
        {"sketch": drawn(), "tape_plan": plan(base, ("C", "X", 2000.0), ("D", "X", 5000.0), sides=right)},
        {"sketch": drawn(), "tape_plan": plan(base, ("A", "C", 3000.0), ("B", "C", 2000.0))},
        {"sketch": drawn(), "tape_plan": plan(base, ("A", "B", 7000.0))},
        {"sketch": line, "tape_plan": plan(base, ("A", "C", 4000.0), ("B", "C", 4000.0))},
        {
            "sketch": drawn(),
            "tape_plan": plan(base, ("B", "C", 4000.0), ("A", "D", 4000.0), square_corners=squares),
        },
        {"sketch": drawn(M=(200, 5)), "tape_plan": plan(base, ("A", "M", 2500.0), points_on_lines=on_line)},
        {
            "sketch": drawn(),
            "points": [{"name": "A", "x_mm": 1000, "y_mm": 1000}, {"name": "B", "x_mm": 1000, "y_mm": 7000}],
        },
        {"sketch": drawn(), "tape_plan": plan(*whole, sides=wrong)},
        {"sketch": drawn(), "tape_plan": plan(*whole)},
        {"sketch": drawn(S=(210, 140)), "tape_plan": plan(*whole[:4])},
        {"sketch": drawn(S=(210, 140)), "tape_plan": plan(*whole[:4], ("A", "S", 3700.0))},
        {"sketch": drawn(), "tape_plan": plan(base), "points": [eye]},
        {"sketch": drawn(), "tape_plan": plan(base, ("A", "T", 2500.0)), "points": [eye]},
        {"sketch": drawn(), "tape_plan": plan(base, ("A", "T", 2500.0), ("B", "T", 4272.0)), "points": [eye]},
        {
            "sketch": drawn(),
            "tape_plan": plan(base),
            "offsets": [
                {"name": "G", "line_from": "A", "line_to": "B", "along_mm": 2000, "offset_mm": 1500},
                {"name": "H", "line_from": "C", "line_to": "D", "along_mm": 500, "offset_mm": 0},
            ],
        },
    ]
    return [{"measurements": each, "walls": [["A", "B"]], "rings": [["A", "B", "C", "D"]]} for each in cases]


def answer(job: dict[str, Any], figures: SurveyFigures) -> dict[str, Any]:
    """Return what the survey makes of one job, as far as a page makes it too."""
    measured = Measurements.model_validate_json(json.dumps(job["measurements"]))
    drawn = Drawn(tuple(map(tuple, job["walls"])), tuple(map(tuple, job["rings"])))
    remarks = Remarks()
    placed = place_points(measured, drawn, figures, remarks)
    return (
        {"faults": len(remarks.faults)}
        if remarks.faults
        else {"faults": 0, **_points(placed), **_tapes(placed, figures)}
    )


def _points(placed: PlacedPoints) -> dict[str, Any]:
    shape = placed.shape
    sketched = {each.name: each for each in shape.sketched} if shape is not None else {}
    return {
        "points": [
            {
                "name": name,
                "x_mm": round(x_mm, 3),
                "y_mm": round(y_mm, 3),
                "missing": sketched[name].missing if name in sketched else 0,
                "major_mm": round(placed.ellipses[name].major_mm, 1) if name in placed.ellipses else None,
                "sketched": name in sketched or (shape is not None and name in shape.hanging),
            }
            for name, (x_mm, y_mm) in placed.places.items()
        ],
        "sides": {each.name: each.by for each in shape.sides} if shape is not None else {},
        "unplaced": {each.name: each.missing for each in shape.unplaced} if shape is not None else {},
    }


def _tapes(placed: PlacedPoints, figures: SurveyFigures) -> dict[str, Any]:
    tapes, shape = placed.tapes, placed.shape
    more = shape.next_tape if shape is not None else tapes.next_tape if tapes is not None else None
    if more is not None and more.gain == "point" and more.before <= figures.weak_point_mm.value:
        more = None
    suspects = tapes.suspects if tapes is not None else ()
    return {
        "next": None
        if more is None
        else {"pair": sorted((more.start, more.end)), "gain": more.gain, "fixes": sorted(more.fixes)},
        "slips": [
            {
                "pair": sorted((each.start, each.end)),
                "slip_mm": None if each.slip_mm is None else round(each.slip_mm, 2),
                "alike": sorted(sorted(pair) for pair in each.alike),
            }
            for each in suspects
        ],
        "residuals": [
            [each.start, each.end, round(each.residual_mm, 3), round(each.redundancy, 4)]
            for each in (tapes.residuals if tapes else ())
        ],
    }


def shapes(chance: random.Random) -> list[dict[str, Any]]:
    """Return jobs with a sketch and what the survey makes of them."""
    figures = survey_figures(rulebook.load("england"))
    return [{**job, "answer": answer(job, figures)} for job in (*made_jobs(), *random_jobs(chance))]


def arcs(chance: random.Random) -> list[dict[str, Any]]:
    """Return chords with offsets and the arcs fitted to them."""
    found = []
    for number in range(8):
        chord = float(chance.randrange(2000, 9000))
        along = sorted(round(chance.uniform(0.05, 0.95) * chord) for _ in range(number + 1))
        rise = chance.uniform(-0.45, 0.45) * chord
        radius = (chord * chord / 4.0 + rise * rise) / (2.0 * rise)
        offsets = []
        for each in along:
            root = math.copysign(math.sqrt(radius * radius - (each - chord / 2.0) ** 2), radius)
            offsets.append((float(each), round(root - radius + rise + chance.gauss(0.0, 5.0), 1)))
        fitted = rise_by_offsets_mm(chord, offsets)
        found.append(
            {"chord_mm": chord, "offsets": offsets, "rise_mm": fitted, "off_mm": off_arc_mm(chord, fitted, offsets)}
        )
    return found


def levels() -> list[dict[str, Any]]:
    """Return levels beside others of a job and the unit in which each comes among them."""
    others = [10_000.0, 10_150.0, 9_870.0]
    asked = [10_120.0, 10.12, 1012.0, 101.2, 12_000.0, 14_000.0, 0.0, 9.5]
    return [
        {"level": level, "others": others, "fits": _unit_of(level, statistics.median((*others, level)))}
        for level in asked
    ]


def readings() -> list[dict[str, Any]]:
    """Return readings of the staff beside others of their set-up, and the unit in which each fits among them."""
    others = [1430.0, 1385.0, 1502.0]
    asked = [1440.0, 144.0, 1.44, 14.4, 560.0, 480.0, 12_000.0, 61.5, 2.1]
    book = LevelBook(name="run", rows=(LevelBookRow(point="A"),))
    found = []
    for reading in asked:
        rows = [(number, f"P{number}", 1, each) for number, each in enumerate((*others, reading), start=1)]
        odd = any(each.place == "level book run, point P4" for each in _among_others(book, rows))
        fits = units_that_fit(reading, _ROOM * min(others), (2.0 - _ROOM) * max(others))
        found.append({"reading": reading, "others": others, "fits": fits[0] if odd else None})
    return found


def write_figures(path: Path, *, only_check: bool) -> bool:
    """Write the script of figures where it is stale; return whether it was."""
    text = figures_script()
    stale = not path.is_file() or path.read_text("utf-8") != text
    if stale and not only_check:
        path.write_text(text, "utf-8")
    return stale
