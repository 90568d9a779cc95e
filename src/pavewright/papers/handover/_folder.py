"""The handover as one folder: the paper, the drawings, and what was measured as open data."""

from __future__ import annotations

import csv
import io
import json
import zipfile
from typing import TYPE_CHECKING, Any

from pavewright import units
from pavewright.drawing import A3_FRAME, as_laid_plan, buried_plan, laying_plan, levels_plan, to_svg, water_plan
from pavewright.papers._laid_judged import judged_of
from pavewright.papers._tables import harmless
from pavewright.papers._words import day
from pavewright.papers.handover._buried import all_buried
from pavewright.papers.handover._photos import album
from pavewright.papers.handover._words import WORDS

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from pavewright.drawing import Scene
    from pavewright.papers._input import PaperInput
    from pavewright.pipeline import Plan

PAPER = "handover.pdf"
"""The handover on paper, as it stands in the pack and in the folder."""
_BEGINS = (1980, 1, 1, 0, 0, 0)
"""The first moment that such a file can hold: the same job gives the same bytes, whenever it is made."""
_HEADS = ("label", "area", "x_mm", "y_mm", "planned_m", "found_m", "off_mm", "verdict")
_BURIED_HEADS = ("name", "kind", "state", "top_mm", "foot_mm", "length_m", "from")


def folder(given: PaperInput, pdfs: Mapping[str, bytes]) -> bytes | None:
    """Return the folder as a zip file; the same plan gives the same bytes."""
    if PAPER not in pdfs:
        return None
    plan = given.plan
    files: list[tuple[str, str, bytes]] = [(PAPER, WORDS.file_pdf, pdfs[PAPER])]
    for scene in _drawings(plan):
        words = WORDS.file_drawing(title=scene.title)
        files.append((f"drawings/{scene.name}.svg", words, to_svg(scene).encode("utf-8")))
    files += [
        (each.name, WORDS.file_photo(caption=each.caption), each.content)
        for each in album(given).placed
        if each.block is not None
    ]
    files.append(("data/as-laid.csv", WORDS.file_csv, _table(_HEADS, _readings(plan))))
    files.append(("data/buried.csv", WORDS.file_buried, _table(_BURIED_HEADS, _buried(plan))))
    files.append(("data/handover.json", WORDS.file_json, _record(plan)))
    listed = _index(plan, [(name, words) for name, words, _ in files])
    return _zipped([("index.txt", listed), *((name, content) for name, _, content in files)])


def _drawings(plan: Plan) -> Iterator[Scene]:
    drawn = (buried_plan, levels_plan, laying_plan, water_plan, as_laid_plan)
    for draw in drawn:
        scene = draw(plan, A3_FRAME)
        if scene is not None:
            yield scene


def _index(plan: Plan, files: Sequence[tuple[str, str]]) -> bytes:
    who = plan.job.identity
    lines = [
        WORDS.index(job=who.job, revision=str(who.revision), day=day(who.date)),
        WORDS.heights(datum=plan.job.measurements.datum),
        "",
        WORDS.index_of,
        *(f"{name}: {words}" for name, words in files),
    ]
    return ("\r\n".join(lines) + "\r\n").encode("utf-8")


def _table(heads: Iterable[str], rows: Iterable[Sequence[str]]) -> bytes:
    """Return a table for another program; no text in it is taken for a formula."""
    stream = io.StringIO()
    writer = csv.writer(stream, lineterminator="\r\n")
    writer.writerow(heads)
    writer.writerows(rows)
    return stream.getvalue().encode("utf-8")


def _readings(plan: Plan) -> Iterator[tuple[str, ...]]:
    """Give each reading as laid with what was planned there; none where nothing was read."""
    for area in () if plan.as_laid is None else plan.as_laid.areas:
        for each in area.readings:
            yield (
                harmless(each.label),
                harmless(area.area),
                f"{each.at[0]:.1f}",
                f"{each.at[1]:.1f}",
                f"{units.mm_to_m(each.planned_mm):.4f}",
                f"{units.mm_to_m(each.found_mm):.4f}",
                f"{each.deviation_mm:.1f}",
                each.verdict.words,
            )


def _buried(plan: Plan) -> Iterator[tuple[str, ...]]:
    for each in all_buried(plan):
        yield (
            harmless(each.name),
            each.kind.value,
            each.state.value,
            *("" if size is None else f"{size:.1f}" for size in (each.top_mm, each.foot_mm)),
            "" if each.length_m is None else f"{each.length_m:.2f}",
            harmless(each.basis),
        )


def _record(plan: Plan) -> bytes:
    """Return what was measured and written down, for machines; what is not known is null."""
    who, report, told = plan.job.identity, judged_of(plan), plan.job.handed_over
    taken = plan.job.as_laid
    data: dict[str, Any] = {
        "format": "pavewright.handover",
        "version": 1,
        "job": who.job,
        "revision": who.revision,
        "date": who.date.isoformat(),
        "datum": plan.job.measurements.datum,
        "invented": who.invented,
        "as_laid": None
        if report is None or taken is None
        else {
            "date": taken.date.isoformat(),
            "read_by": taken.read_by,
            "instrument": taken.instrument,
            "reading_sd_mm": taken.reading_sd_mm,
            "verdict": report.verdict.value,
            "reasons": [
                {"area": each.area, "why": each.ground.value, "at": list(each.names), "verdict": each.verdict.value}
                for each in report.reasons
            ],
            "readings": [
                dict(zip(_HEADS[:2], (each.label, area.area), strict=True))
                | {"x_mm": each.at[0], "y_mm": each.at[1]}
                | {"planned_mm": each.planned_mm, "found_mm": each.found_mm, "off_mm": each.deviation_mm}
                | {"verdict": each.verdict.value}
                for area in report.areas
                for each in area.readings
            ],
        },
        "handed_over": None if told is None else told.model_dump(mode="json"),
    }
    return (json.dumps(data, ensure_ascii=False, indent=1) + "\n").encode("utf-8")


def _zipped(files: Iterable[tuple[str, bytes]]) -> bytes:
    """Return files as a zip whose bytes hang on nothing else: stored as they are, dated alike."""
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", zipfile.ZIP_STORED) as target:
        for name, content in files:
            entry = zipfile.ZipInfo(name, _BEGINS)
            entry.create_system, entry.external_attr = 3, 0o644 << 16
            target.writestr(entry, content)
    return stream.getvalue()
