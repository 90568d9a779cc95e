"""The workbooks: every figure with its unit, and sums that are live from the taking-off to the total."""

from __future__ import annotations

import datetime as dt
import io
import re
from pathlib import Path

import icalendar
import openpyxl
import pytest

from pavewright.cost import TaskKind
from pavewright.papers._calendar import programme_calendar
from pavewright.papers._workbook import cost_workbook, quantities_workbook
from tests.unit.papers.recalculated import Recalculated

ROOT = Path(__file__).parents[3]
HEAD = 4


@pytest.fixture(scope="module", params=["front_drive", "mixed_patio"])
def made(made_plan, request):
    return made_plan(request.param)


def cells(sheet):
    return [cell for row in sheet.iter_rows(min_row=HEAD + 1) for cell in row if cell.value is not None]


def test_the_total_follows_from_the_taking_off_by_formulas_alone(made):
    answered = Recalculated(cost_workbook(made))
    sheet = answered.book["Cost"]
    totals = {sheet.cell(row, 1).value: row for row in range(HEAD + 1, sheet.max_row + 1)}
    cost = made.cost
    for words, amount in (
        ("Prime cost", cost.prime_minor),
        ("Overhead", cost.overhead_minor),
        ("To pay", cost.total_minor),
    ):
        assert answered.value("Cost", f"E{totals[words]}") == pytest.approx(amount / 100.0)
    assert isinstance(sheet.cell(totals["To pay"], 5).value, str)
    # twice as much measured of what is bought most dearly: the total moves with it
    material = next(row for row in range(HEAD + 1, sheet.max_row + 1) if "Quantities!" in str(sheet.cell(row, 3).value))
    counted = int(re.search(r"F(\d+)", sheet.cell(material, 3).value)[1])
    measured = answered.book["Quantities"].cell(
        counted, 5 if "=" not in str(answered.book["Quantities"].cell(counted, 5).value) else 3
    )
    measured.value *= 3.0
    assert answered.value("Cost", f"E{totals['To pay']}") > cost.total_minor / 100.0 + 1.0


def test_every_formula_answers_what_is_shown(made):
    for content in (quantities_workbook(made), cost_workbook(made)):
        answered = Recalculated(content)
        shown = openpyxl.load_workbook(io.BytesIO(content), data_only=True)
        checked = 0
        for sheet in answered.book:
            for cell in cells(sheet):
                if isinstance(cell.value, str) and cell.value.startswith("="):
                    kept = shown[sheet.title][cell.coordinate].value
                    assert answered.value(sheet.title, cell.coordinate) == pytest.approx(kept, rel=1e-9), cell
                    checked += 1
        assert checked > 10


def test_every_sheet_has_its_head_its_units_and_pages_that_fit(made):
    who = made.job.identity
    for content in (quantities_workbook(made), cost_workbook(made)):
        for sheet in openpyxl.load_workbook(io.BytesIO(content)):
            assert who.job in sheet["A1"].value
            assert str(who.date.year) in sheet["A3"].value
            assert (sheet.page_setup.fitToWidth or 1, sheet.page_setup.fitToHeight) == (1, 0)
            assert sheet.sheet_properties.pageSetUpPr.fitToPage
            assert sheet.print_title_rows
            numbers = [
                cell for cell in cells(sheet) if isinstance(cell.value, (int, float)) or str(cell.value)[:1] == "="
            ]
            assert all(cell.number_format != "General" for cell in numbers)
    sheet = openpyxl.load_workbook(io.BytesIO(quantities_workbook(made)))["Quantities"]
    for row, item in enumerate(made.quantities.items, start=HEAD + 1):
        assert item.unit in sheet.cell(row, 3).number_format


def test_the_workbook_for_a_merchant_has_no_price(made):
    book = openpyxl.load_workbook(io.BytesIO(quantities_workbook(made)))
    assert "Cost" not in book.sheetnames
    text = " ".join(cell.number_format for sheet in book for cell in cells(sheet))
    assert made.job.identity.currency not in text


def test_work_stands_in_working_hours_only_at_its_place_and_deliveries_come_before_it(made):
    events = icalendar.Calendar.from_ical(programme_calendar(made)).walk("VEVENT")
    calendar, hours = made.job.calendar, made.job.crew.hours_per_day
    opens = dt.timedelta(minutes=calendar.day_starts_min)
    worked = {}
    for event in events:
        assert str(event["LOCATION"]) == made.job.identity.address
        start, finish = event.decoded("DTSTART"), event.decoded("DTEND")
        if not isinstance(start, dt.datetime):
            assert str(event["TRANSP"]) == "TRANSPARENT"
            continue
        start, finish = start.replace(tzinfo=None), finish.replace(tzinfo=None)
        day = dt.datetime.combine(start.date(), dt.time())
        assert start.date() == finish.date()
        assert start.weekday() in calendar.weekdays
        assert start.date() not in calendar.days_off
        assert day + opens <= start < finish <= day + opens + dt.timedelta(hours=hours)
        key = str(event["UID"]).rpartition("@")[0].rpartition(".")[0]
        worked[key] = worked.get(key, 0.0) + (finish - start).total_seconds() / 60.0
    tasks = [task for task in made.programme.tasks if not task.wait]
    assert sorted(worked.values()) == pytest.approx(sorted(task.work_min for task in tasks), abs=2.0)
    due = made.programme.deliveries
    held = [event for event in events if str(event.get("STATUS")) != "CANCELLED"]
    assert sum("delivery." in str(event["UID"]) for event in held) == len(due) > 0
    stone = min(
        task.start for task in tasks if task.key.kind in {TaskKind.SUB_BASE, TaskKind.SUB_BASE_LAYER, TaskKind.BASE}
    )
    assert all(each.on < stone.date() for each in due if each.group.value == "base")
    reported = {item.key for each in due for item in each.items}
    # sundries and permits of which nobody gives a lead time: the crew brings or gets them itself
    brought = {key for key in reported if key.kind.value != "catalogue"}
    leaves = {"spoil", "pit_spoil", "catalogue"}
    assert brought == {
        i.key for i in made.quantities.items if i.key.bought and i.key.kind.value not in leaves and i.ordered
    }
