"""The pack: read back by other programs, the same bytes each time, and harmless whatever a user writes."""

from __future__ import annotations

import csv
import io
import json
import os
import re
import subprocess
import sys
from pathlib import Path

import icalendar
import openpyxl
import pypdf
import pytest

import pavewright
from pavewright import rulebook, units
from pavewright.desk import make_pack, make_plan, write_pack
from pavewright.papers import pack
from pavewright.papers._figures import paper_figures
from pavewright.papers._words import source

ROOT = Path(__file__).parents[3]


@pytest.fixture(scope="module")
def terrace(made_pack):
    return made_pack("l_terrace")


@pytest.fixture(scope="module", params=["l_terrace", "curved_path", "front_drive"])
def any_job(made_pack, request):
    return made_pack(request.param)


def pages(content):
    return [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(content)).pages]


def test_the_pack_holds_everything(terrace):
    _, papers = terrace
    assert set(papers) == {
        "handover.pdf", "handover.zip", "pictures.pdf", "quotation.pdf", "cancellation.pdf",
        "job-pack.pdf", "customer-pack.pdf", "cost-sheet.pdf", "orders.pdf", "method.pdf", "drawings.dxf", "plans/survey-plan.svg",
        "plans/levels-plan.svg", "plans/section.svg", "plans/edges-1.svg", "plans/laying-plan.svg", "plans/dig-plan.svg",
        "plans/movement-1.svg", "plans/drains-1.svg", "plans/drains-2.svg", "plans/buried-plan.svg",
        "plans/water-plan.svg", "plans/setting-out-plan.svg", "plans/as-laid-plan.svg", "plans/standing-water-plan.svg", "quantities.xlsx", "cost.xlsx",
        "set-out-points.csv", "points-pnezd.csv", "points-penzd.csv", "programme.ics", "plan.json", "plans-a3.pdf", "piece-numbers.pdf", "survey-form.pdf", "site-papers.pdf",
    }  # fmt: skip


def test_every_sheet_says_job_date_revision_north_datum_units_and_page(any_job):
    made, papers = any_job
    for name in ("job-pack.pdf", "customer-pack.pdf", "quotation.pdf", "cost-sheet.pdf"):
        reported = pages(papers[name])
        for number, text in enumerate(reported, start=1):
            assert made.job.identity.job in text
            assert "revision 1" in text
            assert "INVENTED EXAMPLE" in text
            of_money = "To pay" in text or "For the contractor" in text or name == "cost-sheet.pdf"
            of_money = of_money or (name == "quotation.pdf" and "Scale 1:" not in text)
            assert ("North lies" in text, "Levels in metres over" in text) == (not of_money, not of_money)
            assert re.search(rf"page\s+{number}\s+of\s+{len(reported)}\b", text)


def test_the_pdf_is_tagged_archival_and_in_english(any_job):
    _, papers = any_job
    for name in ("job-pack.pdf", "customer-pack.pdf", "quotation.pdf", "cost-sheet.pdf"):
        reader = pypdf.PdfReader(io.BytesIO(papers[name]))
        root = reader.trailer["/Root"]
        assert root["/MarkInfo"]["/Marked"]
        assert str(root["/Lang"]).startswith("en")
        metadata = root["/Metadata"].get_data().decode("utf-8")
        assert re.search(r"pdfaid:part>3<", metadata)
        assert re.search(r"pdfaid:conformance>A<", metadata)


def test_the_sheets_come_in_order_and_none_is_missing(terrace):
    _, papers = terrace
    text = "\n".join(pages(papers["job-pack.pdf"])[1:])
    titles = (
        "Findings", "Cautions: read before work", "Survey plan", "Survey: points, tapes and levels", "Levels plan",
        "Finished levels", "Section A–A at wall House rear", "Water plan", "Laying plan", "Cut list", "Dig and formation",
        "Dig and build-up", "Materials and order", "The sum behind each item", "Programme", "Setting out", "As laid", "Price",
        "Where the figures come from",
    )  # fmt: skip
    places = [text.index(f"\n{title}\n") if f"\n{title}\n" in text else text.index(title) for title in titles]
    assert places == sorted(places)


def test_the_section_and_the_cautions_carry_this_job_s_figures(terrace):
    made, papers = terrace
    text = "\n".join(pages(papers["job-pack.pdf"]))
    assert "33.0 kg" in text
    assert "Foul drain" in text
    assert "from memory, not verified" in text
    assert "common practice" in text
    assert "found" in text


