"""Sums of the limits of a regime: the largest gap under an edge, the highest lip."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.as_laid._regimes import GAPS, RULES, Regime
from pavewright.job.on_site import JointFill
from pavewright.rules import Figure, Status
from pavewright.sums import FromTable, Quantity, Sum, SumRefusedError, Value

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.as_laid._regimes import Limit
    from pavewright.rules import Rulebook

_UNKNOWN = -1.0
"""Stands for what was not measured, and for a limit that is not known."""
_NOT_NOTED = "not_noted"


def _figure(value: float, unit: str) -> Figure:
    return Figure("", value, unit, "", "", Status.PRACTICE, "")


def _given(value: float) -> float | None:
    return None if value < 0.0 else value


def _told(limit: Limit) -> dict[str, Value]:
    low, high = limit.min_mm, limit.max_mm
    return {
        "min_mm": _UNKNOWN if low is None else low,
        "max_mm": _UNKNOWN if high is None else high,
        "not_known": "" if limit.why is None else limit.why.value,
    }


def lip_limit(
    columns: tuple[str, ...],
    values: tuple[float, ...],
    joint_mm: float,
    fill: str,
    length_mm: float,
    width_mm: float,
    warp_mm: float,
) -> dict[str, Value]:
    """Return the highest lip that a regime allows.

    Source: definition
    """
    if len(columns) != len(values):
        message = "Give each rule of the regime one value."
        raise SumRefusedError(message)
    rules = tuple((name, _figure(value, "mm")) for name, value in zip(columns, values, strict=True))
    sides = None if min(length_mm, width_mm) <= 0.0 else (length_mm, width_mm)
    filled = None if fill == _NOT_NOTED else JointFill(fill)
    return _told(Regime("", "", (), rules).lip_limit(_given(joint_mm), filled, sides, _given(warp_mm)))


def gap_limit(
    edges_mm: tuple[float, ...],
    limits_mm: tuple[float, ...],
    rules: tuple[float, ...],
    edge_mm: float,
    contacts_mm: float,
    warp_mm: float,
) -> dict[str, Value]:
    """Return the largest gap under a straight edge that a regime allows.

    Source: definition
    """
    if len(edges_mm) != len(limits_mm) or list(edges_mm) != sorted(set(edges_mm)) or len(rules) != _RULED:
        message = "Give edges that grow, each with its limit, and whether it goes by contacts and by warp."
        raise SumRefusedError(message)
    gaps = tuple((edge, _figure(limit, "mm")) for edge, limit in zip(edges_mm, limits_mm, strict=True))
    named = tuple((name, _figure(value, "-")) for name, value in zip(_GAP_RULES, rules, strict=True))
    return _told(Regime("", "", gaps, named).gap_limit(edge_mm, _given(contacts_mm), _given(warp_mm)))


_GAP_RULES = ("by_contacts", "gap_per_warp")
_RULED = len(_GAP_RULES)


def _read(given: Mapping[str, Value], rules: Rulebook) -> Mapping[str, FromTable]:
    """Return what the rulebook says of the regime that is asked for.

    Raises:
        SumRefusedError: it has no such regime.
    """
    key, table, gaps = str(given["regime"]), rules.table(RULES), rules.table(GAPS)
    rows = {row.key: row for row in table.rows}
    if key not in rows:
        message = f"The rulebook has no regime {key}: take one of {', '.join(rows)}."
        raise SumRefusedError(message)
    cells = tuple(table.figure(key, column) for column, _ in rows[key].values)
    names = tuple(column for column, _ in rows[key].values)
    lengths = dict(gaps.numbers)
    edges = next((row.values for row in gaps.rows if row.key == key), ())
    limits = tuple(gaps.figure(key, column) for column, _ in edges)
    known = dict(rows[key].values)
    return {
        "columns": FromTable(names, cells),
        "values": FromTable(tuple(each.value for each in cells), cells),
        "edges_mm": FromTable(tuple(lengths[column] for column, _ in edges), limits),
        "limits_mm": FromTable(tuple(each.value for each in limits), limits),
        "rules": FromTable(tuple(known.get(name, 0.0) for name in _GAP_RULES), cells),
    }


_REGIME = (Quantity("regime", "", "key of the regime in the rulebook", kind="word", default="flags"),)
_WARP = Quantity("warp_mm", "mm", "warp of the units themselves; -1 where it was not measured", default=_UNKNOWN)
_ANSWERS = (
    Quantity("min_mm", "mm", "smallest that the limit may be; -1 where there is none"),
    Quantity("max_mm", "mm", "largest that it may be; -1 where that is not known"),
    Quantity("not_known", "", "what is not known of it", kind="word"),
)
REGIME_SUMS: tuple[Sum, ...] = (
    Sum(
        "lip-limit",
        "Find the highest lip between two units that a regime of tolerances allows",
        (
            Quantity("columns", "", "names of the rules of the regime", kind="words", table=RULES),
            Quantity("values", "", "their numbers", kind="numbers", table=RULES),
            Quantity("joint_mm", "mm", "width of the joint; -1 where it was not read", default=_UNKNOWN),
            Quantity(
                "fill", "", "how it is filled", kind="word", default=_NOT_NOTED, choices=(*JointFill, _NOT_NOTED)
            ),
            Quantity("length_mm", "mm", "length of a unit; -1 where it is not known", default=_UNKNOWN),
            Quantity("width_mm", "mm", "width of a unit; -1 where it is not known", default=_UNKNOWN),
            _WARP,
        ),
        _ANSWERS,
        "base + a · joint + b · (length + width) + warp; flush joint: min(2 · joint, most)",
        "definition",
        lip_limit,
        _read,
        _REGIME,
    ),
    Sum(
        "gap-limit",
        "Find the largest gap under a straight edge that a regime of tolerances allows",
        (
            Quantity("edges_mm", "mm", "lengths for which the regime has a limit", kind="numbers", table=GAPS),
            Quantity("limits_mm", "mm", "limit of each", kind="numbers", table=GAPS),
            Quantity(
                "rules", "", "1 where it goes by contacts, and share of warp added", kind="numbers",
                table=GAPS,
            ),
            Quantity("edge_mm", "mm", "length of the straight edge"),
            Quantity("contacts_mm", "mm", "how far apart it touches; -1 where it was not measured", default=_UNKNOWN),
            _WARP,
        ),
        _ANSWERS,
        "by contacts: straight between the lengths stated; else the limit for that edge and no other",
        "definition",
        gap_limit,
        _read,
        _REGIME,
    ),
)  # fmt: skip
"""Sums of regimes."""
