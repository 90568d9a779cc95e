"""The log of a day: two phones that write on one day are merged, and what is renamed is followed."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from pavewright.job import JobInvalid, load_document, parse
from pavewright.job.operations import Done, Following, apply, between, inverse

PATIO = json.loads((Path(__file__).parents[2] / "patio.json").read_text("utf-8"))


def day(name, **more):
    return {"name": name, "date": "2027-06-01"} | more


def with_days(*days):
    return PATIO | {"site_days": list(days)}


def test_two_phones_that_log_the_same_day_are_merged_without_a_question():
    first = between(PATIO, with_days(day("one", worked=[{"task": "lay.area1", "person_h": 6.0}])))
    second = between(PATIO, with_days(day("two", worked=[{"task": "lay.area1", "person_h": 4.0}])))
    done = apply(apply(PATIO, first).document, second)
    assert not done.clashes
    assert [each["name"] for each in done.document["site_days"]] == ["one", "two"]
    hours = [each.worked[0].person_h for each in parse(load_document(json.dumps(done.document))).site_days]
    assert hours == [6.0, 4.0]


def test_hours_of_two_tasks_added_to_one_log_at_once_are_both_kept():
    base = with_days(day("one", worked=[]))
    dig = between(base, with_days(day("one", worked=[{"task": "dig.area1", "person_h": 2.0}])))
    lay = between(base, with_days(day("one", worked=[{"task": "lay.area1", "person_h": 3.0}])))
    done = apply(apply(base, dig).document, lay)
    assert not done.clashes
    assert {each["task"] for each in done.document["site_days"][0]["worked"]} == {"dig.area1", "lay.area1"}
    assert apply(done.document, inverse(lay)).document["site_days"][0]["worked"][0]["task"] == "dig.area1"


def test_an_area_that_is_renamed_is_followed_by_the_log():
    name = PATIO["areas"][0]["name"]
    bay = {"area": name, "stage": "laid", "x_mm": 500.0, "y_mm": 500.0}
    logged = between(PATIO, with_days(day("one", bays=[bay])))
    renamed = json.loads(json.dumps(PATIO).replace(json.dumps(name), '"Court"'))
    others = Done((tuple(between(PATIO, renamed)),))
    now = [Following().after([others]).followed(each) for each in logged]
    assert apply(renamed, now).document["site_days"][0]["bays"][0]["area"] == "Court"


def test_two_logs_of_one_name_are_a_fault():
    with pytest.raises(JobInvalid, match="two of log of a day one"):
        parse(load_document(json.dumps(with_days(day("one"), day("one")))))


def test_what_is_left_out_of_a_log_is_not_known():
    (made,) = parse(load_document(json.dumps(with_days(day("one"))))).site_days
    assert (made.weather.sky, made.weather.lowest_c, made.worked, made.stops) == (None, None, (), ())
