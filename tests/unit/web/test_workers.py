"""The workers: work that hangs, grows or is not wanted any more harms nobody else's."""

from __future__ import annotations

import asyncio
import contextlib
import json
import os
import select
import signal
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from pavewright.web._answers import AskedWrongError
from pavewright.web._workers import BusyError, Workers, LeftError, WorkFailedError, WorkOutgrewError, WorkStoppedError
from pavewright.web._long_tasks import LongTasks
from pavewright.web._lanes import Lane
from pavewright.web._people import Asker
from pavewright.web._turns import Person

FAKE = (sys.executable, str(Path(__file__).with_name("fake_worker.py")))
ANN, BEN = Person("10.0.0.1", "ann"), Person("10.0.0.2", "ben")
PATIENT_S = 60.0
"""After this long a test that hangs is given up; nothing is measured by it."""


def workers_of(**lanes):
    return Workers(lanes or {"plan": Lane(workers=1)}, FAKE)


def played(play):
    """Play a coroutine in a thread of its own: a browser test before it may have left a loop running in this one."""

    async def within():
        async with asyncio.timeout(PATIENT_S):
            return await play()

    with ThreadPoolExecutor(1) as threads:
        return threads.submit(lambda: asyncio.run(within())).result()


class Held:
    """Work that is held by a worker until it is let go."""

    def __init__(self, workers, folder, person=ANN, *, verb="hold", lane="plan", seconds=PATIENT_S, asker=None):
        self.pipe = folder / f"{person.name}-{len(list(folder.iterdir()))}"
        os.mkfifo(self.pipe)
        self.begun = asyncio.Event()
        self.task = asyncio.create_task(
            workers.ask(lane, verb, os.fsencode(self.pipe), seconds=seconds, report=lambda _: self.begun.set(),
                     asker=asker or Asker(person))
        )  # fmt: skip

    async def let_go(self):
        await asyncio.to_thread(self.pipe.write_text, "done")
        return await self.task


@contextlib.asynccontextmanager
async def closing(workers):
    try:
        yield workers
    finally:
        await workers.close()


async def gone(pid):
    """Wait until a process has ended."""
    try:
        file = os.pidfd_open(pid)
    except ProcessLookupError:
        return
    try:
        assert await asyncio.to_thread(select.select, [file], [], [], PATIENT_S) != ([], [], []), pid
    finally:
        os.close(file)


def test_one_persons_long_plans_do_not_keep_another_person_waiting(tmp_path):
    async def play():
        async with closing(workers_of(plan=Lane(workers=2))) as workers:
            first, second = Held(workers, tmp_path, ANN), Held(workers, tmp_path, ANN)
            await first.begun.wait()
            reported = await workers.ask("plan", "name", b"", seconds=PATIENT_S, asker=Asker(BEN))
            waiting = not second.begun.is_set()
            await first.let_go()
            await second.let_go()
            return reported, waiting

    reported, waiting = played(play)
    assert reported
    assert waiting


def test_work_over_its_limit_is_ended_with_the_cause_and_the_next_is_answered_by_the_spare():
    document = {"areas": [{"name": "Lawn edge", "outline": [{"point": f"P{n}"} for n in range(2000)]}]}

    async def play():
        async with closing(workers_of()) as workers:
            with pytest.raises(WorkStoppedError) as stopped:
                await workers.ask("plan", "preview", json.dumps(document).encode(), seconds=0.2, asker=Asker(ANN))
            # shorter than a worker takes to load: loading does not count
            reported = await workers.ask("plan", "name", b"", seconds=0.5, asker=Asker(BEN))
            return str(stopped.value), reported

    words, reported = played(play)
    assert "in the midst of held" in words
    assert "the outline of area Lawn edge has 2,000 corners" in words
    assert reported


def test_a_worker_that_takes_too_much_memory_is_ended_and_the_next_is_answered():
    async def play():
        async with closing(workers_of(plan=Lane(workers=1, memory_bytes=500_000_000))) as workers:
            before = await workers.ask("plan", "name", b"", seconds=PATIENT_S)
            with pytest.raises(WorkOutgrewError):
                await workers.ask("plan", "greedy", b"", seconds=PATIENT_S)
            await gone(int(before))
            return before, await workers.ask("plan", "name", b"", seconds=PATIENT_S)

    before, after = played(play)
    assert before != after


@pytest.mark.parametrize(("end", "kind"), [(signal.SIGKILL, WorkOutgrewError), (signal.SIGSEGV, WorkFailedError)])
def test_a_worker_that_dies_is_replaced(tmp_path, end, kind):
    async def play():
        async with closing(workers_of()) as workers:
            pid = int(await workers.ask("plan", "name", b"", seconds=PATIENT_S))
            held = Held(workers, tmp_path)
            await held.begun.wait()
            os.kill(pid, end)
            with pytest.raises(kind) as died:
                await held.task
            assert type(died.value) is kind
            return pid, int(await workers.ask("plan", "name", b"", seconds=PATIENT_S))

    before, after = played(play)
    assert before != after


