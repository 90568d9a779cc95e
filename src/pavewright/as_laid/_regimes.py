"""Regimes of tolerances: what gaps, lips and joints are held to, as the rulebook has it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.as_laid._verdicts import Verdict, within
from pavewright.job import Fault, JobInvalid
from pavewright.job.on_site import JointFill

if TYPE_CHECKING:
    from pavewright.job import Job
    from pavewright.rules import Figure, Rulebook, Table


class NotHeld(StrEnum):
    """Why there is no limit, or none that is known."""

    NO_RULE = "no_rule"
    JOINT_NOT_READ = "joint_not_read"
    FILL_NOT_NOTED = "fill_not_noted"
    WARP_NOT_MEASURED = "warp_not_measured"
    UNIT_NOT_KNOWN = "unit_not_known"
    CONTACTS_NOT_MEASURED = "contacts_not_measured"


@dataclass(frozen=True, slots=True)
class Limit:
    """What something is held to.

    Attributes:
        min_mm: The smallest that the limit may be with what is not known; None where no rule holds. [mm]
        max_mm: The largest that it may be; None where no rule holds. [mm]
        why: What is not known; None where the limit is.
        figure: The figure that it comes from; None where no rule holds.
    """

    min_mm: float | None
    max_mm: float | None
    why: NotHeld | None
    figure: Figure | None


_NO_RULE = Limit(None, None, NotHeld.NO_RULE, None)


@dataclass(frozen=True)
class Regime:
    """One regime of tolerances.

    Attributes:
        key: Its key in the rulebook.
        label: What it is, in a few words.
        gaps: Length of a straight edge and the largest gap under it, the shortest first. [mm]
        rules: What it says of lips and joints, by the column of the rulebook's table.
    """

    key: str
    label: str
    gaps: tuple[tuple[float, Figure], ...]
    rules: tuple[tuple[str, Figure], ...]

    def rule(self, column: str) -> Figure | None:
        """Return what the regime says in a column; None where it says nothing."""
        return dict(self.rules).get(column)

    def value(self, column: str, otherwise: float = 0.0) -> float:
        """Return the number that the regime has in a column. [in the unit of the column].

        Args:
            column: The column.
            otherwise: What is taken where it has none. [in the unit of the column]
        """
        figure = self.rule(column)
        return otherwise if figure is None else figure.value

    @property
    def is_by_contacts(self) -> bool:
        """Whether the limit goes by how far apart the contacts are, not by how long the edge is."""
        return self.value("by_contacts") > 0.0

    @property
    def edge_mm(self) -> float | None:
        """The straight edge that a profile is tried with, the middle one of those stated; None without any. [mm]."""
        return self.gaps[len(self.gaps) // 2][0] if self.gaps else None

    def gap_limit(self, edge_mm: float, contacts_mm: float | None, warp_mm: float | None) -> Limit:
        """Return the largest gap under an edge.

        Args:
            edge_mm: Length of the edge. [mm]
            contacts_mm: How far apart it touches; None where that was not measured. [mm]
            warp_mm: How far the units themselves are warped; None where that was not measured. [mm]
        """
        if not self.gaps:
            return _NO_RULE
        if not self.is_by_contacts:
            figure = next((each for length, each in self.gaps if length == edge_mm), None)
            return _NO_RULE if figure is None else self._warped(figure, "gap_per_warp", figure.value, warp_mm)
        if contacts_mm is None:
            shortest = self.gaps[0][1]
            return Limit(shortest.value, self._between(edge_mm), NotHeld.CONTACTS_NOT_MEASURED, shortest)
        limit = self._between(contacts_mm)
        return Limit(limit, limit, None, self.gaps[0][1])

    def _between(self, length_mm: float) -> float:
        """Return the limit for a length, straight between those that are stated. [mm]."""
        if length_mm <= self.gaps[0][0]:
            return self.gaps[0][1].value
        for (short, low), (long, high) in zip(self.gaps, self.gaps[1:], strict=False):
            if length_mm <= long:
                return low.value + (high.value - low.value) * (length_mm - short) / (long - short)
        return self.gaps[-1][1].value

    def _warped(self, figure: Figure, column: str, limit_mm: float, warp_mm: float | None) -> Limit:
        """Return a limit to which the warp of the units is added where the regime says so. [mm]."""
        share = self.value(column)
        if share == 0.0:
            return Limit(limit_mm, limit_mm, None, figure)
        if warp_mm is None:
            return Limit(limit_mm, None, NotHeld.WARP_NOT_MEASURED, figure)
        return Limit(limit_mm + share * warp_mm, limit_mm + share * warp_mm, None, figure)

    def lip_limit(
        self,
        joint_mm: float | None,
        fill: JointFill | None,
        sides_mm: tuple[float, float] | None,
        warp_mm: float | None,
    ) -> Limit:
        """Return the highest lip.

        Args:
            joint_mm: Width of the joint; None where it was not read. [mm]
            fill: How it is filled; None where nobody noted it.
            sides_mm: Length and width of a unit; None where they are not known. [mm]
            warp_mm: How far the units themselves are warped; None where that was not measured. [mm]
        """
        figure = self.rule("lip_mm")
        if figure is None:
            return _NO_RULE
        base = figure.value
        variants = (self._flush(base, joint_mm, fill), self._wide(base, joint_mm), self._large(base, sides_mm))
        (low, high), why = next((each for each in variants if each is not None), ((base, base), None))
        more, missing = self._more(joint_mm, sides_mm)
        if missing is not None:
            return Limit(low + more, None, missing, figure)
        share = self.value("lip_per_warp")
        if share and warp_mm is None:
            return Limit(low + more, None, NotHeld.WARP_NOT_MEASURED, figure)
        more += share * (warp_mm or 0.0)
        return Limit(low + more, high + more, why, figure)

    def _flush(self, lip_mm: float, joint_mm: float | None, fill: JointFill | None) -> _Part | None:
        share = self.rule("flush_lip_per_joint")
        if share is None or (fill is not None and fill is not JointFill.FLUSH):
            return None
        most = self.value("flush_lip_max_mm", lip_mm)
        if fill is None:
            return (0.0 if joint_mm is None else min(lip_mm, share.value * joint_mm), most), NotHeld.FILL_NOT_NOTED
        if joint_mm is None:
            return (0.0, most), NotHeld.JOINT_NOT_READ
        limit = min(share.value * joint_mm, most)
        return (limit, limit), None

    def _wide(self, lip_mm: float, joint_mm: float | None) -> _Part | None:
        wide, other = self.rule("wide_joint_mm"), self.rule("wide_lip_mm")
        if wide is None or other is None:
            return None
        if joint_mm is None:
            return (min(lip_mm, other.value), max(lip_mm, other.value)), NotHeld.JOINT_NOT_READ
        limit = other.value if joint_mm > wide.value else lip_mm
        return (limit, limit), None

    def _large(self, lip_mm: float, sides_mm: tuple[float, float] | None) -> _Part | None:
        large, other = self.rule("large_unit_m2"), self.rule("large_lip_mm")
        if large is None or other is None:
            return None
        if sides_mm is None:
            return (min(lip_mm, other.value), max(lip_mm, other.value)), NotHeld.UNIT_NOT_KNOWN
        limit = other.value if units.mm2_to_m2(sides_mm[0] * sides_mm[1]) > large.value else lip_mm
        return (limit, limit), None

    def _more(self, joint_mm: float | None, sides_mm: tuple[float, float] | None) -> tuple[float, NotHeld | None]:
        """Return what is added for the joint and for the size of a unit, and what of it is not known. [mm]."""
        more, why = 0.0, None
        by_joint, by_side = self.value("lip_per_joint"), self.value("lip_per_side")
        if by_joint:
            more += by_joint * (joint_mm or 0.0)
            why = NotHeld.JOINT_NOT_READ if joint_mm is None else None
        if by_side:
            more += by_side * sum(sides_mm or ())
            why = why or (NotHeld.UNIT_NOT_KNOWN if sides_mm is None else None)
        return more, why


_Part = tuple[tuple[float, float], NotHeld | None]
"""The smallest and the largest that a limit may be, and what is not known."""


def held(found_mm: float, limit: Limit, sd_mm: float) -> Verdict | None:
    """Return the verdict on a gap or a lip; None where the regime says nothing of it.

    What is not known of the limit leaves it between two: only beyond the larger it fails, only below the smaller it
    passes.

    Args:
        found_mm: What was found. [mm]
        limit: What it is held to.
        sd_mm: Standard deviation of what was found. [mm]
    """
    if limit.min_mm is None:
        return None
    if within(found_mm, limit.min_mm, sd_mm) is Verdict.PASSES:
        return Verdict.PASSES
    if limit.max_mm is not None and within(found_mm, limit.max_mm, sd_mm) is Verdict.FAILS:
        return Verdict.FAILS
    return Verdict.INCONCLUSIVE


def regimes(rules: Rulebook) -> tuple[tuple[str, str], ...]:
    """Return key and label of every regime of the rulebook, in its order."""
    return tuple((row.key, row.label) for row in rules.table(RULES).rows)


def regime(job: Job, rules: Rulebook) -> Regime:
    """Return the regime that a job is held to.

    Raises:
        JobInvalid: the rulebook has no such regime.
    """
    key = job.held_to or job.tolerance.value
    rows = {row.key: row for row in rules.table(RULES).rows}
    if key not in rows:
        known = ", ".join(rows)
        words = f"The rulebook has no regime of tolerances {key}: take one of {known}."
        raise JobInvalid((Fault("held_to", words),))
    return Regime(
        key=key,
        label=rows[key].label,
        gaps=tuple(_gaps(rules.table(GAPS), key)),
        rules=tuple((column, rules.table(RULES).figure(key, column)) for column, _ in rows[key].values),
    )


def _gaps(table: Table, key: str) -> list[tuple[float, Figure]]:
    """Return lengths of the edge and limits of a regime, the shortest first."""
    lengths = dict(table.numbers)
    row = next((row for row in table.rows if row.key == key), None)
    if row is None:
        return []
    return sorted(((lengths[column], table.figure(key, column)) for column, _ in row.values), key=lambda pair: pair[0])


RULES, GAPS = "as_laid.regimes", "as_laid.gaps"
"""Tables of the rulebook."""
