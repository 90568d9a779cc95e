"""Gardens by chance, drawn badly by a finger and taped well: the shape that comes out is the garden."""

from __future__ import annotations

import json
import math
import random
import sys
from itertools import pairwise

import pytest

from pavewright import rulebook
from pavewright.job import Measurements
from pavewright.survey import SideBy
from pavewright.survey._figures import survey_figures
from pavewright.survey._points import place_points
from pavewright.survey._remarks import Remarks
from pavewright.survey.sketch import Drawn

FIGURES = survey_figures(rulebook.load("england"))
GARDENS = 60


def turn(a, b, c):
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def garden(chance):
    """Return corners of a garden, anticlockwise, none nearly straight."""
    while True:
        corners = chance.randrange(4, 9)
        places = []
        for number in range(corners):
            way = 2.0 * math.pi * (number + chance.uniform(-0.17, 0.17)) / corners
            reach = chance.uniform(2500.0, 7000.0)
            places.append((reach * math.cos(way), reach * math.sin(way)))
        around = [places[-1], *places, places[0]]
        high = [abs(turn(a, b, c)) / math.dist(a, c) for a, b, c in zip(around, around[1:], around[2:], strict=False)]
        if min(high) > 400.0 and min(math.dist(a, b) for a, b in pairwise(around)) > 800.0:
            return places


def drawn(chance, places, distorted):
    """Return the sketch of a garden: every corner off by up to so much of a mean side; turned, shifted, at any scale."""
    mean = math.fsum(math.dist(a, b) for a, b in pairwise([*places, places[0]])) / len(places)
    way, scale = chance.uniform(0.0, 2.0 * math.pi), chance.uniform(0.02, 0.7)
    sketch = []
    for number, (x, y) in enumerate(places):
        off, aside = distorted * mean * math.sqrt(chance.random()), chance.uniform(0.0, 2.0 * math.pi)
        u, v = x + off * math.cos(aside), y + off * math.sin(aside)
        at = (u * math.cos(way) - v * math.sin(way) + 900.0, u * math.sin(way) + v * math.cos(way))
        sketch.append({"name": f"P{number}", "x_mm": scale * at[0], "y_mm": scale * at[1]})
    return sketch


def taped(chance, places):
    """Return the tapes that just fix a garden, corner by corner, each as true as a tape is."""
    chords = [(0, 1), *((late, early) for late in range(2, len(places)) for early in (late - 1, late - 2))]
    rows = []
    for start, end in chords:
        length = math.dist(places[start], places[end])
        read = length + chance.gauss(0.0, math.hypot(2.0, 0.0002 * length))
        rows.append({"start": f"P{start}", "end": f"P{end}", "length_mm": round(read, 1)})
    return {"base_from": "P0", "base_to": "P1", "bearing_deg": float(chance.randrange(360)), "tapes": rows}


def shape(measurements):
    measured = Measurements.model_validate_json(json.dumps(measurements))
    remarks = Remarks()
    return place_points(measured, Drawn(), FIGURES, remarks), remarks


@pytest.mark.parametrize("distorted", [0.15, 0.3])
def test_a_garden_that_is_drawn_badly_comes_out_as_it_is_taped(distorted):
    chance = random.Random(20_270_515)
    corners = right = 0
    for _ in range(GARDENS):
        places = garden(chance)
        found, remarks = shape({"sketch": drawn(chance, places, distorted), "tape_plan": taped(chance, places)})
        assert not remarks.faults
        assert found.shape is not None
        assert found.shape.is_fixed
        at = [found.places[f"P{number}"] for number in range(len(places))]
        signs = [
            turn(at[n - 2], at[n - 1], at[n]) * turn(places[n - 2], places[n - 1], places[n]) > 0.0
            for n in range(len(places))
        ]
        corners, right = corners + len(signs), right + sum(signs)
        if not all(signs):
            # where it went wrong the sketch had the corner nearly on its line, and that was asked for
            doubtful = any(each.by is SideBy.DOUBTFUL for each in found.shape.sides)
            assert doubtful or distorted > 0.15
            continue
        for number, place in enumerate(places):
            for other in range(number):
                axes = [found.ellipses.get(f"P{n}") for n in (number, other)]
                sd = math.hypot(*(each.major_mm for each in axes if each is not None))
                off = math.dist(at[number], at[other]) - math.dist(place, places[other])
                assert abs(off) <= 5.0 * sd + 0.1
    sys.stdout.write(f"sketches distorted {distorted:.0%}: left and right are right at {right} of {corners} corners\n")
    assert right >= (0.995 if distorted <= 0.15 else 0.96) * corners


def test_what_tapes_do_not_fix_stays_near_the_sketch_and_says_so():
    chance = random.Random(20_270_516)
    for _ in range(15):
        places = garden(chance)
        plan = taped(chance, places)
        plan["tapes"] = plan["tapes"][: chance.randrange(1, len(plan["tapes"]))]
        found, remarks = shape({"sketch": drawn(chance, places, 0.1), "tape_plan": plan})
        assert not remarks.faults
        assert found.shape is not None
        missing = {each.name: each.missing for each in found.shape.sketched}
        # three degrees of freedom less than coordinates; every tape takes one
        assert sum(missing.values()) == 2 * len(places) - 3 - len(plan["tapes"])
        for tape in plan["tapes"]:
            length = math.dist(found.places[tape["start"]], found.places[tape["end"]])
            assert length == pytest.approx(tape["length_mm"], abs=0.05)
        mean = math.fsum(math.dist(a, b) for a, b in pairwise(places)) / (len(places) - 1)
        for each in found.shape.sketched:
            assert 50.0 < each.ellipse.major_mm < 2.0 * mean
