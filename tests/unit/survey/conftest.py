"""Small jobs for the tests of the survey, built as documents and read as such."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest

from pavewright import rulebook
from pavewright.job import parse
from pavewright.survey import survey

if TYPE_CHECKING:
    from pavewright.job import Job
    from pavewright.rules import Rulebook
    from pavewright.survey import Survey

SQUARE = (
    {"name": "A", "x_mm": 0.0, "y_mm": 0.0},
    {"name": "B", "x_mm": 6000.0, "y_mm": 0.0},
    {"name": "C", "x_mm": 6000.0, "y_mm": 4000.0},
    {"name": "D", "x_mm": 0.0, "y_mm": 4000.0},
)


class SmallJobs:
    """Builders of small jobs round some measurements."""

    square = SQUARE

    def __init__(self, rules: Rulebook) -> None:
        """Take the rulebook by which jobs are surveyed."""
        self.rules = rules

    def area(self, corners: list[Any], name: str = "Patio", **more: Any) -> dict[str, Any]:
        """Return an area from corner names, or pairs of a name and a rise."""
        outline = [{"point": c} if isinstance(c, str) else {"point": c[0], "rise_mm": c[1]} for c in corners]
        return {"name": name, "outline": outline, "laying": {"unit": "Slab"}, **more}

    def job(self, measurements: dict[str, Any], areas: list[dict[str, Any]] | None = None, **site: Any) -> Job:
        """Return a whole job."""
        return parse(
            {
                "format": "pavewright.job",
                "version": 2,
                "identity": {
                    "job": "T1",
                    "title": "Test",
                    "date": "2026-05-04",
                    "locality": "england",
                    "invented": True,
                },
                "measurements": measurements,
                "site": {"ground": {"soil": "sandy_clay"}, **site},
                "areas": areas or [self.area(["A", "B", "C", "D"])],
                "units": [
                    {
                        "name": "Slab",
                        "length_mm": 600.0,
                        "width_mm": 600.0,
                        "thickness_mm": 40.0,
                        "kg_each": 33.0,
                        "per_pack": 20,
                        "pack_price_minor": 30000,
                    }
                ],
                "rates": {"labour_minor_per_hour": 3000},
                "crew": {"people": 2},
                "calendar": {"start": "2026-06-01"},
            }
        )

    def survey(self, measurements: dict[str, Any], areas: list[dict[str, Any]] | None = None, **site: Any) -> Survey:
        """Return the survey of a whole job."""
        return survey(self.job(measurements, areas, **site), self.rules)

    def levelled(self, books: list[dict[str, Any]], marks: dict[str, float], **more: Any) -> Survey:
        """Return the survey of four given corners with level books from marks."""
        benchmarks = [{"point": name, "level_mm": level} for name, level in marks.items()]
        return self.survey({"points": list(SQUARE), "benchmarks": benchmarks, "level_books": books, **more})

    def taped(self, tapes: list[tuple[Any, ...]], sides: list[tuple[str, ...]], **more: Any) -> Survey:
        """Return the survey of a tape plan on the base line A to B."""
        plan = {
            "base_from": "A",
            "base_to": "B",
            "tapes": [dict(zip(("start", "end", "length_mm", "sd_mm"), t, strict=False)) for t in tapes],
            "sides": [dict(zip(("point", "line_from", "line_to", "side"), s, strict=True)) for s in sides],
        } | more
        taped = {end for tape in tapes for end in tape[:2]}
        return self.survey({"tape_plan": plan}, [self.area([corner for corner in "ABCD" if corner in taped])])

    def book(self, name: str, *rows: tuple[Any, ...]) -> dict[str, Any]:
        """Return a level book from rows of point, backsight, intermediate, foresight and, if any, booked level."""
        keys = ("point", "backsight_mm", "intermediate_mm", "foresight_mm", "booked_level_mm")
        return {
            "name": name,
            "rows": [{key: value for key, value in zip(keys, row, strict=False) if value is not None} for row in rows],
        }


@pytest.fixture(scope="session")
def small() -> SmallJobs:
    """Return the builders."""
    return SmallJobs(rulebook.load("england"))
