"""What is read of units as they are laid that cannot be: areas that are not there, a corner read twice."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.job._faults import Fault

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.job._document import Job


def unit_read_faults(job: Job) -> Iterator[Fault]:
    """Give units and bags of areas that are not there, and units with two levels for one corner."""
    areas = {each.name for each in job.areas}
    for number, unit in enumerate(job.units_read):
        path = f"units_read.{number}"
        if unit.area not in areas:
            yield Fault(f"{path}.area", f"Piece {unit.piece} was read in {unit.area}, which is no area of the job.")
        letters = [each.corner for each in unit.corners]
        if len(set(letters)) < len(letters):
            words = f"Piece {unit.piece} has two levels for one corner: keep the one that was read last."
            yield Fault(f"{path}.corners", words)
    for number, bags in enumerate(job.bags_used):
        if bags.area not in areas:
            words = f"Bags were counted in {bags.area}, which is no area of the job: name the area."
            yield Fault(f"bags_used.{number}.area", words)
