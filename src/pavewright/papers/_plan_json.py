"""The whole plan, or the parts of it that are asked for, as JSON."""

from __future__ import annotations

import dataclasses
import datetime as dt
import json
import operator
from enum import Enum, StrEnum
from typing import TYPE_CHECKING, Any

from pydantic import BaseModel

from pavewright.cost import CostLine, OrderLine
from pavewright.levels import DoorStep
from pavewright.papers._sign_findings import findings_of
from pavewright.pipeline import OrderChance
from pavewright.programme import DeliveryLine
from pavewright.quantities import Item, Key

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Mapping

    from pavewright.job import Job
    from pavewright.pipeline import Plan, PlanSoFar


class PlanPart(StrEnum):
    """A part of a plan, by the name of its field."""

    JOB = "job"
    EDITION = "edition"
    SURVEY = "survey"
    LEVELS = "levels"
    LAYING = "laying"
    BUILD_UPS = "build_ups"
    EARTHWORKS = "earthworks"
    WATER = "water"
    QUANTITIES = "quantities"
    COST = "cost"
    PROGRAMME = "programme"
    SETTING_OUT = "setting_out"
    HOLD_POINTS = "hold_points"
    BEDDING = "bedding"
    AS_LAID = "as_laid"
    FINDINGS = "findings"
    BOOK = "book"
    OFFERED = "offered"
    LABOUR = "labour"
    MISSING = "missing"
    FAULTS = "faults"


def plan_json(plan: Plan | PlanSoFar, parts: Collection[PlanPart] = tuple(PlanPart)) -> bytes:
    """Return a plan as JSON: every field of every room under its own name, numbers unrounded.

    Args:
        plan: The plan.
        parts: What of it is wanted; all of it where nothing else is said. They stand in the order of the plan.

    Raises:
        ValueError: a number is not finite, which is a bug.
    """
    wanted = plan_parts(plan, parts)
    text = json.dumps(wanted, ensure_ascii=False, allow_nan=False, check_circular=False, separators=(",", ":"))
    return text.encode("utf-8") + b"\n"


def plan_parts(plan: Plan | PlanSoFar, parts: Collection[PlanPart]) -> dict[str, Any]:
    """Return parts of a plan as what JSON holds, in the order of the plan.

    A room that is not made is null; a whole plan has nothing missing, and its labour stands in its cost.
    """
    found: dict[str, Any] = {}
    made: dict[PlanPart, Callable[[], Any]] = {
        PlanPart.FINDINGS: lambda: findings_of(plan),
        PlanPart.JOB: lambda: _without_idle_prices(plan),
    }
    for part in PlanPart:
        if part in parts and hasattr(plan, part.value):
            value = made[part]() if part in made else getattr(plan, part.value)
            found[part.value] = plain(value)
    return found


def _without_idle_prices(plan: Plan | PlanSoFar) -> Job:
    """Return the job of a plan with the items of the book's catalogue that the plan buys, and no others."""
    job = plan.job
    if plan.book is None or not job.rates.catalogue:
        return job
    items = () if plan.quantities is None else plan.quantities.items
    wanted = {item.key.catalogue for item in items} | set(plan.book.own_items)
    kept = tuple(each for each in job.rates.catalogue if each.key in wanted)
    return job.model_copy(update={"rates": job.rates.model_copy(update={"catalogue": kept})})


def plain(value: Any) -> Any:  # noqa: ANN401 - anything that a plan is made of
    """Return a value of a plan as what JSON holds.

    Raises:
        TypeError: a plan holds no such thing.
    """
    kind = value.__class__
    if kind in _AS_IT_IS:
        return value
    write = _writers.get(kind)
    if write is None:
        write = _writers[kind] = _writer(kind)
    return write(value)


WORDS_TOO: Mapping[type, tuple[str, ...]] = {
    DoorStep: ("text",),
    Item: ("order_unit", "ordered_words"),
    OrderLine: ("order_unit", "ordered_words"),
    DeliveryLine: ("order_unit", "ordered_words"),
    CostLine: ("quantity_words",),
    OrderChance: ("order_unit", "order_units", "planned_words"),
}
"""Words of a value that are made once, here and on paper alike, and written beside its fields."""
_AS_IT_IS = frozenset({str, float, int, bool, type(None)})
_WRITTEN: tuple[tuple[type, Callable[[Any], Any]], ...] = (
    (tuple, lambda value: [plain(each) for each in value]),
    (list, lambda value: [plain(each) for each in value]),
    (BaseModel, lambda value: value.model_dump(mode="json")),
    (dt.date, lambda value: value.isoformat()),
    (Enum, lambda value: value.value),
    (float, float),
    (str, str),
    (int, int),
)
_writers: dict[type, Callable[[Any], Any]] = {}
"""How each type is written, made once: a plan holds ten thousands of values of some hundred types."""


def _writer(kind: type) -> Callable[[Any], Any]:
    """Return how values of a type are written."""
    if issubclass(kind, Key):
        return operator.attrgetter("text")
    if dataclasses.is_dataclass(kind):
        return _fields_of(kind)
    for known, write in _WRITTEN:
        if issubclass(kind, known):
            return write
    message = f"a plan holds no {kind.__name__}"
    raise TypeError(message)


def _fields_of(kind: type) -> Callable[[Any], Any]:
    names = [field.name for field in dataclasses.fields(kind)]
    names += WORDS_TOO.get(kind, ())
    if not names:
        return lambda _: {}
    if len(names) == 1:
        only = names[0]
        return lambda value: {only: plain(getattr(value, only))}
    read = operator.attrgetter(*names)
    return lambda value: {name: plain(each) for name, each in zip(names, read(value), strict=True)}
