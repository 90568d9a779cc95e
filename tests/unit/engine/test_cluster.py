"""The same pieces on a scheduler and its workers."""

from __future__ import annotations

import pytest

from pavewright import engine as door
from pavewright.engine import Cluster, Common, EngineLostError, Failed, FailureKind, Piece, RunStoppedError, run_pieces

pytest.importorskip("distributed")


def pieces(count):
    return [Piece(f"k{n}", str(n).encode()) for n in range(count)]


def answers(verb, todo, engine, register, **more):
    return dict(run_pieces(verb, todo, engine=engine, register=register, **more))


def test_a_cluster_answers_as_this_machine_does(cluster, two, register):
    assert answers("double", pieces(70), cluster, register) == answers("double", pieces(70), two, register)


def test_what_pieces_share_is_one_task_and_comes_with_each_of_them(cluster, two, register):
    commons = [Common.of(f" of kind {kind}".encode()) for kind in range(6)]
    todo = [Piece(f"k{n}", str(n).encode(), commons[n % 6]) for n in range(70)]
    found = answers("joined", todo, cluster, register)
    assert found == answers("joined", todo, two, register)
    assert found["k64"] == b"64 of kind 4"


def test_pieces_go_together_and_fewer_where_there_are_few(cluster):
    assert [cluster.batch(count) for count in (3, 80, 800, 10_000, None)] == [1, 10, 32, 32, 32]


def test_a_piece_that_raises_is_a_failure_of_its_own(cluster, register):
    found = answers("refuse_odd", pieces(20), cluster, register)
    assert found["k3"] == Failed(FailureKind.RAISED, "ValueError", "3 is odd")
    assert sum(isinstance(each, bytes) for each in found.values()) == 10


def test_a_run_is_stopped(cluster, register):
    done = {}
    with pytest.raises(RunStoppedError):
        todo = [Piece(str(n), b"0.02") for n in range(500)]
        for key, answer in run_pieces("slow", todo, engine=cluster, register=register, stopped=lambda: bool(done)):
            done[key] = answer  # noqa: PERF403 - what came before the stop is kept
    assert 0 < len(done) < 500
    assert answers("double", pieces(3), cluster, register).keys() == {"k0", "k1", "k2"}


def test_a_verb_that_a_worker_does_not_know_ends_the_run(cluster, register):
    with pytest.raises(door.OtherProgramError):
        answers("no_such_verb", pieces(3), cluster, register)


def test_a_worker_that_is_killed_costs_no_answer(cluster, machines, register):
    found = {}
    todo = [Piece(f"s{n}", b"0.02") for n in range(40)]
    for key, answer in run_pieces("slow", todo, engine=cluster, register=register):
        if not found:
            machines.workers[0].kill()
        found[key] = answer
    machines.workers[0] = machines.add_worker()
    assert found == {f"s{n}": b"0.02" for n in range(40)}


def test_a_scheduler_that_is_not_there_is_named():
    with pytest.raises(EngineLostError, match="tcp://127.0.0.1:9"):
        Cluster("tcp://127.0.0.1:9", seconds=0.3)
