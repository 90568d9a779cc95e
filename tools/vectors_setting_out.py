"""Questions about strings as they hang with the answers of the room of setting out, for the tests of the scripts."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from pavewright.desk import demo_document, make_plan_so_far
from pavewright.desk._plain import plain
from pavewright.setting_out import PegRole
from pavewright.setting_out.hanging import staff_reading_mm
from pavewright.setting_out.hanging._sights import height_of_collimation_mm

if TYPE_CHECKING:
    import random


def setting_out(chance: random.Random) -> dict[str, Any]:
    """Return pegs and strings of a job, heights read at some pegs, and where every string then hangs."""
    document = json.loads(demo_document())
    planned = make_plan_so_far(demo_document()).setting_out
    if planned is None:
        raise LookupError(str(document.get("identity")))
    read = []
    for peg in planned.pegs:
        if peg.role is PegRole.BASE or chance.random() < 0.5:
            continue
        away = chance.choice((0.0, 12.0, 400.0))
        read.append(
            {
                "peg": peg.name,
                "x_mm": peg.at[0] + away,
                "y_mm": peg.at[1],
                "level_mm": round(peg.string_level_mm + chance.uniform(-30.0, 30.0), 1),
            }
        )
    document["strings_set"] = read
    found = make_plan_so_far(json.dumps(document).encode()).setting_out
    if found is None:
        raise LookupError(str(document.get("identity")))
    work = found.work
    checks = [check for step in work.steps for check in step.checks]
    tapes = [round(check.expected_mm + chance.uniform(-2.0, 2.0) * check.limit_mm, 1) for check in checks]
    return {
        "pegs": [
            {
                "name": peg.name,
                "area": peg.area,
                "role": peg.role.value,
                "at": list(peg.at),
                "string_level_mm": peg.string_level_mm,
            }
            for peg in found.pegs
        ],
        "strings": [plain(each) for each in work.hung],
        "read": read,
        "found_mm": work.peg_found_mm,
        "stray": [each.peg for each in work.stray],
        "crossings": [
            {
                "peg": each.peg,
                "string": each.string,
                "level_mm": each.level_mm,
                "sag_mm": each.sag_mm,
                "hung_by": each.hung_by.value,
            }
            for each in work.crossings
        ],
        "checks": [
            {
                "expected_mm": check.expected_mm,
                "limit_mm": check.limit_mm,
                "found_mm": tape,
                "good": abs(tape - check.expected_mm) <= check.limit_mm,
            }
            for check, tape in zip(checks, tapes, strict=True)
        ],
        "staff": [
            {
                "known_mm": known,
                "backsight_mm": back,
                "wanted_mm": wanted,
                "shows_mm": staff_reading_mm(height_of_collimation_mm(known, back), wanted),
            }
            for known, back, wanted in ((10_000.0, 1250.0, 9850.0), (9_700.5, 820.0, 10_600.0))
        ],
    }