def test_workers_that_still_load_when_the_program_stops_are_ended_and_waited_for(monkeypatch):
    begun, both, exec_ = [], asyncio.Event(), asyncio.create_subprocess_exec

    async def noted(*words, **wishes):
        begun.append(await exec_(*words, **wishes))
        if len(begun) == 2:
            both.set()
        return begun[-1]

    monkeypatch.setattr(asyncio, "create_subprocess_exec", noted)

    async def play():
        workers = workers_of(quick=Lane(workers=1), plan=Lane(workers=1))
        asked = [asyncio.create_task(workers.ask(lane, "name", b"", seconds=PATIENT_S)) for lane in ("quick", "plan")]
        await both.wait()
        await workers.close()
        await asyncio.gather(*asked, return_exceptions=True)
        return [process.returncode for process in begun]

    assert None not in played(play)


def test_a_newer_request_about_the_same_job_replaces_one_that_waits(tmp_path):
    async def play():
        async with closing(workers_of()) as workers:
            first = Held(workers, tmp_path, BEN)
            await first.begun.wait()
            old = Held(workers, tmp_path, asker=Asker(ANN, "job-1"))
            other = Held(workers, tmp_path, asker=Asker(ANN, "job-2"))
            await asyncio.sleep(0)
            new = Held(workers, tmp_path, asker=Asker(ANN, "job-1"))
            with pytest.raises(LeftError, match="newer change"):
                await old.task
            await first.let_go()
            return await other.let_go(), await new.let_go(), old.begun.is_set()

    assert played(play) == (b"done", b"done", False)


def test_the_newest_edit_is_begun_though_the_plan_of_an_older_one_is_not_done_yet(tmp_path):
    async def play():
        async with closing(workers_of(plan=Lane(workers=2))) as workers:
            old = Held(workers, tmp_path, asker=Asker(ANN, "job-1"))
            await old.begun.wait()
            new = Held(workers, tmp_path, asker=Asker(ANN, "job-1"))
            await new.begun.wait()  # by the other worker, at once
            with pytest.raises(LeftError, match="newer change"):
                await old.task
            return await new.let_go()

    assert played(play) == b"done"


def test_of_many_edits_one_after_the_other_only_the_newest_is_worked_out(tmp_path):
    async def play():
        async with closing(workers_of(plan=Lane(workers=2, grace_s=60.0))) as workers:
            edits = []
            for _ in range(12):
                edits.append(Held(workers, tmp_path, asker=Asker(ANN, "job-1")))
                if len(edits) < 3:
                    await edits[-1].begun.wait()
                else:
                    await asyncio.sleep(0)
            done = await asyncio.gather(*(each.task for each in edits[:-1]), return_exceptions=True)
            await edits[-1].begun.wait()  # a worker that is at an older one is ended soon, though its grace is long
            return {type(each) for each in done}, sum(each.begun.is_set() for each in edits), await edits[-1].let_go()

    assert played(play) == ({LeftError}, 3, b"done")


def test_one_who_edits_without_rest_does_not_keep_another_person_waiting(tmp_path):
    async def play():
        async with closing(workers_of(plan=Lane(workers=2, grace_s=60.0))) as workers:
            old = Held(workers, tmp_path, asker=Asker(ANN, "job-1"))
            await old.begun.wait()
            new = Held(workers, tmp_path, asker=Asker(ANN, "job-1"))
            await new.begun.wait()
            with pytest.raises(LeftError):
                await old.task
            other = Held(workers, tmp_path, BEN)
            await other.begun.wait()  # the worker of the older edit is ended for it, that of the newest is not
            return await other.let_go(), await new.let_go()

    assert played(play) == (b"done", b"done")


def test_a_client_that_hangs_up_frees_its_place(tmp_path):
    async def play():
        async with closing(workers_of()) as workers:
            first = Held(workers, tmp_path, BEN)
            await first.begun.wait()
            ends = asyncio.get_running_loop().create_future()
            waits = Held(workers, tmp_path, asker=Asker(ANN, receive=lambda: ends))
            await asyncio.sleep(0)
            ends.set_result({"type": "http.disconnect"})
            with pytest.raises(LeftError):
                await waits.task
            await first.let_go()
            await workers.ask("plan", "name", b"", seconds=PATIENT_S)
            return waits.begun.is_set()

    assert played(play) is False


def test_work_under_way_that_nobody_waits_for_is_ended(tmp_path):
    async def play():
        async with closing(workers_of(plan=Lane(workers=1, grace_s=0.01))) as workers:
            pid = int(await workers.ask("plan", "name", b"", seconds=PATIENT_S))
            ends = asyncio.get_running_loop().create_future()
            held = Held(workers, tmp_path, asker=Asker(ANN, receive=lambda: ends))
            await held.begun.wait()
            ends.set_result({"type": "http.disconnect"})
            with pytest.raises(LeftError):
                await held.task
            await gone(pid)
            return await workers.ask("plan", "name", b"", seconds=PATIENT_S)

    assert played(play)


