"""Runs over many jobs: each answer once, taken up where they were left."""

from __future__ import annotations

import threading

import pytest

from pavewright.store import Run, RunResult, RunState, UnknownRunError, open_store
from pavewright.store import _runs as inside


@pytest.fixture
def runs(store):
    return store.runs


def begun(runs, digest="d", by="Ada"):
    return runs.begin("replanned", '{"of": "all"}', digest, 3, by)


def result(key, answer=b"a", *, failed=False):
    return RunResult(key, failed, answer)


def test_a_run_says_what_was_asked_by_whom_and_how_far_it_is(runs):
    run = begun(runs)
    runs.keep(run.id, [result("k1"), result("k2", b"{}", failed=True)])
    found = runs.run(run.id)
    assert (found.verb, found.question, found.pieces, found.made_by) == ("replanned", '{"of": "all"}', 3, "Ada")
    assert (found.state, found.done, found.failed, found.ended) == (RunState.GOING, 2, 1, None)
    assert runs.runs() == (found,)


def test_an_answer_is_kept_once_whoever_sends_it_again(runs):
    run = begun(runs)
    runs.keep(run.id, [result("k1", b"first")])
    runs.keep(run.id, [result("k1", b"second"), result("k2", b"other")])
    assert [(each.key, each.answer) for each in runs.results(run.id)] == [("k1", b"first"), ("k2", b"other")]


def test_two_who_keep_the_same_answers_at_a_time_keep_them_once(runs):
    run = begun(runs)
    todo = [[result(f"k{n:03}", bytes([who])) for n in range(100)] for who in (1, 2)]
    threads = [threading.Thread(target=lambda mine=each: [runs.keep(run.id, [one]) for one in mine]) for each in todo]
    for each in threads:
        each.start()
    for each in threads:
        each.join()
    assert len(list(runs.results(run.id))) == 100


def test_the_same_question_of_the_same_pieces_takes_up_the_run_that_was_left(runs):
    run = begun(runs)
    runs.keep(run.id, [result("k1", b"kept"), result("k2", failed=True)])
    runs.end(run.id, RunState.STOPPED)
    again = begun(runs)
    assert (again.id, again.state, again.done) == (run.id, RunState.GOING, 2)
    assert dict(runs.done(run.id)) == {"k1": b"kept"}
    runs.forget_failed(run.id)
    assert runs.run(run.id).done == 1
    runs.end(run.id, RunState.FINISHED)
    assert begun(runs).id != run.id


def test_other_pieces_are_another_run(runs):
    assert begun(runs, "d").id != begun(runs, "other").id


def test_what_was_kept_is_there_after_the_store_was_opened_again(store, url):
    run = begun(store.runs)
    store.runs.keep(run.id, [result("k1", b"kept")])
    other = open_store(url)
    assert dict(other.runs.done(run.id)) == {"k1": b"kept"}
    assert isinstance(other.runs.run(run.id), Run)
    other.close()


def test_more_answers_than_a_page_come_in_the_order_of_their_keys(runs):
    run = begun(runs)
    keys = [f"k{n:04}" for n in range(2 * inside._PAGE + 1)]
    runs.keep(run.id, [result(key) for key in reversed(keys)])
    assert [each.key for each in runs.results(run.id)] == keys


def test_old_runs_go_with_their_answers(runs):
    first = begun(runs, "first")
    runs.keep(first.id, [result("k1")])
    for n in range(inside._KEPT_RUNS):
        begun(runs, str(n))
    assert len(runs.runs(1000)) == inside._KEPT_RUNS
    assert list(runs.results(first.id)) == []
    with pytest.raises(UnknownRunError):
        runs.run(first.id)
    with pytest.raises(UnknownRunError):
        runs.keep(first.id, [result("k2")])


def test_plans_are_kept_by_all_that_they_depend_on(runs):
    runs.keep_plans({"a": b"1", "b": b"2"})
    runs.keep_plans({"a": b"other"})
    assert runs.kept_plans({"a", "b", "c"}) == {"a": b"1", "b": b"2"}
    runs.thin_plans(0)
    assert runs.kept_plans({"a", "b"}) == {}
