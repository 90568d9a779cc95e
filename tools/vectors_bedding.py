"""Questions about slabs on their bed with the answers of the room of bedding, for the tests of the scripts."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pavewright import rulebook
from pavewright.as_laid import TRUSTED
from pavewright.bedding import (
    BedPlanned,
    Corners,
    Limits,
    Seam,
    advise,
    aimed_at,
    bed_so_far,
    beside,
    figures,
    lip_at,
    plate,
    sinks,
)
from pavewright.bedding import places as tap_places
from pavewright.desk._plain import plain as plain_values
from pavewright.job.on_site import Rocks

if TYPE_CHECKING:
    import random

SHAPES = (
    ((0.0, 0.0), (600.0, 0.0), (600.0, 600.0), (0.0, 600.0)),
    ((1000.0, 500.0), (1900.0, 500.0), (1900.0, 1100.0), (1000.0, 1100.0)),
    ((200.0, 100.0), (640.0, 360.0), (500.0, 620.0), (40.0, 330.0)),
    ((0.0, 0.0), (450.0, 0.0), (450.0, 300.0)),
    ((0.0, 0.0), (600.0, 0.0), (600.0, 310.0), (0.0, 590.0)),
)
STANDING = (
    (0.5, 0.2, -0.3, 0.4),
    (2.0, 2.0, 2.0, 2.0),
    (0.0, 3.0, 6.0, 3.0),
    (5.0, 1.0, 5.0, 1.0),
    (-4.0, 0.0, 5.0, 1.0),
    (14.0,) * 4,
)


def _advised(chance: random.Random, limits: Limits) -> list[dict[str, Any]]:
    """Return slabs read in many ways, and what to do with each."""
    found = []
    for number in range(90):
        corners = SHAPES[number % len(SHAPES)]
        turn = number // len(SHAPES)
        if turn < len(STANDING):
            over: list[float | None] = list(STANDING[turn][: len(corners)])
        else:
            over = [round(chance.gauss(3.0, 2.5), 1) for _ in corners]
        if turn % 7 == 6:
            over[chance.randrange(len(over))] = None
        sd = 0.3 if turn == 0 else chance.choice((0.3, 0.5, 1.0, 1.5))
        rocks = None if turn == 0 else chance.choice((None, None, None, None, Rocks.NO, Rocks.A_C))
        bed = None if turn == 0 else chance.choice((None, None, 45.0, 27.0))
        allowed = [chance.choice((2.0, 6.0)) for _ in corners] if number % 3 == 1 else []
        told = advise(corners, over, sd, limits, rocks, bed, allowed)
        asked = {"corners": corners, "over": over, "sd": sd, "rocks": rocks, "bed": bed, "allowed": allowed}
        found.append(asked | {"advice": plain_values(told)})
    return found


def _tapped() -> list[dict[str, Any]]:
    """Return every place at which slabs may be tapped, and what that does."""
    found = []
    for corners in SHAPES:
        slab = plate(corners)
        for place, near, at in tap_places(slab):
            move, held = sinks(slab, at)
            found.append({"corners": corners, "place": place, "near": near, "at": at, "move": move, "held": held})
    return found


def _seams(chance: random.Random) -> list[dict[str, Any]]:
    """Return units side by side, the step between them, and what lies beside each corner of the first."""
    found = []
    for number in range(24):
        many = 3 + number % 2
        seam = Seam(7, number % many, (0.0, round(chance.uniform(0.3, 1.0), 3)), 9, number % 4, (1.0, 0.1))
        one = Corners(tuple(round(chance.gauss(1.0, 1.5), 1) for _ in range(many)), 0.5)
        other = Corners(
            tuple(None if number % 6 == 5 and each == 0 else round(chance.gauss(0.0, 1.5), 1) for each in range(4)),
            chance.choice((0.5, 1.5)),
        )
        lip = lip_at(seam, one, other, 2.0)
        found.append(
            {
                "row": [7, seam.first_side, *seam.first_part, 9, seam.second_side, *seam.second_part],
                "one": {"over": one.over_mm, "sd": one.sd_mm},
                "other": {"over": other.over_mm, "sd": other.sd_mm},
                "lip": None if lip is None else plain_values(lip),
                "beside": [beside(7, corner, many, [(seam, other)]) for corner in range(many)],
            }
        )
    return found


def bedding(chance: random.Random) -> dict[str, Any]:
    """Return what the scripts of laying are held to."""
    read = figures(rulebook.load("england"))
    limits = read.limits(25.0)
    aims = [[], [-3.0], [0.4, 0.2], [-3.0, 2.5], [9.0], [1.5]]
    beds = []
    for number in range(40):
        bed = BedPlanned(None if number == 0 else 0.42, 35.0, 45.0, 10.0, 5.0)
        laid = round(chance.uniform(0.5, 40.0), 1)
        opened = float(round(laid * 0.42 * chance.uniform(0.6, 1.7)))
        left = chance.choice((None, 0.0, 0.25, 0.75))
        beds.append(
            {"bed": plain_values(bed), "opened": opened, "left": left, "laid_m2": laid}
            | {"found": plain_values(bed_so_far(opened, left, laid, bed))}
        )
    return {
        "limits": plain_values(limits),
        "trusted_sd": TRUSTED,
        "taps": _tapped(),
        "advised": _advised(chance, limits),
        "seams": _seams(chance),
        "aims": [{"beside": each, "aim": aimed_at(0.0, each, 2.0, 6.0)} for each in aims],
        "beds": beds,
    }