def test_the_customer_sees_no_cost_margin_hours_or_rates(any_job):
    made, papers = any_job
    coin = made.job.identity.currency
    text = "\n".join(pages(papers["quotation.pdf"]))
    for word in ("margin", "Margin", "overhead", "Overhead", "prime", "Cost sheet", "hours"):
        assert word not in text
    for line in made.cost.lines:
        # loads that go with those of the dig cost nothing more, and nothing is no secret
        assert not line.amount_minor or units.minor_to_text(line.amount_minor, coin) not in text
    for secret in (made.cost.prime_minor, made.cost.margin_minor, made.cost.overhead_minor):
        assert units.minor_to_text(secret, coin) not in text
    assert units.minor_to_text(made.cost.total_minor, coin) in text


def test_a_figure_from_memory_is_never_printed_as_the_standard_s():
    rules = rulebook.load("england")
    figures = paper_figures(rules)
    for figure in rules.figures.values():
        if figure.status.value == "M":
            assert "from memory, not verified" in source(figure, figures)


def test_the_workbook_holds_the_plan_s_own_numbers(any_job):
    made, papers = any_job
    sheet = openpyxl.load_workbook(io.BytesIO(papers["quantities.xlsx"]), data_only=True)["Quantities"]
    rows = list(sheet.iter_rows(min_row=5, values_only=True))
    assert len(rows) == len(made.quantities.items) + 1
    for row, item in zip(rows, made.quantities.items, strict=False):
        assert row[0] == item.description
        assert (row[2], row[4], row[5]) == pytest.approx((item.net, item.gross, item.ordered))


def test_set_out_points_are_true(terrace):
    made, papers = terrace
    rows = list(csv.DictReader(io.StringIO(papers["set-out-points.csv"].decode("utf-8"))))
    assert len(rows) == len(made.setting_out.pegs)
    for row, peg in zip(rows, made.setting_out.pegs, strict=True):
        assert float(row["x_mm"]) == pytest.approx(peg.at[0], abs=0.06)
        if peg.role == "base":
            assert row["formation_down_mm"] == row["string_level_mm"] == ""
            continue
        assert float(row["formation_down_mm"]) == pytest.approx(peg.heights[-1].down_from_string_mm)
        assert ("no pin here" in row["remark"]) == (peg.no_pin is not None)
        assert (row["instead_x_mm"] != "") == (peg.no_pin is not None and peg.no_pin.elsewhere is not None)
    assert made.setting_out.services_words in rows[0]["remark"]


def test_points_for_an_instrument_stand_in_the_order_of_their_name_and_none_at_a_service(terrace):
    made, papers = terrace
    north, east = (
        list(csv.reader(io.StringIO(papers[f"points-{order}.csv"].decode("utf-8")))) for order in ("pnezd", "penzd")
    )
    assert [[row[0], row[2], row[1], *row[3:]] for row in north] == east
    pegs = {str(peg.number): peg for peg in made.setting_out.pegs}
    for number, x, y, level, what in east:
        peg = pegs[number]
        at = peg.at if peg.no_pin is None else peg.no_pin.elsewhere
        assert (float(x) * 1000, float(y) * 1000) == pytest.approx(at, abs=0.51)
        assert (level == "") == (peg.role == "base" or peg.no_pin is not None)
        assert what.startswith(peg.role.value.upper())
        if level:
            assert float(level) * 1000 == pytest.approx(peg.heights[0].level_mm, abs=0.51)
    left_out = set(pegs) - {row[0] for row in east}
    assert all(pegs[each].no_pin is not None and pegs[each].no_pin.elsewhere is None for each in left_out)


def test_expected_errors_of_corners_stand_beside_their_points(terrace):
    made, papers = terrace
    rows = {row["peg"]: row for row in csv.DictReader(io.StringIO(papers["set-out-points.csv"].decode("utf-8")))}
    steps = {(step.area, step.at): step.error for step in made.setting_out.work.steps}
    told = [peg for peg in made.setting_out.pegs if (peg.area, peg.at) in steps]
    assert len(told) >= len(steps)
    for peg in told:
        assert float(rows[peg.name]["within_mm"]) == pytest.approx(steps[peg.area, peg.at].within_mm, abs=0.06)
    assert {row["within_mm"] for name, row in rows.items() if name not in {peg.name for peg in told}} <= {""}


