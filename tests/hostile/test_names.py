"""Every text comes back from the document as it went in, and stands on every paper, or a mark for it."""

from __future__ import annotations

import csv
import importlib.util
import io
import json
from pathlib import Path
from xml.etree import ElementTree as ET

import ezdxf
import openpyxl
import pytest
from icalendar import Calendar

from pavewright import rulebook
from pavewright.job import load_document, parse, to_text
from pavewright.job._base import without_controls
from pavewright.papers import findings_of, pack, plan_json
from pavewright.papers._signs import MARK, drawable
from pavewright.pipeline import plan

_SPEC = importlib.util.spec_from_file_location("hostile_names", Path(__file__).with_name("names.py"))
assert _SPEC is not None
assert _SPEC.loader is not None
names = importlib.util.module_from_spec(_SPEC)
_SPEC.loader.exec_module(names)
NAMES = names.all_names()
PER_JOB = 60


def lots():
    return [NAMES[at : at + PER_JOB] for at in range(0, len(NAMES), PER_JOB)]


def job_of(small, lot):
    """Return a small job in which the names of a lot stand wherever somebody types."""
    small.rectangle(1800.0, 1200.0)
    small.document["areas"][0]["laying"]["bedding"] = "mortar_on_concrete"
    seen = set()
    for number, name in enumerate(lot):
        clean = parse_name(name)
        if clean and clean not in seen:
            seen.add(clean)
            small.document["measurements"]["points"].append(
                {"name": name, "x_mm": 3000.0 + 40.0 * number, "y_mm": 500.0, "note": name}
            )
    identity = small.document["identity"]
    identity["title"], identity["client"], identity["address"] = (" ".join(lot[part::3]) for part in range(3))
    identity["contractor"] = lot[0]
    small.document["areas"][0]["note"] = " ".join(lot)
    small.unit["name"] = small.document["areas"][0]["laying"]["unit"] = parse_name(lot[-1])[:30] or "Slab"
    return small


def parse_name(name):
    return str(without_controls(name)).strip()[:60] if "\t" not in name else ""


def test_there_are_three_hundred_of_them():
    assert len(NAMES) >= 300


@pytest.mark.parametrize("number", range(len(lots())))
def test_a_lot_of_names_goes_through_job_and_papers(small, number):
    lot = lots()[number]
    document = job_of(small, lot).document
    job = parse(load_document(json.dumps(document)))
    text = to_text(job)
    again = parse(load_document(text.encode("utf-8")))
    assert again == job
    rules = rulebook.load("england")
    made = plan(job, rules)
    papers = {paper.name: paper.content for paper in pack(made, rules)}
    assert papers["job-pack.pdf"].startswith(b"%PDF") and papers["customer-pack.pdf"].startswith(b"%PDF")
    reported = json.loads(papers["plan.json"])
    assert [point["name"] for point in reported["job"]["measurements"]["points"]] == [
        point.name for point in job.measurements.points
    ]
    for name, content in papers.items():
        if name.endswith(".svg"):
            ET.fromstring(content)
    list(csv.reader(io.StringIO(papers["set-out-points.csv"].decode("utf-8"))))
    openpyxl.load_workbook(io.BytesIO(papers["quantities.xlsx"]))
    Calendar.from_ical(papers["programme.ics"])
    ezdxf.read(io.StringIO(papers["drawings.dxf"].decode("utf-8")))
    lacking = drawable(text)[1]
    found = [each for each in findings_of(made) if each.code == "papers.signs"]
    assert [each.value for each in found] == ([len(lacking)] if lacking else [])


def test_a_sign_that_no_font_has_becomes_a_mark_and_a_note(small):
    small.rectangle(1200.0, 1200.0)
    small.document["identity"]["title"] = "Yard \U00013000"
    made = plan(small.job(), small.rules)
    assert drawable("Yard \U00013000") == (f"Yard {MARK}", ("\U00013000",))
    (note,) = [each for each in findings_of(made) if each.code == "papers.signs"]
    assert "U+13000" in note.message
    assert "papers.signs" in plan_json(made).decode("utf-8")


def test_the_scripts_of_the_world_are_drawn_without_a_mark():
    lacking = {name: drawable(name)[1] for name in (*names.WORDS, *names.EMOJI) if drawable(name)[1]}
    assert lacking == {}
