"""Jobs planned again, a price put at risk and a storm let run: the same bytes on one core, on two, and on a cluster.

A worker is killed in the midst of each.
"""

from __future__ import annotations

import importlib.util
import json
import os
import signal
import time
from pathlib import Path

import pytest

from pavewright.desk import (
    PartFailedError,
    Replan,
    ReplanQuestion,
    Spread,
    plain,
    risk_of,
    run_storm_on,
    spread_risk,
    spread_storm,
)
from pavewright.desk._verbs import make_plan_so_far
from pavewright.engine import LocalCores, RunStoppedError
from pavewright.store import RunState, open_file


def _of_the_desk():
    spec = importlib.util.spec_from_file_location("replanning", Path(__file__).parents[1] / "desk" / "replanning.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


small = _of_the_desk()


@pytest.fixture(scope="module")
def store(tmp_path_factory):
    found = open_file(tmp_path_factory.mktemp("jobs") / "jobs.sqlite")
    found.firm.save(0, json.dumps(small.BOOK))
    for number in range(4):
        found.add(small.patio(number))
    dearer = small.changed(small.BOOK, ("rates", "materials", 1, "pack_price_minor"), 9_999)
    found.firm.save(1, json.dumps(dearer))
    yield found
    found.close()


def answers(store, engine, report=None):
    replan = Replan(store, ReplanQuestion(), short=False)
    run = replan.begin()
    replan.do(run, engine, report)
    assert store.runs.run(run.id).state is RunState.FINISHED
    return [(each.key, each.failed, each.answer) for each in store.runs.results(run.id)]


@pytest.fixture(scope="module")
def on_one(store):
    with LocalCores(1) as engine:
        return answers(store, engine)


def test_every_job_is_answered(on_one):
    assert [failed for _, failed, _ in on_one] == [False] * 4
    assert {json.loads(each)["standing"] for _, _, each in on_one} == {"changed"}


def test_two_workers_answer_as_one_and_one_may_be_killed(store, two, on_one):
    killed = []

    def kill(progress):
        if progress.done == 2 and not killed:
            killed.append(two.process_ids[0])
            os.kill(killed[0], signal.SIGKILL)

    assert answers(store, two, kill) == on_one
    assert killed


def test_a_cluster_answers_as_one_core_and_one_of_its_workers_may_be_killed(store, machines, cluster, on_one):
    killed = []

    def kill(progress):
        if progress.done == 2 and not killed:
            killed.append(machines.workers[0].pid)
            machines.workers[0].kill()

    assert answers(store, cluster, kill) == on_one
    assert killed


@pytest.fixture(scope="module")
def study():
    """A job with its book, its plan, and the risk of its price and a storm as this process works them out alone."""
    document, book = small.patio(1), json.dumps(small.BOOK)
    made = make_plan_so_far(document, None, book)
    return document, book, made, told(risk_of(made)), told(run_storm_on(made, 60.0, 2.0))


def told(found):
    return json.dumps(plain(found), sort_keys=True)


def killing(kill):
    """Return a report that kills a worker once, and the list of whom it killed."""
    killed = []

    def report(progress):
        if progress.done and not killed:
            killed.append(kill())

    return report, killed


def test_risk_and_storm_are_the_same_on_two_workers_of_which_one_is_killed(study, two):
    document, book, made, risk, storm = study
    report, killed = killing(lambda: os.kill(two.process_ids[0], signal.SIGKILL))
    here = Spread(two, document, book, report)
    assert told(spread_risk(made, here)) == risk
    assert killed
    assert told(spread_storm(made, here, 60.0, 2.0)) == storm


def test_risk_and_storm_are_the_same_on_a_cluster_of_which_a_worker_is_killed(study, machines, cluster):
    document, book, made, risk, storm = study
    machines.add_worker()
    until = time.monotonic() + 60
    while cluster.workers < 2 and time.monotonic() < until:
        time.sleep(0.1)
    report, killed = killing(machines.workers[1].kill)
    here = Spread(cluster, document, book, report)
    assert told(spread_risk(made, here)) == risk
    assert killed
    assert told(spread_storm(made, here, 60.0, 2.0)) == storm


def test_a_study_is_stopped(study, two):
    document, book, made, *_ = study
    with pytest.raises(RunStoppedError):
        spread_risk(made, Spread(two, document, book, stopped=lambda: True))


def test_a_part_without_an_answer_is_named(study, two):
    _, book, made, *_ = study
    with pytest.raises(PartFailedError, match="drawing, . of 8: JobInvalid"):
        spread_risk(made, Spread(two, "{}", book))
