"""One job that went through everything: quoted, accepted with an option, changed, billed, paid, laid, handed over."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from pavewright import rulebook
from pavewright.as_laid import reading_places
from pavewright.desk import AccountStep, account_step, make_plan
from pavewright.job.operations import apply

_EXAMPLE = Path(__file__).parents[1] / "examples" / "gully_yard.json"
OPTION = {"name": "In stack bond", "changes": [{"path": "areas.0.laying.pattern", "text": "stack"}]}
DEEPER_MM = 80.0
PAID_MINOR = 100_000
_STAGES = (
    {"event": "deposit", "percent": 25.0},
    {"event": "base_in", "percent": 35.0},
    {"event": "laid", "percent": 30.0},
    {"event": "complete"},
)
_TERMS = {
    "stages": list(_STAGES),
    "retention_percent": 5.0,
    "retention_freed_percent": 50.0,
    "defects_days": 28,
    "options": [OPTION],
    "provisional": [{"name": "Rock broken out", "unit": "m3", "rate_minor": 18_500}],
}


def quoted_document() -> dict[str, Any]:
    """Return the job as it was quoted."""
    document: dict[str, Any] = json.loads(_EXAMPLE.read_text("utf-8"))
    document["terms"] |= _TERMS
    priced: dict[str, Any] = json.loads((_EXAMPLE.parent / "front_drive.json").read_text("utf-8"))["rates"]
    # stone, sheet and plate have a price, so that a deeper dig has one
    document["rates"]["materials"] += [
        each for each in priced["materials"] if each["key"] in {"sub_base", "geotextile"}
    ]
    document["rates"]["plant"] += [each for each in priced["plant"] if each["key"] == "plate"]
    document["agreement"] = {"place": "home"}
    return document


def gone_through_document() -> dict[str, Any]:
    """Return the job at its end, each step written by the verb that the screens use."""
    document, area = quoted_document(), "Yard"
    name = str(OPTION["name"])
    document = _step(document, AccountStep.ACCEPT, on="2027-07-01", by="A. Customer (invented)", options=[name])
    head = {
        "name": "Soft ground",
        "cause": "ground",
        "reason": "Soft clay found.",
        "asked_by": "the foreman (invented)",
    }
    document = _step(document, AccountStep.DIG_DEEPER, on="2027-08-10", area=area, deeper_mm=DEEPER_MM, **head)
    document["variations"][0] |= {
        "state": "approved",
        "decided_on": "2027-08-11",
        "decided_by": "A. Customer (invented)",
    }
    document = _step(document, AccountStep.STAGE, on="2027-08-12", number=1)
    document = _step(
        document, AccountStep.CREDIT, on="2027-08-13", number=1, words="billed too high", gross_minor=12_345
    )
    document["received"] = [{"on": "2027-08-14", "amount_minor": PAID_MINOR, "bill": 1}]
    made = make_plan(json.dumps(document))
    places = [
        each for each in reading_places(made.survey, made.levels, rulebook.load(made.edition)) if each.area == area
    ]
    document["as_laid"] = {
        "date": "2027-09-01",
        "read_by": "the foreman (invented)",
        "readings": [
            {
                "x_mm": each.at[0],
                "y_mm": each.at[1],
                "level_mm": each.planned_mm + off,
                "area": area,
                "label": each.label,
            }
            for each, off in zip(places, (0.5, -1.0, 2.0) * len(places), strict=False)
        ],
    }
    unit = document["units"][0]["name"]
    document["handed_over"] = {
        "completed_on": "2027-08-31",
        "handed_on": "2027-09-02",
        "batches": [{"unit": unit, "batch": "B 12/7", "area": area}],
        "buried": [{"name": "Pipe of the gully", "kind": "drain", "depth_mm": 430.0, "measured_on": "2027-08-12"}],
        "cover_keys": [{"cover": "Chamber", "count": 2, "kept_at": "the kitchen (invented)"}],
        "spares": [{"unit": unit, "count": 4, "kept_at": "the shed (invented)"}],
    }
    return document


def _step(document: dict[str, Any], what: AccountStep, **asked: Any) -> dict[str, Any]:
    changed: dict[str, Any] = apply(document, account_step(json.dumps(document), what, asked)).document
    return changed
