"""Turns: everybody's work comes round, whoever asks how much."""

from __future__ import annotations

import asyncio

import pytest

from pavewright.web._turns import BusyError, Person, Rank, Turns

ANN, BEN, CAT = (Person(f"10.0.0.{number}", name) for number, name in enumerate(("ann", "ben", "cat")))


async def settle():
    for _ in range(5):
        await asyncio.sleep(0)


class Desk:
    """Turns, with a list of who got one in which order."""

    def __init__(self, places=1, for_one=1, waiting=100, waiting_for_one=100):
        self.turns = Turns(places, for_one=for_one, waiting=waiting, waiting_for_one=waiting_for_one)
        for _ in range(places):
            self.turns.add_place()
        self.served = []
        self.held = []
        self.tasks = []

    async def ask(self, *people, rank=Rank.NOW):
        for person in people:
            self.tasks.append(asyncio.create_task(self._one(person, rank)))
        await settle()
        return self.tasks[-1]

    async def _one(self, person, rank):
        turn = await self.turns.take(person, rank)
        self.served.append(person)
        self.held.append(turn)

    async def finish(self, times=1):
        for _ in range(times):
            self.turns.give_back(self.held.pop(0))
            await settle()


def played(play):
    return asyncio.run(play())


def test_a_person_with_twenty_requests_does_not_keep_the_others_waiting_for_all_of_them():
    async def play():
        desk = Desk()
        await desk.ask(*[ANN] * 20, BEN, CAT, BEN)
        await desk.finish(6)
        return desk.served[:6]

    assert played(play) == [ANN, BEN, CAT, ANN, BEN, ANN]


def test_of_two_workers_one_is_always_left_for_somebody_else():
    async def play():
        desk = Desk(places=2, for_one=1)
        await desk.ask(ANN, ANN, ANN)
        first = list(desk.served)
        await desk.ask(BEN)
        return first, desk.served

    assert played(play) == ([ANN], [ANN, BEN])


def test_many_names_at_one_address_take_no_more_turns_than_one_name_elsewhere():
    async def play():
        desk = Desk()
        await desk.ask(*(Person("10.0.0.9", str(number)) for number in range(10)), BEN, BEN)
        await desk.finish(4)
        return [person.address for person in desk.served[:4]]

    assert played(play) == ["10.0.0.9", BEN.address, "10.0.0.9", BEN.address]


def test_what_nobody_waits_for_is_done_only_while_nothing_else_is():
    async def play():
        desk = Desk(places=2)
        await desk.ask(ANN)
        await desk.ask(CAT, CAT, rank=Rank.IDLE)
        while_ann_works = list(desk.served)
        await desk.finish()
        idle = list(desk.served)
        await desk.ask(CAT)  # her own work does not wait for what is done at idle times
        return while_ann_works, idle, desk.served

    assert played(play) == ([ANN], [ANN, CAT], [ANN, CAT, CAT])


def test_one_who_leaves_frees_the_place_in_the_list():
    async def play():
        desk = Desk()
        await desk.ask(ANN)
        leaver = await desk.ask(BEN)
        await desk.ask(CAT)
        leaver.cancel()
        await settle()
        await desk.finish()
        return desk.served, desk.turns.waiting

    assert played(play) == ([ANN, CAT], 0)


def test_one_who_leaves_as_the_turn_comes_gives_it_on():
    async def play():
        desk = Desk()
        await desk.ask(ANN)
        leaver = await desk.ask(BEN)
        await desk.ask(CAT)
        desk.turns.give_back(desk.held.pop(0))  # it is Ben's from here on
        leaver.cancel()
        await settle()
        return desk.served

    assert played(play) == [ANN, CAT]


def test_more_than_may_wait_is_refused_and_says_whose_it_is():
    async def play():
        desk = Desk(waiting=3, waiting_for_one=2)
        await desk.ask(ANN, ANN, ANN)
        with pytest.raises(BusyError, match="2 requests of yours") as own:
            await desk.turns.take(ANN)
        await desk.ask(BEN)
        with pytest.raises(BusyError, match="Too many people") as everybody:
            await desk.turns.take(CAT)
        return own.value.own, everybody.value.own

    assert played(play) == (True, False)


def test_nobody_is_served_before_somebody_is_ready_to_work():
    async def play():
        desk = Desk(places=0)
        await desk.ask(ANN)
        before = list(desk.served)
        desk.turns.add_place()
        await settle()
        return before, desk.served

    assert played(play) == ([], [ANN])


def test_a_place_that_is_lost_serves_nobody():
    async def play():
        desk = Desk()
        await desk.ask(ANN, BEN)
        desk.turns.give_back(desk.held.pop(0), lost=True)
        await settle()
        return desk.served, desk.turns.places

    assert played(play) == ([ANN], 0)


def test_where_no_worker_can_be_had_those_who_wait_are_told():
    async def play():
        desk = Desk(places=0)
        task = await desk.ask(ANN)
        desk.turns.refuse_all(RuntimeError("no worker"))
        await settle()
        return str(task.exception()), desk.turns.waiting

    assert played(play) == ("no worker", 0)


def test_a_place_that_comes_free_in_the_moment_in_which_the_next_leaves_goes_to_the_one_after():
    async def play():
        desk = Desk()
        await desk.ask(ANN, BEN, CAT)
        desk.tasks[1].cancel()  # BEN leaves; nothing else has happened yet
        desk.turns.give_back(desk.held.pop(0))
        await settle()
        return desk.served, desk.turns.waiting, desk.turns.free

    assert played(play) == ([ANN, CAT], 0, 0)
