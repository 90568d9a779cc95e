"""Sizes of one stone: units that stand in for another must be of its thickness and of another size."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.job._faults import Fault

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.job._document import Job
    from pavewright.job._paving_units import PavingUnit


def stone_faults(job: Job) -> Iterator[Fault]:
    """Give units that are to be cut from others that cannot stand in for them."""
    known = {unit.name: unit for unit in job.units}
    for number, unit in enumerate(job.units):
        seen = {(unit.length_mm, unit.width_mm): unit.name}
        for place, name in enumerate(unit.also_cut_from):
            path, other = f"units.{number}.also_cut_from.{place}", known.get(name)
            if other is None:
                yield Fault(path, f"{unit.name} is also cut from {name}, which is not among the units.")
                continue
            words = _fault(unit, other, seen)
            if words is not None:
                yield Fault(path, words)
            seen[other.length_mm, other.width_mm] = other.name


def _fault(unit: PavingUnit, other: PavingUnit, seen: dict[tuple[float, float], str]) -> str | None:
    """Return why one unit cannot stand in for another."""
    size = other.length_mm, other.width_mm
    if other.name == unit.name:
        return f"{unit.name} is cut from itself anyway: name other sizes of its stone only."
    if size in seen:
        return (
            f"{other.name} is {size[0]:g} × {size[1]:g} mm like {seen[size]}: only another size can save anything. "
            f"Check both sizes, or leave it out."
        )
    if other.thickness_mm != unit.thickness_mm:
        return (
            f"{other.name} is {other.thickness_mm:g} mm thick and {unit.name} {unit.thickness_mm:g}: pieces cut from it "
            f"would not lie flush. Name units of one thickness."
        )
    return None
