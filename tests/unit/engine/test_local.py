"""Many pieces of work on the cores of this machine."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import threading
import time
from pathlib import Path

import pytest

from pavewright import engine as door
from pavewright.engine._frames import put_common
from pavewright.engine import (
    Common,
    Failed,
    FailureKind,
    LocalCores,
    OtherProgramError,
    Piece,
    RunStoppedError,
    run_pieces,
)


def pieces(count):
    return [Piece(f"k{n}", str(n).encode()) for n in range(count)]


def answers(verb, todo, engine, register, **more):
    return dict(run_pieces(verb, todo, engine=engine, register=register, **more))


def test_answers_come_by_their_keys_whatever_the_number_of_workers(two, register):
    with LocalCores(1) as one:
        assert (
            answers("double", pieces(9), one, register)
            == answers("double", pieces(9), two, register)
            == {f"k{n}": str(n).encode() * 2 for n in range(9)}
        )


def test_a_piece_that_raises_is_a_failure_of_its_own(two, register):
    found = answers("refuse_odd", pieces(6), two, register)
    assert found["k3"] == Failed(FailureKind.RAISED, "ValueError", "3 is odd")
    assert [key for key, each in found.items() if isinstance(each, bytes)].__len__() == 3


def test_a_piece_that_ends_every_worker_is_given_up_and_the_others_go_on(two, register):
    found = answers("die_at_seven", pieces(12), two, register)
    assert found.pop("k7") == Failed(FailureKind.LOST)
    assert found == {f"k{n}": str(n).encode() * 2 for n in range(12) if n != 7}


def test_a_worker_that_is_lost_once_costs_no_answer(two, register, tmp_path):
    todo = [Piece(name, str(tmp_path / name).encode()) for name in ("a", "b", "c", "d")]
    (tmp_path / "b").touch()
    assert answers("die_once", todo, two, register) == {name: name.encode() * 2 for name in ("a", "b", "c", "d")}


def test_a_worker_that_is_killed_from_outside_costs_no_answer(two, register):
    found = {}
    for key, answer in run_pieces("slow", [Piece(f"s{n}", b"0.05") for n in range(8)], engine=two, register=register):
        if not found:
            os.kill(two.process_ids[0], signal.SIGKILL)
        found[key] = answer
    assert found == {f"s{n}": b"0.05" for n in range(8)}


def test_workers_are_kept_warm_between_runs(two, register):
    first = set(answers("who", pieces(6), two, register).values())
    assert set(answers("who", pieces(6), two, register).values()) | first <= {
        str(pid).encode() for pid in two.process_ids
    }


def test_what_was_done_is_given_and_not_made_again(two, register):
    made = answers("double", pieces(5), two, register, done={"k1": b"kept", "elsewhere": b""})
    assert made == {"k0": b"00", "k1": b"kept", "k2": b"22", "k3": b"33", "k4": b"44"}


def test_a_run_is_stopped_in_the_midst_of_a_piece_and_taken_up_again(two, register):
    todo = [Piece("quick", b"0"), Piece("late", b"600")]
    done = {}
    with pytest.raises(RunStoppedError):
        for key, answer in run_pieces("slow", todo, engine=two, register=register, stopped=lambda: bool(done)):
            done[key] = answer  # noqa: PERF403 - what came before the stop is kept
    assert done == {"quick": b"0"}
    again = answers("slow", [Piece("quick", b"600"), Piece("late", b"0.01")], two, register, done=done)
    assert again == {"quick": b"0", "late": b"0.01"}


def test_a_run_that_nobody_reads_any_more_frees_its_workers(two, register):
    run = run_pieces("slow", [Piece("a", b"0"), Piece("b", b"600"), Piece("c", b"600")], engine=two, register=register)
    assert next(run)[0] == "a"
    run.close()
    assert answers("double", pieces(3), two, register).keys() == {"k0", "k1", "k2"}


def test_pieces_are_taken_as_they_are_needed(two, register):
    taken = []

    def many():
        for n in range(10_000):
            taken.append(n)
            yield Piece(f"k{n}", b"x")

    run = run_pieces("double", many(), engine=two, register=register)
    for _ in range(5):
        next(run)
    run.close()
    assert len(taken) < 20


def test_progress_counts_what_is_over(two, register):
    told = []
    answers("refuse_odd", pieces(4), two, register, report=told.append, done={"k0": b"0"})
    assert told[0] == door.Progress(0, 0, 4, 2)
    assert told[-1] == door.Progress(4, 2, 4, 2)
    assert [each.done for each in told] == [0, 1, 2, 3, 4]


def with_commons(count, kinds):
    """Return pieces, what they share, and what comes of them."""
    commons = [Common.of(f" of kind {kind}".encode()) for kind in range(kinds)]
    todo = [Piece(f"k{n}", str(n).encode(), commons[n % kinds]) for n in range(count)]
    return todo, {f"k{n}": f"{n} of kind {n % kinds}".encode() for n in range(count)}


@pytest.mark.parametrize("kinds", [1, 2, 7])
def test_what_pieces_share_comes_with_each_of_them(two, register, kinds):
    todo, wanted = with_commons(28, kinds)
    assert answers("joined", todo, two, register) == wanted


def test_what_pieces_share_is_sent_to_each_worker_once(register, monkeypatch):
    sent, send = [], put_common
    monkeypatch.setattr("pavewright.engine._local.put_common", lambda *all_of: (sent.append(1), send(*all_of)))
    todo, wanted = with_commons(30, 2)
    with LocalCores(1) as one:
        assert answers("joined", todo, one, register) == wanted
        assert len(sent) == 2
        os.kill(one.process_ids[0], signal.SIGKILL)
        assert answers("joined", todo, one, register) == wanted
    assert len(sent) == 4


def test_no_piece_no_answer(two, register):
    assert answers("double", [], two, register) == {}


def test_two_pieces_of_one_name_are_refused(two, register):
    with pytest.raises(ValueError, match="called k0"):
        answers("double", [*pieces(2), Piece("k0", b"")], two, register)


def test_a_verb_that_a_worker_does_not_know_ends_the_run(two, register):
    with pytest.raises(OtherProgramError):
        answers("no_such_verb", pieces(3), two, register)


def test_another_program_gives_no_answer(two, register, monkeypatch):
    monkeypatch.setattr("pavewright.engine._run.program_digest", lambda: "another")
    with pytest.raises(OtherProgramError):
        answers("double", pieces(3), two, register)


def test_workers_end_with_whoever_started_them(register, tmp_path):
    script = (
        "import sys, os\nfrom pavewright.engine import *\n"
        f"sys.path.insert(0, {str(sys.path[0])!r})\n"
        "engine = LocalCores(2)\n"
        f"list(run_pieces('who', [Piece(str(n), b'') for n in range(4)], engine=engine, register={register!r}))\n"
        "print(*engine.process_ids, flush=True)\nos._exit(1)\n"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=False)
    numbers = [int(each) for each in done.stdout.split()]
    assert numbers, done.stderr
    until = time.monotonic() + 10
    while any(Path(f"/proc/{each}").exists() for each in numbers) and time.monotonic() < until:
        time.sleep(0.05)
    assert not any(Path(f"/proc/{each}").exists() for each in numbers)


def test_one_worker_at_least():
    with pytest.raises(ValueError, match="One worker"):
        LocalCores(0)


def test_two_runs_at_one_engine_get_their_turns_one_after_the_other(register):
    engine, order = LocalCores(1), []

    def run(name, count):
        pieces = [Piece(f"{name}{number}", b"0.02") for number in range(count)]
        for key, _ in run_pieces("slow", pieces, engine=engine, register=register):
            order.append(key[0])

    list(run_pieces("double", [Piece("warm", b"1")], engine=engine, register=register))
    long = threading.Thread(target=run, args=("long", 40))
    long.start()
    while len(order) < 3:
        time.sleep(0.005)
    run("short", 5)
    here = order.index("s")
    long.join()
    engine.close()
    assert order.count("s") == 5 and order.count("l") == 40
    last = len(order) - 1 - order[::-1].index("s")
    assert last - here <= 5 * 3  # between two of the short run no more of the long one than it may have in front
    assert order[last:].count("l") > 15
