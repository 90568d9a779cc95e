"""The tables of a plan: levels, pieces, layers, quantities, cost, tasks, findings, workings."""

from __future__ import annotations

import dataclasses
from typing import TYPE_CHECKING, Any

from pavewright.api._api_words import WORDS
from pavewright.sums import Working

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping, Sequence

    import pandas as pd

    from pavewright.pipeline import PlanSoFar

    Row = dict[str, Any]


class UnknownTableError(ValueError):
    """There is no such table; the message names those that there are."""

    def __init__(self, name: str) -> None:
        """Take the name that was asked for."""
        super().__init__(WORDS.no_table(name=name, known=", ".join(TABLES)))


class MissingTablesError(ImportError):
    """The library of tables is not installed; the message says what to install."""


def table_of(rows: Sequence[Row]) -> pd.DataFrame:
    """Return rows as a data frame.

    Raises:
        MissingTablesError: pandas is not installed.
    """
    try:
        from pandas import DataFrame  # noqa: PLC0415 - large, and an extra
    except ImportError as problem:
        raise MissingTablesError(WORDS.no_pandas) from problem
    return DataFrame(list(rows))


def _levels(plan: PlanSoFar) -> Iterator[Row]:
    for area in plan.levels.areas if plan.levels is not None else ():
        for spot in (*area.corners, *area.spots):
            x_mm, y_mm = spot.at
            yield {
                "area": area.area,
                "kind": spot.kind.value,
                "name": spot.name,
                "x_mm": x_mm,
                "y_mm": y_mm,
                "level_mm": spot.level_mm,
            }


def _pieces(plan: PlanSoFar) -> Iterator[Row]:
    for area in plan.laying.areas if plan.laying is not None else ():
        for piece in area.pieces:
            x_mm, y_mm = piece.shape.centre_mm
            yield {
                "area": area.area,
                "number": piece.number,
                "course": piece.course,
                "place": piece.place,
                "unit": piece.unit,
                "kind": piece.kind.value,
                "border": piece.border,
                "zone": piece.zone,
                "x_mm": x_mm,
                "y_mm": y_mm,
                "along_mm": piece.along_mm,
                "across_mm": piece.across_mm,
                "area_m2": piece.area_m2,
                "kg": piece.kg,
                "sliver": piece.sliver,
                "saw_m": piece.saw_m,
            }


def _layers(plan: PlanSoFar) -> Iterator[Row]:
    for area in plan.build_ups.areas if plan.build_ups is not None else ():
        for layer in area.layers:
            yield {
                "area": area.area,
                "key": layer.key.value,
                "name": layer.name,
                "material": layer.material.value,
                "top_below_paving_mm": area.top_of(layer.key),
                "thickness_mm": layer.thickness_mm,
                "extends_mm": layer.extends_mm,
                "why": layer.why,
            }


def _quantities(plan: PlanSoFar) -> Iterator[Row]:
    for item in plan.quantities.items if plan.quantities is not None else ():
        yield {
            "key": item.key.text,
            "group": item.group.value,
            "description": item.description,
            "unit": str(item.unit),
            "net": item.net,
            "allowance_percent": item.allowance_percent,
            "gross": item.gross,
            "ordered": item.ordered,
            "order_unit": item.order_unit,
            "low": item.low,
            "high": item.high,
            "kg": item.kg,
        }


def _cost(plan: PlanSoFar) -> Iterator[Row]:
    for line in plan.cost.lines if plan.cost is not None else ():
        yield {
            "key": line.key.text,
            "group": line.group.value,
            "description": line.description,
            "quantity": line.quantity,
            "unit": line.unit,
            "rate_minor": line.rate_minor,
            "low_minor": line.low_minor,
            "amount_minor": line.amount_minor,
            "high_minor": line.high_minor,
            "working": line.working.expression,
        }


def _tasks(plan: PlanSoFar) -> Iterator[Row]:
    for task in plan.programme.tasks if plan.programme is not None else ():
        yield {
            "key": task.key.text,
            "description": task.description,
            "start": task.start,
            "finish": task.finish,
            "work_min": task.work_min,
            "people": task.people,
            "wait": task.wait,
            "critical": task.critical,
            "total_float_min": task.total_float_min,
            "after": tuple(key.text for key in task.after),
        }


def _findings(plan: PlanSoFar) -> Iterator[Row]:
    for finding in plan.findings:
        yield {
            "code": str(finding.code),
            "severity": finding.severity.value,
            "place": finding.place,
            "message": finding.message,
            "value": finding.value,
            "limit": finding.limit,
            "unit": finding.unit,
        }


def _workings(plan: PlanSoFar) -> Iterator[Row]:
    for place, working in _found(plan, ()):
        yield {
            "room": place[0],
            "place": ".".join(place),
            "expression": working.expression,
            "result": working.result,
            "unit": working.unit,
            "note": working.note,
            "figures": tuple(figure.key for figure in working.figures),
        }


_WITHOUT = frozenset({"job", "pieces", "sawn", "figures", "decided_by", "book"})
"""Fields that hold no sum, or thousands of values without one."""


def _found(value: object, place: tuple[str, ...]) -> Iterator[tuple[tuple[str, ...], Working]]:
    """Give every sum behind a value, with its place, in the order of its fields."""
    if isinstance(value, Working):
        yield place, value
    elif isinstance(value, tuple):
        for number, each in enumerate(value):
            yield from _found(each, (*place, str(number)))
    elif dataclasses.is_dataclass(value):
        for field in dataclasses.fields(value):
            if field.name not in _WITHOUT:
                yield from _found(getattr(value, field.name), (*place, field.name))


TABLES: Mapping[str, Callable[[PlanSoFar], Iterator[Row]]] = {
    "levels": _levels,
    "pieces": _pieces,
    "layers": _layers,
    "quantities": _quantities,
    "cost": _cost,
    "tasks": _tasks,
    "findings": _findings,
    "workings": _workings,
}
"""Every table by its name; what it has for rows."""
