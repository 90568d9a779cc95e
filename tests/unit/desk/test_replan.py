"""Every open job planned again: what changed and why; nothing of a job is changed by looking."""

from __future__ import annotations

import csv
import datetime as dt
import importlib.util
import io
import json
from pathlib import Path

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from pavewright.desk import (
    Of,
    Replan,
    ReplanQuestion,
    Standing,
    Take,
    quoted_document,
    replan_csv,
    replan_page,
    replan_rows,
    replan_told,
)
from pavewright.engine import RunStoppedError
from pavewright.job.standing import JobState
from pavewright.store import RunState, open_file


def _of_the_desk():
    spec = importlib.util.spec_from_file_location("replanning", Path(__file__).with_name("replanning.py"))
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


small = _of_the_desk()
BOOK = small.BOOK
SAND = next(n for n, each in enumerate(BOOK["rates"]["materials"]) if each["key"] == "sharp_sand")


@pytest.fixture
def store(tmp_path):
    found = open_file(tmp_path / "jobs.sqlite")
    found.firm.save(0, json.dumps(BOOK))
    yield found
    found.close()


def replanned(store, question=None, **more):
    replan = Replan(store, question or ReplanQuestion(), **more)
    run = replan.begin()
    replan.do(run, small.Here())
    return replan, replan_rows(store, run.id)


def dearer_sand(store, by=500):
    kept = store.firm.book()
    book = json.loads(kept.document)
    book["rates"]["materials"][SAND]["pack_price_minor"] += by
    store.firm.save(kept.rev, json.dumps(book))


def test_a_dearer_price_says_which_job_by_how_much_and_why(store):
    job = store.add(small.patio())
    dearer_sand(store)
    _, (row,) = replanned(store)
    assert (row["job_id"], row["rev"], row["title"], row["state"]) == (job.id, 1, "Patio 0", "visit")
    assert row["standing"] == Standing.CHANGED
    assert row["extra_minor"] == row["new_minor"] - row["old_minor"] > 0
    cause = next(each for each in row["causes"] if each["key"] == "sharp_sand")
    assert (cause["kind"], cause["where"], cause["field"]) == ("price", "rates.materials", "pack_price_minor")
    assert cause["new"] - cause["old"] == 500
    line = next(each for each in row["lines"] if each["key"] == "material.sharp_sand")
    assert line["kind"] == "rate"
    assert [row["causes"][n]["key"] for n in line["because"]] == ["sharp_sand"]
    assert "sharp sand" in "\n".join(replan_told([row])[0]["details"])
    assert store.job(job.id).rev == 1


def test_a_quoted_job_keeps_its_quotation(store):
    document = json.dumps(quoted_document(small.patio(), json.dumps(BOOK), dt.date(2027, 4, 1)))
    job = store.add(document)
    dearer_sand(store)
    _, (row,) = replanned(store)
    assert (row["state"], row["take"]) == ("quoted", Take.QUOTE_AGAIN)
    assert row["extra_minor"] > 0
    assert store.job(job.id).document == document


def test_prices_and_outputs_are_told_apart(store):
    store.add(small.patio())
    book = json.loads(store.firm.book().document)
    book["rates"]["materials"][SAND]["pack_price_minor"] += 500
    book["outputs"] = [{"kind": "point_h_per_m2", "hours_each": 3.0}]
    store.firm.save(1, json.dumps(book))
    found = {of: replanned(store, ReplanQuestion(of))[1][0] for of in Of}
    kinds = {of: {each["kind"] for each in row.get("causes", ())} for of, row in found.items()}
    assert "output" not in kinds[Of.PRICES]
    assert "price" in kinds[Of.PRICES]
    assert "price" not in kinds[Of.OUTPUTS]
    assert "output" in kinds[Of.OUTPUTS]
    assert found[Of.EDITION]["standing"] == Standing.SAME
    assert found[Of.ALL]["extra_minor"] > max(found[Of.PRICES]["extra_minor"], found[Of.OUTPUTS]["extra_minor"]) > 0


