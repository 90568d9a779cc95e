"""What the log of a day on the phone is held to: hours expected at the end, and how far each bay is."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from pavewright import rulebook
from pavewright.desk import demo_document, plain
from pavewright.job import load_document, parse
from pavewright.pipeline import plan_as_far
from pavewright.site_log import STAGES, bays_seen, site_log
from pavewright.site_log import SUMS as LOG_SUMS

if TYPE_CHECKING:
    import random

_MANY = 30
_DAYS = 5


def log(chance: random.Random) -> dict[str, Any]:
    """Return cases of hours and one job with random days, with what the program says of it."""
    document = json.loads(demo_document())
    rules = rulebook.load(rulebook.NEUTRAL)
    plan = plan_as_far(parse(load_document(json.dumps(document))), rules)
    assert plan.levels is not None  # noqa: S101 - the demo has levels
    assert plan.labour is not None  # noqa: S101
    areas = [(each.area, [facet.outline for facet in each.surface.facets]) for each in plan.levels.areas]
    days = []
    for number in range(2 * _DAYS):
        worked = [
            {"task": each.key.text, "person_h": round(chance.uniform(0.5, 9.0), 1)}
            | ({"done_percent": float(chance.randint(1, 100))} if chance.random() < 0.7 else {})
            for each in chance.sample(plan.labour, 3)
        ]
        bays = []
        for _ in range(6):
            name, facets = chance.choice(areas)
            ring = chance.choice(facets)
            x, y = (sum(each) / len(ring) for each in zip(*ring, strict=True))
            bays.append({"area": name, "stage": chance.choice(STAGES).value, "x_mm": x, "y_mm": y})
        date = f"2027-06-{1 + chance.randrange(_DAYS):02}"
        days.append({"name": f"log {number}", "date": date, "worked": worked, "bays": bays})
    job = parse(load_document(json.dumps(document | {"site_days": days})))
    told = site_log(job, plan.labour, None, rules)
    return {
        "hours": [_hours(chance) for _ in range(_MANY)],
        "days": days,
        "areas": [{"area": name, "facets": [[list(at) for at in ring] for ring in facets]} for name, facets in areas],
        "bays": [
            {"area": each.area, "number": each.number, "stage": plain(each.stage), "on": plain(each.on)}
            for each in bays_seen(job, plan.levels.areas)
        ],
        "tasks": [
            {"key": each.key.text, "logged_h": each.logged_h, "done_percent": each.done_percent}
            for each in told.tasks
            if not next(task for task in plan.labour if task.key == each.key).layers
        ],
    }


def _hours(chance: random.Random) -> dict[str, Any]:
    given = {
        "logged_h": round(chance.uniform(0.5, 40.0), 1),
        "done_percent": float(chance.randint(11, 100)),
        "done_sd_percent": 5.0,
    }
    return {"given": given, "found": LOG_SUMS[0].compute(**given)}
