"""The way in from Python: the snippets of its page run as they stand there."""

from __future__ import annotations

import dataclasses
import doctest
import json
import sys
from pathlib import Path

import pytest

from pavewright.api import LocalCores, MissingTablesError, Planned, UnknownTableError, plan, plan_many, validate
from pavewright.desk import demo_document

ROOT = Path(__file__).parents[3]


@pytest.fixture(scope="module")
def planned():
    return plan(demo_document())


def test_the_snippets_of_the_page_run(monkeypatch):
    monkeypatch.chdir(ROOT)
    text = (ROOT / "docs" / "python.md").read_text("utf-8")
    test = doctest.DocTestParser().get_doctest(text, {}, "python.md", "python.md", 0)
    assert len(test.examples) > 20
    told = []
    failed = doctest.DocTestRunner(optionflags=doctest.NORMALIZE_WHITESPACE).run(test, out=told.append).failed
    assert failed == 0, "".join(told)


def test_a_job_goes_in_in_every_way(planned, tmp_path):
    path = tmp_path / "job.json"
    path.write_bytes(demo_document())
    document = json.loads(demo_document())
    for given in (str(path), path, demo_document().decode(), document, planned.plan.job):
        assert validate(given) == ()
    with pytest.raises(Exception, match="cannot be read"):
        plan(tmp_path / "gone.json")


def test_tables_hold_what_the_plan_holds(planned):
    assert len(planned.rows("pieces")) == sum(len(area.pieces) for area in planned.laying.areas)
    assert sum(row["amount_minor"] for row in planned.rows("cost")) == planned.cost.prime_minor
    assert len(planned.rows("findings")) == len(planned.findings)
    workings = planned.rows("workings")
    assert {row["room"] for row in workings} >= {"levels", "build_ups", "earthworks", "quantities", "cost", "programme"}
    assert planned.cost.lines[0].working.expression in {row["expression"] for row in workings}
    with pytest.raises(UnknownTableError, match="Tables: levels"):
        planned.rows("prices")


def test_what_comes_out_is_frozen(planned):
    with pytest.raises(dataclasses.FrozenInstanceError):
        planned.price.total_minor = 0
    with pytest.raises(dataclasses.FrozenInstanceError):
        planned.plan = None


def test_a_job_that_knows_little_has_no_price_and_no_rows():
    document = json.loads(demo_document())
    known = {name: document[name] for name in ("format", "version", "identity")}
    little = plan(known | {"measurements": {}, "areas": [], "units": []})
    assert isinstance(little, Planned) and not little.is_whole
    assert little.missing
    assert little.rows("pieces") == ()


def test_without_pandas_a_sentence_says_what_to_install(planned, monkeypatch):
    monkeypatch.setitem(sys.modules, "pandas", None)
    with pytest.raises(MissingTablesError, match="extra frames"):
        planned.frame("cost")


def test_many_jobs_by_an_engine_come_in_their_order_with_the_same_plans(planned, tmp_path):
    others = [json.loads(demo_document()) for _ in range(3)]
    for number, each in enumerate(others):
        each["identity"]["title"] = f"Job {number}"
    jobs = [others[0], {}, tmp_path / "gone.json", others[1], demo_document(), others[2], tmp_path / "gone.json"]
    with LocalCores(1) as engine:
        found = list(plan_many(jobs, engine=engine))
    alone = list(plan_many(jobs))
    told = [each if isinstance(each, tuple) else each.to_dict() for each in found]
    assert told == [each if isinstance(each, tuple) else each.to_dict() for each in alone]
    assert [isinstance(each, tuple) for each in found] == [False, True, True, False, False, False, True]
    assert found[4].price == planned.price