def test_a_job_that_cannot_be_planned_is_named_with_the_reason_and_stands_first(store):
    store.add(small.patio())
    store.add('{"format": "something else"}')
    dearer_sand(store)
    _, rows = replanned(store)
    assert [each["standing"] for each in rows] == [Standing.NO_PLAN, Standing.CHANGED]
    assert "format" in rows[0]["faults"][0]["path"]
    assert "cannot be planned" in replan_told(rows)[0]["headline"]


def test_only_jobs_in_the_states_that_are_asked_for(store):
    store.add(small.patio())
    assert replanned(store, ReplanQuestion(states=frozenset({JobState.ON_SITE})))[1] == []


def test_a_table_holds_every_job_and_no_formula(store):
    store.add(small.patio().replace("Patio 0", "=1+1"))
    dearer_sand(store)
    _, rows = replanned(store)
    table = list(csv.DictReader(io.StringIO(replan_csv(rows).decode("utf-8-sig"))))
    assert table[0]["title"] == "'=1+1"
    assert int(table[0]["extra_minor"]) == rows[0]["extra_minor"]


def test_a_run_that_was_stopped_goes_on_and_keeps_each_answer_once(store):
    for number in range(4):
        store.add(small.patio(number))
    dearer_sand(store)
    replan = Replan(store, ReplanQuestion())
    run = replan.begin()
    with pytest.raises(RunStoppedError):
        replan.do(run, small.Here(), stopped=lambda: replan.counts.planned >= 3)
    left = store.runs.run(run.id)
    assert left.state is RunState.STOPPED
    assert 0 < left.done < 4
    again = Replan(store, ReplanQuestion())
    assert again.begin().id == run.id
    again.do(run, small.Here())
    assert store.runs.run(run.id).state is RunState.FINISHED
    rows = replan_rows(store, run.id)
    assert len(rows) == 4
    assert [replan_page(store, run.id, first, 3) for first in (0, 3, 9)] == [(rows[:3], 4), (rows[3:], 4), ([], 4)]


def test_what_no_change_touches_is_not_planned_again(store):
    store.add(small.patio())
    dearer_sand(store)
    assert replanned(store)[0].counts.planned == 2
    assert replanned(store)[0].counts.planned == 0
    dearer_sand(store)
    again, _ = replanned(store)
    assert (again.counts.planned, again.counts.kept) == (1, 1)


ITEMS = len(BOOK["rates"]["catalogue"])
MATERIALS = len(BOOK["rates"]["materials"])
CHANGES = st.one_of(
    st.tuples(
        st.just("catalogue"), st.integers(0, ITEMS - 1), st.sampled_from(["pack_price_minor"]), st.integers(1, 9999)
    ),
    st.tuples(
        st.just("catalogue"), st.integers(0, ITEMS - 1), st.just("priced_on"), st.sampled_from(["2026-01-01", None])
    ),
    st.tuples(st.just("materials"), st.integers(0, MATERIALS - 1), st.just("pack_price_minor"), st.integers(0, 99_999)),
    st.tuples(st.just("rates"), st.just(0), st.just("overhead_percent"), st.floats(0, 40)),
    st.tuples(st.just("new"), st.just(0), st.sampled_from(["gloves", "masking"]), st.integers(1, 999)),
)


def with_change(book, change):
    book = json.loads(json.dumps(book))
    what, number, name, value = change
    if what == "new":
        item = {"key": name, "name": name, "pack_amount": 1, "pack_unit": "each", "pack_price_minor": value}
        rest = [each for each in book["rates"]["catalogue"] if each["key"] != name]
        book["rates"]["catalogue"] = [*rest, item]
        return book
    row = book["rates"] if what == "rates" else book["rates"][what][number]
    row[name] = value
    if value is None:
        del row[name]
    return book


@settings(
    max_examples=6,
    deadline=None,
    derandomize=True,
    phases=[Phase.generate],
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(changes=st.lists(CHANGES, min_size=2, max_size=3))
def test_the_shortcut_finds_what_the_full_way_finds(tmp_path_factory, changes):
    store = open_file(tmp_path_factory.mktemp("short") / "jobs.sqlite")
    book = json.loads(json.dumps(BOOK))
    store.firm.save(0, json.dumps(book))
    store.add(small.patio())
    for change in changes:
        book = with_change(book, change)
        store.firm.save(store.firm.book().rev, json.dumps(book))
        assert replanned(store)[1] == replanned(store, short=False)[1], change
    store.close()
