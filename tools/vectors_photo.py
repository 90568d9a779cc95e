"""Questions about photos of a plane and turned levels with the answers of their room, for the tests of the scripts."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from pavewright import rulebook
from pavewright.desk._plain import plain
from pavewright.job.on_site import PhotoPlaneKind
from pavewright.photo_survey import (
    Mark,
    Picture,
    Trust,
    judged,
    limits_of,
    photo_figures,
    plane_from_photo,
    turned_slope,
)

if TYPE_CHECKING:
    import random

SIZE = (1600.0, 1200.0)
SPOTS = ((0.1, 0.3), (0.9, 0.32), (0.88, 0.9), (0.12, 0.93), (0.5, 0.6), (0.3, 0.75), (0.7, 0.5), (0.55, 0.88))


def _seen(at: tuple[float, float], turn: float, height: float, pitch: float) -> tuple[float, float]:
    """Return where a place of the ground is seen by a camera that looks down at it."""
    along = at[0] * math.cos(turn) + at[1] * math.sin(turn) + 3000.0
    across = at[0] * math.sin(turn) - at[1] * math.cos(turn)
    ahead = along * math.cos(pitch) + height * math.sin(pitch)
    down = height * math.cos(pitch) - along * math.sin(pitch)
    focal = 1200.0
    return SIZE[0] / 2 + focal * across / ahead, SIZE[1] / 2 + focal * down / ahead


def _picture(chance: random.Random, number: int) -> tuple[Picture, Trust]:
    """Return a made-up photo, of many sound and weak kinds in turn."""
    figures = photo_figures(rulebook.load(rulebook.NEUTRAL))
    trust = figures.trust(PhotoPlaneKind.WALL if number % 5 == 4 else PhotoPlaneKind.FLOOR)
    turn, height = chance.uniform(0.0, 6.0), chance.uniform(300.0, 2200.0)
    pitch = chance.uniform(0.1, 0.7)
    count = 3 + number % 6
    marks, wanted = [], []
    for place in range(count + 3):
        at = (chance.uniform(-1500.0, 2500.0), chance.uniform(-1800.0, 1800.0))
        x, y = _seen(at, turn, height, pitch)
        seen = (x + chance.gauss(0.0, 2.0), y + chance.gauss(0.0, 2.0))
        if place < count:
            off = 600.0 if number % 9 == 3 and place == 1 else 0.0
            marks.append(Mark(f"M{place}", seen, (at[0] + off, at[1]), chance.choice((3.0, 5.0, 10.0))))
        else:
            wanted.append((f"T{place - count}", seen))
    if number % 11 == 7 and count > 3:
        marks[0], marks[1] = (
            replace(marks[0], known_mm=marks[1].known_mm),
            replace(marks[1], known_mm=marks[0].known_mm),
        )
    size = None if number % 13 == 12 else SIZE
    if size is None:
        trust = replace(trust, lens_sd=(0.0, 0.0))
    return Picture(f"P{number}", tuple(marks), tuple(wanted), size, None if number % 5 == 4 else True), trust


def photos(chance: random.Random) -> dict[str, Any]:
    """Return photos and slopes with what the program answers."""
    figures = photo_figures(rulebook.load(rulebook.NEUTRAL))
    limits = limits_of(figures)
    found = []
    for number in range(66):
        picture, trust = _picture(chance, number)
        answer = plain(plane_from_photo(picture, trust, limits))
        del answer["numbers"], answer["name"]
        asked = {
            "marks": [plain(mark) for mark in picture.marks],
            "wanted": [{"name": name, "seen_px": seen} for name, seen in picture.wanted],
            "size_px": picture.size_px,
            "front": picture.seen_from_front,
        }
        found.append({"picture": asked, "trust": plain(trust), "answer": answer})
    return {"limits": plain(limits), "pictures": found, "slopes": [_slope(chance) for _ in range(40)]}


def _slope(chance: random.Random) -> dict[str, Any]:
    pairs = chance.choice((1, 2, 3, 4, 5, 8))
    slope, error = chance.uniform(-2.0, 2.0), chance.uniform(-0.5, 0.5)
    first = [round(slope + error + chance.gauss(0.0, 0.03), 2) for _ in range(pairs)]
    turned = [round(error - slope + chance.gauss(0.0, 0.03), 2) for _ in range(pairs)]
    found = turned_slope(first, turned, 0.05, 2.0, 95.0)
    asked = {"wanted_mm_per_m": 12.5, "within_mm": chance.choice((1.0, 5.0, 20.0)), "over_mm": 1000.0, "share": 0.5}
    verdict, off, band = judged(found, asked["wanted_mm_per_m"], asked["within_mm"], asked["over_mm"], asked["share"])
    return {
        "pairs": [{"first_deg": one, "turned_deg": other} for one, other in zip(first, turned, strict=True)],
        "found": plain(found),
        "asked": asked,
        "judged": {"verdict": verdict.value, "off_mm": off, "band_mm": band},
    }