def test_two_who_ask_the_same_share_the_work_and_one_who_leaves_takes_nothing_from_the_other(tmp_path):
    async def play():
        async with closing(workers_of()) as workers:
            pipe = tmp_path / "pipe"
            os.mkfifo(pipe)
            asked = [asyncio.create_task(workers.ask_kept("plan", "hold", os.fsencode(pipe), seconds=PATIENT_S))
                     for _ in range(2)]  # fmt: skip
            await asyncio.sleep(0)
            asked[0].cancel()
            await asyncio.to_thread(pipe.write_text, "done")
            return await asked[1], await workers.ask_kept("plan", "hold", os.fsencode(pipe), seconds=PATIENT_S)

    assert played(play) == (b"done", b"done")


def test_summaries_wait_until_no_plan_is_being_made(tmp_path):
    async def play():
        async with closing(workers_of(plan=Lane(workers=2))) as workers:
            plan = Held(workers, tmp_path, ANN)
            await plan.begun.wait()
            lines = [Held(workers, tmp_path, ANN, verb="summary") for _ in range(3)]
            # somebody who comes later than all of these goes before them
            await workers.ask("plan", "name", b"", seconds=PATIENT_S, asker=Asker(BEN))
            begun = [line.begun.is_set() for line in lines]
            await plan.let_go()
            await lines[0].begun.wait()
            # one of the two workers is left for plans
            await workers.ask("plan", "name", b"", seconds=PATIENT_S, asker=Asker(ANN))
            return begun, [await line.let_go() for line in lines]

    assert played(play) == ([False] * 3, [b"done"] * 3)


def test_a_further_errand_is_refused_in_words_and_the_first_goes_on(tmp_path):
    async def play():
        async with closing(workers_of(long=Lane(workers=1, grace_s=0.0))) as workers:
            long_tasks = LongTasks(workers)
            pipes = [tmp_path / str(number) for number in range(4)]
            for pipe in pipes:
                os.mkfifo(pipe)
            names = [long_tasks.begin("hold", os.fsencode(pipe), ANN) for pipe in pipes]
            with pytest.raises(BusyError, match="let one finish, or stop one") as refused:
                long_tasks.begin("hold", b"", ANN)
            for number in range(36):
                long_tasks.begin("hold", b"", Person("10.0.0.3", str(number)))
            with pytest.raises(BusyError, match="try again in some minutes"):
                long_tasks.begin("hold", b"", BEN)
            await asyncio.to_thread(pipes[0].write_text, "papers")
            await long_tasks._all[names[0]].task
            reported = long_tasks.reported(names[0]), long_tasks.result(names[0]), refused.value.own
            long_tasks.close()
            return reported

    reported, brought, own = played(play)
    assert reported["state"] == "done"
    assert brought == b"papers"
    assert own


def test_what_an_errand_brought_expires(tmp_path):
    async def play():
        now = [0.0]
        async with closing(workers_of(long=Lane(workers=1))) as workers:
            long_tasks = LongTasks(workers, lambda: now[0])
            name = long_tasks.begin("name", b"", ANN)
            await long_tasks._all[name].task
            now[0] = 1799.0
            long_tasks.result(name)
            now[0] = 1801.0
            with pytest.raises(AskedWrongError, match="too long ago"):
                long_tasks.result(name)

    played(play)


def test_a_stopped_errand_leaves_no_child_of_its_worker(tmp_path):
    async def play():
        async with closing(workers_of(long=Lane(workers=1, grace_s=0.0))) as workers:
            long_tasks = LongTasks(workers)
            pipe = tmp_path / "number"
            os.mkfifo(pipe)
            name = long_tasks.begin("child", os.fsencode(pipe), ANN)
            pid = int(await asyncio.to_thread(pipe.read_text))
            long_tasks.stop(name)
            await gone(pid)
            return long_tasks.reported(name)["state"]

    assert played(play) == "stopped"


SERVER = """
import asyncio, sys
from pavewright.web._workers import Workers
async def main():
    workers = Workers(words=(sys.executable, sys.argv[1]))
    work = asyncio.create_task(workers.ask("long", "child", sys.argv[2].encode(), seconds=3600.0))
    print((await workers.ask("plan", "name", b"", seconds=60.0)).decode(), flush=True)
    await asyncio.gather(work, workers.ask("plan", "preview", b"", seconds=3600.0))
asyncio.run(main())
"""


@pytest.mark.skipif(sys.platform != "linux", reason="pidfd")
def test_a_server_that_is_killed_leaves_no_worker_in_the_midst_of_work_and_no_child_of_one(tmp_path):
    async def play():
        pipe = tmp_path / "number"
        os.mkfifo(pipe)
        server = await asyncio.to_thread(
            subprocess.Popen, [sys.executable, "-c", SERVER, FAKE[1], str(pipe)], stdout=subprocess.PIPE
        )
        worker = int(await asyncio.to_thread(server.stdout.readline))
        child = int(await asyncio.to_thread(pipe.read_text))
        server.kill()
        server.wait()
        server.stdout.close()
        await gone(worker)
        await gone(child)

    played(play)