def test_the_calendar_has_every_task_under_a_name_that_stays(terrace):
    made, papers = terrace
    events = icalendar.Calendar.from_ical(papers["programme.ics"]).walk("VEVENT")
    names = [str(event["UID"]) for event in events]
    assert len(set(names)) == len(names)
    assert all(any(f"-{task.key.text}" in name for name in names) for task in made.programme.tasks)
    assert events[0].decoded("DTSTART").replace(tzinfo=None) == made.programme.tasks[0].start


def test_the_plan_as_json_has_every_room(terrace):
    made, papers = terrace
    data = json.loads(papers["plan.json"])
    assert data["levels"]["areas"][0]["area"] == "Terrace"
    assert len(data["laying"]["areas"][0]["pieces"]) == len(made.laying.areas[0].pieces)
    assert data["cost"]["total_minor"] == made.cost.total_minor


HOSTILE = [
    '#read("/etc/passwd")',
    '=cmd|"/c calc"!A1',
    "*bold* $x^2$ _it_ @label <tag> \\ #panic()",
    "\u202eright to left\u202c \u05e9\u05dc\u05d5\u05dd",
    "<script>alert(1)</script>&amp;",
    "a" * 60,
]


@pytest.mark.parametrize("words", HOSTILE)
def test_whatever_a_user_writes_stays_words(words):
    document = json.loads((ROOT / "examples" / "curved_path.json").read_text("utf-8"))
    document["identity"]["title"] = document["identity"]["client"] = document["identity"]["job"] = words
    document["areas"][0]["name"] = words
    document["steps"][0]["upper_area"] = words
    document["units"][0]["material"] = words
    made = make_plan(json.dumps(document))
    papers = {paper.name: paper.content for paper in make_pack(made)}
    text = "\n".join(pages(papers["job-pack.pdf"]))
    assert "root:" not in text
    cells = [cell for row in csv.reader(io.StringIO(papers["set-out-points.csv"].decode("utf-8"))) for cell in row]
    assert not any(cell.startswith(("=", "@", "+")) for cell in cells)
    book = openpyxl.load_workbook(io.BytesIO(papers["quantities.xlsx"]))
    assert all(
        cell.data_type != "f" or cell.column_letter in "EFIL" for row in book["Quantities"].iter_rows() for cell in row
    )


def test_a_sign_that_the_font_lacks_does_not_stop_the_pack():
    document = json.loads((ROOT / "examples" / "curved_path.json").read_text("utf-8"))
    document["identity"]["title"] = "Path \U0001f9f1 \u6f22\u5b57"
    assert make_pack(make_plan(json.dumps(document)))


def test_papers_are_written_into_folders(tmp_path, terrace):
    made, _ = terrace
    written = write_pack(pack(made, rulebook.load("england")), tmp_path / "new")
    assert (tmp_path / "new" / "plans" / "section.svg") in written
    assert all(path.stat().st_size > 0 for path in written)


def seeded(seed: str) -> dict[str, str]:
    """Return the environment of a child with a hash seed, which runs the program that this test runs."""
    return {"PYTHONHASHSEED": seed, "PATH": "", "PYTHONPATH": os.pathsep.join(sys.path)}


def test_a_child_runs_the_program_under_test():
    code = "import pavewright; print(pavewright.__file__)"
    done = subprocess.run([sys.executable, "-c", code], env=seeded("1"), capture_output=True, check=True, text=True)
    assert done.stdout.strip() == pavewright.__file__


def test_the_same_job_gives_the_same_bytes_whatever_the_hash_seed():
    code = (
        "import hashlib\n"
        "from pavewright.desk import make_pack, make_plan\n"
        f"papers = make_pack(make_plan(open({str(ROOT / 'examples' / 'l_terrace.json')!r}, 'rb').read()))\n"
        "print([(p.name, hashlib.sha256(p.content).hexdigest()) for p in papers])"
    )
    found = {
        subprocess.run([sys.executable, "-c", code], env=seeded(seed), capture_output=True, check=True).stdout
        for seed in ("1", "77")
    }
    assert len(found) == 1


def test_what_the_trade_does_is_said_once():
    rules = rulebook.load("england")
    figures = paper_figures(rules)
    every = [rules.figure(key) for key in rules.figures if rules.figure(key).is_practice_alone]
    assert len(every) > 20
    for figure in every:
        for said in (source(figure, figures), figure.citation):
            assert said.lower().count("common practice") == 1
            assert "common_practice" not in said
            assert figure.place in said
