"""A job in the United States on the papers of its customer: dollars, its dates, feet beside every metre."""

from __future__ import annotations

import copy
import io
import json
import re
from pathlib import Path

import pypdf
import pytest

from pavewright import job, rulebook
from pavewright.desk._customer import customer
from pavewright.papers import pack
from pavewright.pipeline import plan, plan_as_far
from pavewright.writing import Measure, Writing, told, written_as

ROOT = Path(__file__).parents[3]
TERRACE = json.loads((ROOT / "examples" / "l_terrace.json").read_text("utf-8"))
METRIC = re.compile(r"\d (?:mm|cm|m|m²|m³|kg)(?![\w²³/])(?! ?\()")
"""A measure without its imperial one behind it."""


def american():
    changed = copy.deepcopy(TERRACE)
    changed["identity"] |= {"locality": "usa", "currency": "USD"}
    changed["identity"].pop("edition", None)
    return job.parse(changed)


@pytest.fixture(scope="module")
def papers():
    rules = rulebook.load("usa")
    return {paper.name: paper.content for paper in pack(plan(american(), rules), rules)}


def text_of(content):
    pages = [" ".join(page.extract_text().split()) for page in pypdf.PdfReader(io.BytesIO(content)).pages]
    return " ".join(pages)


def test_the_customers_pack_shows_no_length_in_metres_alone(papers):
    text = text_of(papers["quotation.pdf"])
    assert [text[max(0, found.start() - 30) : found.end() + 20] for found in METRIC.finditer(text)] == []


@pytest.mark.parametrize("name", ["quotation.pdf", "cost-sheet.pdf", "job-pack.pdf"])
def test_no_paper_shows_pounds(papers, name):
    text = text_of(papers[name])
    assert "£" not in text
    assert "$" in text


def test_dates_are_written_as_there(papers):
    assert "Mon, May 10, 2027" in text_of(papers["quotation.pdf"])


def test_the_page_of_the_customer_is_told_where_the_job_is_and_what_was_typed():
    shown = customer(plan_as_far(american(), rulebook.load("usa")))
    assert (shown["region"], shown["measure"]) == ("US", "imperial")
    assert "Kitchen gully" in shown["kept"]
    assert shown["when"][0].startswith("Mon, May 10, 2027")
    with written_as(Writing("US", Measure.IMPERIAL), frozenset(shown["kept"])):
        for line in (*shown["scope"], *shown["promised"], *shown["not_included"]):
            assert not METRIC.search(told(line))
        assert any(told(line).startswith("Kitchen gully: grating") for line in shown["scope"])
