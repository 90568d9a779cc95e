"""The verbs."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from pavewright import rulebook
from pavewright.buildup import depth_under
from pavewright.desk._read import read_job
from pavewright.drawing import film_plan, to_svg
from pavewright.job import Fault, JobInvalid
from pavewright.laying import best_starts, lay
from pavewright.levels import finished_levels
from pavewright.papers import pack
from pavewright.pipeline import plan
from pavewright.survey import survey
from pavewright.water import run_storm

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from pavewright.laying import AreaStarts
    from pavewright.papers import Paper
    from pavewright.pipeline import Plan
    from pavewright.sums import Sum
    from pavewright.water import AreaStorm

DEMO = Path(__file__).with_name("demo.json")
"""The job of the demo: an invented terrace."""

_READ_AT_MAX = 5_000_001
"""A byte more than a job document may hold, so that a larger file is refused without reading all of it."""


def read_job_file(path: Path) -> bytes:
    """Return what a file holds, no more of it than a job document may be long.

    Raises:
        JobInvalid: the file cannot be read.
    """
    try:
        with path.open("rb") as file:
            return file.read(_READ_AT_MAX)
    except OSError as problem:
        message = f"{path.name} cannot be read ({problem.strerror}): check its name and where it lies."
        raise JobInvalid((Fault("", message),)) from problem


def demo_document() -> bytes:
    """Return the document of the demo."""
    return DEMO.read_bytes()


def make_plan(document: str | bytes, report: Callable[[str], None] | None = None) -> Plan:
    """Return the plan of a job document by the rulebook of its place.

    Raises:
        JobInvalid: the document is not a job, or its readings make no plan; carries every fault.
    """
    job, rules = read_job(document)
    return plan(job, rules, report)


def find_starts(document: str | bytes, report: Callable[[str], None] | None = None) -> tuple[AreaStarts, ...]:
    """Return the best starts of every area of a job document.

    Raises:
        JobInvalid: the document is not a job, or its readings make no plan; carries every fault.
    """
    job, rules = read_job(document)
    measured = survey(job, rules)
    # an area that cannot be laid as it stands is told before anything is searched
    levels = finished_levels(job, measured, rules, depth_under(job, rules))
    lay(job, measured, rules, levels)
    return best_starts(job, measured, rules, report, levels)


def run_storm_on(
    made: Plan,
    rain_mm_per_h: float | None = None,
    rain_min: float = 10.0,
    cell_mm: float = 100.0,
    report: Callable[[str], None] | None = None,
) -> tuple[AreaStorm, ...]:
    """Return what a storm does on every area of a plan.

    Raises:
        StormRefusedError: rain or cells are not what they can be.
    """
    rules = rulebook.load(made.edition)
    return run_storm(made.survey, made.levels, rules, rain_mm_per_h, rain_min, cell_mm, report)


def film_drawing(made: Plan, storms: tuple[AreaStorm, ...]) -> str:
    """Return the plan of a storm as SVG."""
    return to_svg(film_plan(made, storms))


def make_pack(made: Plan, report: Callable[[str], None] | None = None) -> tuple[Paper, ...]:
    """Return all papers of a plan."""
    return pack(made, rulebook.load(made.edition), report)


def source_words(entry: Sum) -> str:
    """Return where a sum comes from, in words: titles of sources with how they were read."""
    known = rulebook.load("england").sources
    told = []
    for part in entry.source.split(";"):
        key, _, rest = part.strip().partition(",")
        word, _, more = key.partition(" ")
        if word in known:
            source = known[word]
            tail = "".join(f", {piece.strip()}" for piece in (rest,) if piece.strip())
            told.append(
                f"{source.title}{' ' + more if more else ''}{tail}{f' ({source.remark})' if source.remark else ''}"
            )
        else:
            told.append(part.strip())
    return "; ".join(told)


def write_pack(papers: Iterable[Paper], folder: Path) -> tuple[Path, ...]:
    """Write papers into a folder, made where it is missing; files of the same name are written over.

    Raises:
        OSError: the folder or a file cannot be written.
    """
    written = []
    for paper in papers:
        path = folder / paper.name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(paper.content)
        written.append(path)
    return tuple(written)
