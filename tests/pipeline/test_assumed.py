"""What is assumed says so on every sheet, and stands in the range of the price."""

from __future__ import annotations

import io
import json

import pypdf
import pytest

from pavewright import rulebook
from pavewright.desk import demo_document, make_pack, make_plan
from pavewright.job import load_document, parse
from pavewright.survey import AssumedWhat, assumed_names

_WHO = {"by": "B. Layer", "why": "behind the planter"}


def _assuming(change):
    document = json.loads(demo_document())
    document.pop("as_laid", None)
    change(document)
    return json.dumps(document).encode()


def _dpc(document):
    for wall in document["site"]["walls"]:
        if wall.get("dpc_level_mm") is not None:
            wall["dpc_level_mm"] = {"assumed_mm": wall["dpc_level_mm"], **_WHO}
    document["site"]["ground"]["assumed"] = _WHO


@pytest.fixture(scope="module")
def known():
    return make_plan(_assuming(lambda document: None))


@pytest.fixture(scope="module")
def assumed():
    return make_plan(_assuming(_dpc))


def test_what_is_assumed_changes_the_range_and_nothing_else(known, assumed):
    assert assumed.cost.total_minor == known.cost.total_minor
    assert assumed.cost.lines == known.cost.lines
    assert known.cost.assumed == ()
    low = sum(share.low_minor or 0 for share in assumed.cost.assumed)
    high = sum(share.high_minor or 0 for share in assumed.cost.assumed)
    assert assumed.cost.low_minor == known.cost.low_minor + low
    assert assumed.cost.high_minor == known.cost.high_minor + high
    assert high > 0


def test_each_share_is_the_price_of_the_job_at_the_ends_of_the_fact(assumed):
    share = next(one for one in assumed.cost.assumed if one.fact.what is AssumedWhat.DPC)
    off = rulebook.load("england").value("survey.assumed_level_off_mm")
    document = json.loads(_assuming(_dpc))
    wall = next(each for each in document["site"]["walls"] if each["name"] == share.fact.place)
    extras = []
    for by in (-off, off):
        wall["dpc_level_mm"]["assumed_mm"] = share.fact.value + by
        job = parse(load_document(json.dumps(document)))
        assert job.site.walls
        extras.append(make_plan(json.dumps(document).encode()).cost.total_minor - assumed.cost.total_minor)
    assert (share.low_minor, share.high_minor) == (min(0, *extras), max(0, *extras))


def test_every_page_and_every_plan_names_what_is_assumed(assumed):
    names = assumed_names(assumed.survey.assumed)
    assert "House rear" in names
    papers = make_pack(assumed)
    seen = 0
    for paper in papers:
        if paper.name.endswith(".pdf") and not paper.name.startswith("templates"):
            for page in pypdf.PdfReader(io.BytesIO(paper.content)).pages:
                said = " ".join(page.extract_text().split())
                # the sheets without words have a sign for it
                assert ("?" if paper.name == "pictures.pdf" else names) in said, paper.name
                seen += 1
        # sections show thicknesses and sizes beside each other; the page that they stand on names what is assumed
        if paper.name.endswith(".svg") and not any(
            each in paper.name for each in ("section", "edges", "movement", "drains", "soakaway")
        ):
            assert "Assumed, not measured" in paper.content.decode(), paper.name
            seen += 1
    assert seen > 30


def test_a_job_without_assumed_facts_has_no_such_line(known):
    assert assumed_names(known.survey.assumed) == ""


def test_a_soil_that_is_assumed_is_not_called_unknown():
    def soil(document):
        document["site"]["ground"] = {"soil": "sandy_clay", "assumed": _WHO}

    plan = make_plan(_assuming(soil))
    said = " ".join(plan.survey.assumptions)
    assert "Assumed by B. Layer (behind the planter): soil is taken as sandy clay, not measured" in said
    assert {share.fact.what for share in plan.cost.assumed} >= {AssumedWhat.SOIL}
