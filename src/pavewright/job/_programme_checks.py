"""What was entered of the course of the work stands once."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.job._faults import Fault

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.job._document import Job


def twice_in_programme(job: Job) -> Iterator[Fault]:
    """Give tasks that are shown as done, or pinned, twice, and holds that stand twice."""
    for name, keys in (
        ("done", [each.task for each in job.done]),
        ("pins", [each.task for each in job.pins]),
        ("holds", [each.key.value for each in job.holds]),
    ):
        for number, key in enumerate(keys):
            if key in keys[:number]:
                yield Fault(f"{name}.{number}", f"{key} stands twice: keep one of the two entries.")
