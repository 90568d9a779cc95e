"""The calendar of the programme: entries that move, entries that go, and the clock that changes."""

from __future__ import annotations

import datetime as dt
import json

import icalendar
import pytest

from pavewright.desk import demo_document, make_plan
from pavewright.papers._calendar import programme_calendar


def events_of(**changes):
    document = json.loads(demo_document())
    for path, value in changes.items():
        *steps, last = path.split("__")
        here = document
        for step in steps:
            here = here[step]
        here[last] = value
    made = make_plan(json.dumps(document))
    found = icalendar.Calendar.from_ical(programme_calendar(made)).walk("VEVENT")
    return made, {str(event["UID"]): event for event in found}


@pytest.fixture(scope="module")
def first():
    return events_of(identity__revision=0)


def test_a_later_issue_moves_the_same_entries_and_cancels_what_is_gone(first):
    _, before = first
    done = [{"task": "lay.area1", "on": "2027-05-18", "since": "2027-05-17"}]
    _, after = events_of(identity__revision=0, done=done)
    assert set(before) <= set(after)
    assert all(after[name]["SEQUENCE"] > before[name]["SEQUENCE"] for name in before)
    assert not any("STATUS" in event for event in before.values())
    gone = {name for name, event in after.items() if str(event.get("STATUS")) == "CANCELLED"}
    # laid in two days, not four: the third and the fourth day are cancelled
    assert {name.partition("-lay.")[2] for name in gone if "-lay." in name} >= {
        "area1.3@pavewright.invalid", "area1.4@pavewright.invalid"
    }  # fmt: skip


def test_a_higher_revision_has_a_higher_number_whatever_was_shown_as_done(first):
    _, other = events_of(identity__revision=1)
    name = next(iter(other))
    assert other[name]["SEQUENCE"] == 1000


@pytest.mark.parametrize("start", ["2027-03-22", "2027-10-25"])
def test_work_begins_at_eight_on_the_wall_before_and_after_the_clock_changes(start):
    made, events = events_of(calendar__start=start)
    begins = [event.decoded("DTSTART") for event in events.values() if event["TRANSP"] == "OPAQUE"]
    offsets = {moment.utcoffset() for moment in begins}
    assert offsets == {dt.timedelta(0), dt.timedelta(hours=1)}
    assert min(moment.replace(tzinfo=None) for moment in begins) == made.programme.tasks[0].start
    opens = made.job.calendar.day_starts_min / 60
    assert min(moment.hour for moment in begins) == opens


def test_stone_planned_layer_by_layer_cancels_what_an_earlier_issue_held_of_all_of_it(made_plan):
    drive = made_plan("front_drive")
    assert drive.job.identity.revision > 0
    events = icalendar.Calendar.from_ical(programme_calendar(drive)).walk("VEVENT")
    by_name = {str(event["UID"]): str(event.get("STATUS")) for event in events}
    assert any("-sub_base_layer.area1.no3.1@" in name for name, status in by_name.items() if status != "CANCELLED")
    assert {status for name, status in by_name.items() if "-sub_base.area1." in name} == {"CANCELLED"}
