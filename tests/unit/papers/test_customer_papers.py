"""What a customer gets: marked while points are open, limits that can be kept, and nothing said that is not so."""

from __future__ import annotations

import io
import json
from dataclasses import replace
from pathlib import Path

import pypdf
import pytest

from pavewright import rulebook, units
from pavewright.as_laid import promises
from pavewright.cost import TaskKind
from pavewright.desk import demo_document, make_pack, make_plan
from pavewright.desk._customer import customer
from pavewright.findings import Severity
from pavewright.papers import customer_words
from pavewright.papers._figures import paper_figures
from pavewright.papers._sheets_front import cautions_sheet
from pavewright.papers._sheets_laying import laying_sheets
from pavewright.papers.look import as_data

ROOT = Path(__file__).parents[3]


@pytest.fixture(scope="module")
def stopped():
    """The demo with a door sill that the paving cannot keep clear of, and no walk round the house."""
    document = json.loads(demo_document())
    document["site"]["walk_round"] = []
    del document["agreement"]
    document["site"]["walls"][0]["openings"][0]["threshold_level_mm"] += 400.0
    return make_plan(json.dumps(document).encode())


@pytest.fixture(scope="module")
def demo(made_plan):
    return made_plan("demo")


@pytest.fixture(scope="module")
def demo_pack(made_pack):
    return made_pack("demo")[1]


@pytest.fixture(scope="module")
def stopped_pack(stopped):
    return {paper.name: paper.content for paper in make_pack(stopped)}


def pages(content):
    return [" ".join(page.extract_text().split()) for page in pypdf.PdfReader(io.BytesIO(content)).pages]


def test_every_page_for_a_customer_is_marked_while_points_are_open(stopped, stopped_pack):
    stops = sum(each.severity is Severity.STOP for each in stopped.findings)
    assert stops
    mark = f"Not ready to be sent: {stops} open point"
    papers = stopped_pack
    assert all(mark in page for page in pages(papers["quotation.pdf"]))
    assert any(mark in page and "What is promised" in page for page in pages(papers["job-pack.pdf"]))
    assert customer(stopped)["not_ready"].startswith(mark)


def test_nothing_is_marked_where_nothing_is_open(demo, demo_pack):
    assert not any("Not ready" in page for page in pages(demo_pack["quotation.pdf"]))
    assert customer(demo)["not_ready"] == ""


def test_what_nobody_asked_is_open_and_never_nothing(stopped):
    reported = customer(stopped)
    assert reported["assumed"][0].startswith("The walk round the house was not recorded")
    assert list(stopped.survey.assumptions) == reported["assumed"][1:]
    assert "left open" not in json.dumps(reported)


@pytest.mark.parametrize("raised_mm", [0.0, 5.0, 45.0, -20.0])
def test_paving_as_high_as_laying_may_be_still_keeps_the_promise_of_its_wall(demo, raised_mm):
    """A wall's promise is made from its limit; one millimetre high must not break it, nor 150 planned as 195."""
    rules = rulebook.load(demo.edition)
    areas = [
        replace(
            area,
            clearances=tuple(
                replace(each, at_start_mm=each.at_start_mm + raised_mm, at_end_mm=each.at_end_mm + raised_mm)
                for each in area.clearances
            ),
        )
        for area in demo.levels.areas
    ]
    held = promises(demo.job, replace(demo.levels, areas=tuple(areas)), rules)
    met = [each for area in areas for each in area.clearances]
    assert [wall.wall for wall in held.walls] == list(dict.fromkeys(each.wall for each in met))
    for wall in held.walls:
        least = min(each.min_mm for each in met if each.wall == wall.wall)
        assert wall.planned_min_mm == least
        assert wall.promised_mm == wall.limit.value
        # what is planned below the limit is open, and nothing is promised there
        assert wall.is_open == (least < wall.limit.value)
        assert wall.is_open or wall.kept_by(least - held.level.value)
        assert wall.tolerance_mm <= held.level.value


def test_each_wall_is_promised_once_by_its_limit(demo):
    rules = rulebook.load(demo.edition)
    said = customer_words(demo, rules).promised
    planned = [each for area in demo.levels.areas for each in area.clearances]
    for wall in {each.wall for each in planned}:
        mine = [words for words in said if f"wall {wall} " in words]
        assert len(mine) == 1
        assert "at least 150 mm below the damp-proof course" in mine[0]


