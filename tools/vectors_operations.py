"""Documents by chance and what the program makes of them by operations, for the tests of the scripts of the pages."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from pavewright.job.operations import (
    KEYS,
    KINDS,
    MISSING,
    REFERENCES,
    SETS,
    UNIQUE,
    Done,
    Following,
    apply,
    between,
    inverse,
)

if TYPE_CHECKING:
    import random
    from collections.abc import Callable

_NAMES = ("A", "B", "C", "Wall 1", "Door")
_NUMBERS = (0, 1, 4000.5, 6000, True, None)
_CASES = 80
_BOTH_TOUCH = 0.4
"""In so many cases one changes what another gives a new name."""


def operations(chance: random.Random) -> dict[str, Any]:
    """Return the tables of lists and fields, and changes of two people on one document."""
    return {
        "tables": {
            "keys": {name: list(fields) for name, fields in KEYS.items()},
            "kinds": dict(KINDS),
            "references": dict(sorted(REFERENCES.items())),
            "sets": sorted(SETS),
            "unique": sorted(UNIQUE),
        },
        "cases": [json.dumps(_case(chance), separators=(",", ":")) for _ in range(_CASES)],
    }


def _case(chance: random.Random) -> dict[str, Any]:
    before = _document(chance)
    if chance.random() < _BOTH_TOUCH:
        mine, theirs = _touched(chance, before, "x_mm", "start"), _touched(chance, before, "name", "end")
    else:
        mine, theirs = _changed(chance, before), _changed(chance, before)
    made = between(before, mine)
    merged = apply(theirs, made)
    following = Following().after([Done(((each,),)) for each in between(before, theirs)])
    return {
        "before": before,
        "mine": mine,
        "theirs": theirs,
        "operations": made,
        "inverse": inverse(made),
        "followed": [following.followed(each) for each in made],
        "merged": merged.document,
        "clashes": [
            {"kind": each.kind, "operation": each.operation} | _given(ours=each.ours, theirs=each.theirs)
            for each in merged.clashes
        ],
    }


def _given(**values: Any) -> dict[str, Any]:  # noqa: ANN401 - any JSON values
    return {name: value for name, value in values.items() if value is not MISSING}


def _some(chance: random.Random, one: Callable[[], Any], most: int = 4) -> list[Any]:
    return [one() for _ in range(chance.randrange(most))]


def _document(chance: random.Random) -> dict[str, Any]:
    def name() -> str:
        return chance.choice(_NAMES)

    def value() -> Any:  # noqa: ANN401 - any JSON value
        return chance.choice(_NUMBERS)

    lists: dict[str, Callable[[], Any]] = {
        "points": lambda: {"name": name(), "x_mm": value()},
        "offsets": lambda: {"name": name(), "line_from": name()},
        "tapes": lambda: {"start": name(), "end": name(), "length_mm": value()},
        "rows": lambda: {"point": name(), chance.choice(("foresight_mm", "intermediate_mm")): value()},
        "walls": lambda: {"name": name(), "start": name(), "openings": _some(chance, lambda: {"name": name()}, 3)},
        "edges": lambda: {"corner": name(), "restraint": chance.choice(("haunch", "kerb"))},
        "square_corners": lambda: {"at": name(), "first": name(), "second": "B"},
        "holes": lambda: _some(chance, lambda: {"point": name()}),
        "ground_points": name,
        "along": name,
    }
    found: dict[str, Any] = {field: _some(chance, make) for field, make in lists.items() if chance.random() < 0.6}
    found["fall"] = {"away_from": name(), "one_in": value()}
    found["identity"] = {"client": name()}
    return {"site": found} if chance.random() < 0.9 else {"site": None, "title": name()}


def _changed(chance: random.Random, before: dict[str, Any]) -> dict[str, Any]:
    """Return a document in which some parts are those of another one, and some lists have another order."""
    other = _document(chance)
    if not isinstance(before["site"], dict) or not isinstance(other["site"], dict):
        return other
    site = {field: value for field, value in before["site"].items() if chance.random() < 0.95}
    for field, value in other["site"].items():
        if chance.random() < 0.4:
            kept = site.get(field)
            site[field] = [*kept[: chance.randrange(3)], *value] if isinstance(kept, list) else value
            if isinstance(kept, list) and chance.random() < 0.3:
                site[field] = chance.sample(kept, len(kept))
    return {"site": site}


def _touched(chance: random.Random, before: dict[str, Any], *fields: str) -> dict[str, Any]:
    """Return a document in which some fields of items have other values."""
    after: dict[str, Any] = json.loads(json.dumps(before))
    for items in (after["site"] or {}).values():
        for item in items if isinstance(items, list) else ():
            for field in fields:
                if isinstance(item, dict) and field in item and chance.random() < _BOTH_TOUCH:
                    item[field] = f"New {chance.randrange(100)}"
    return after