def test_the_paper_says_of_cancelling_only_what_is_there(demo, demo_pack):
    for text in (customer(demo)["right_to_cancel"], " ".join(pages(demo_pack["quotation.pdf"]))):
        assert "come with this quotation, as a paper of their own" in text
    assert "Form to cancel" in " ".join(pages(demo_pack["cancellation.pdf"]))


def test_where_nobody_said_where_it_is_agreed_no_notice_is_made_and_the_papers_say_so(stopped, stopped_pack):
    papers = stopped_pack
    for text in (customer(stopped)["right_to_cancel"], " ".join(pages(papers["quotation.pdf"]))):
        assert "come with this quotation" not in text
        assert "not part of this one" in text
    assert "cancellation.pdf" not in papers


def test_a_price_has_no_datum_and_no_north_and_a_customer_reads_of_no_sliver(demo, demo_pack):
    every = pages(demo_pack["quotation.pdf"])
    price = [page for page in every if "North lies" not in page]
    assert any("For the contractor" in page for page in price)
    assert not any("Levels in metres over" in page for page in price)
    assert len(price) < len(every)
    assert "sliver" not in " ".join(every).lower()
    assert "sliver" not in json.dumps(customer(demo)).lower()


def test_a_door_has_the_same_three_steps_on_every_sheet(demo, demo_pack):
    sheet = " ".join(pages(demo_pack["job-pack.pdf"]))
    for area, reported in zip(demo.levels.areas, customer(demo)["areas"], strict=True):
        assert len(area.doors) == len(reported["doors"])
        for door, words in zip(area.doors, reported["doors"], strict=True):
            left, middle, right = (f"{each:.0f}" for each in (door.left_mm, door.middle_mm, door.right_mm))
            assert f"{door.opening} {left} {middle} {right}" in sheet
            assert all(each in words for each in (left, middle, right))
            assert f"step down {middle}" in sheet


def test_a_failed_check_stands_first_and_its_sheets_carry_the_day_of_the_readings(demo, demo_pack):
    first, *others = pages(demo_pack["job-pack.pdf"])
    assert demo.as_laid.verdict == "fail"
    assert "the check FAILED" in first
    assert first.index("the check FAILED") < first.index("No finding stops the work")
    read = f"Levels read {demo.job.as_laid.date:%a} {demo.job.as_laid.date.day} {demo.job.as_laid.date:%b %Y}"
    assert sum(read in page for page in others) >= 2
    assert all(read in page for page in others if "What the readings cannot show" in page)


def test_the_caution_on_dust_counts_cuts_along_folds_too(made_plan):
    folded = made_plan("gully_yard")
    assert folded.laying.saw_m > sum(laid.saw_m for laid in folded.laying.areas)
    words = json.dumps(cautions_sheet(folded, paper_figures(rulebook.load(folded.edition))).blocks, default=as_data)
    assert f"about {units.grouped(folded.laying.saw_m, 1)} m of sawing" in words


def test_saw_metres_and_cuts_are_the_same_on_the_cut_list_in_the_caution_and_in_the_labour(made_plan):
    folded = made_plan("gully_yard")
    figures = paper_figures(rulebook.load(folded.edition))
    (laid,) = folded.laying.areas
    assert laid.fold_cuts.pieces
    listed = json.dumps([sheet.blocks for sheet in laying_sheets(folded, figures)], default=as_data, ensure_ascii=False)
    folds = laid.fold_cuts.saw_m
    assert (
        f"{units.grouped(laid.saw_m + folds, 1)} m, {units.grouped(folds, 1)} m of it along folds; time is counted by the piece"
        in listed
    )
    assert f": {laid.cut + len(laid.fold_cuts.pieces)} to cut, 0.075 h each" in listed
    (task,) = [each for each in folded.programme.tasks if getattr(each.key, "kind", None) is TaskKind.CUT]
    assert task.work_min * task.people == pytest.approx(laid.cuts * 0.075 * 60.0)
    assert f"This job has {laid.cuts} pieces to cut" in json.dumps(
        cautions_sheet(folded, figures).blocks, default=as_data
    )
