"""What is due, places and money told from indexes are what every job by itself tells, in a file and on a server."""

from __future__ import annotations

import datetime as dt
import random
from collections import Counter
from contextlib import contextmanager

import pytest
import sqlalchemy as sa
from alembic import command
from tests.unit.store.test_apart import WHAT
from tests.unit.store.test_migrations import as_one_firm
from tests.unit.store.test_orders import TODAY, add, due, summary

from pavewright.order_book import ACCEPTED_DAYS, ENDS, OPEN_STATES, DueKind, JobState, due_items
from pavewright.store import JobsAsked, Made, _quotations, open_store
from pavewright.store._open import _config
from pavewright.store._tables import JOBS
from pavewright.store.orders._tables import DUE_FACTS, MONEY_WEEKS, ORDER_LINES

STATES = [each.value for each in JobState]
KINDS = [each.value for each in DueKind if each not in {DueKind.SILENT, DueKind.QUESTION, DueKind.ACCEPTED}]
PLACES = ["", "Ashford Green", "ZZ9"]


def on(days):
    return (TODAY + dt.timedelta(days=days)).isoformat()


@contextmanager
def at(days):
    """Let the clock of the store say a day."""
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(_quotations, "now", lambda: f"{on(days)}T09:30:00.000+00:00")
        yield


def linked(store, drawn, job):
    """Give the customer of a job a link, drawn: some withdrawn, asked about, accepted."""
    made = drawn.randint(-20, 0)
    last = made + drawn.randint(0, 40)
    papers = Made(job, 1, TODAY + dt.timedelta(days=last), "{}", b"pdf")
    with at(made):
        link, token = store.quotations.make(papers, withdraw_others=True)
    if drawn.random() < 0.2:
        store.quotations.withdraw(job, link.id)
        return
    day = drawn.randint(made, last)
    if drawn.random() < 0.4:
        with at(day):
            asked = store.quotations.ask(token, "What of the step?", TODAY + dt.timedelta(days=day))
        if drawn.random() < 0.3:
            store.quotations.answer(job, asked.id, "It is laid anew.")
    if drawn.random() < 0.6:
        with at(day):
            store.quotations.accept(token, WHAT, TODAY + dt.timedelta(days=day))


def drawn_job(store, drawn, number):
    """Put a job into the store as a worker would leave it, drawn; some with links, questions, put away."""
    dues = [
        due(
            drawn.choice(KINDS),
            on(drawn.randint(-9, 12)),
            f"k{drawn.randint(0, 2)}",
            until=drawn.choice([None, on(drawn.randint(-3, 9))]),
            amount_minor=drawn.choice([None, drawn.randint(1, 900)]),
        )
        for _ in range(drawn.randint(0, 4))
    ]
    monday = TODAY - dt.timedelta(days=TODAY.weekday())
    weeks = [
        {
            "week": (monday + dt.timedelta(weeks=week)).isoformat(),
            "owing_minor": drawn.choice([0, 100]),
            "expected_minor": drawn.choice([0, 70]),
            "out_minor": drawn.choice([0, 30]),
        }
        for week in sorted({drawn.randint(-2, 3) for _ in range(2)})
    ]
    parts = {
        "by_hand": drawn.random() < 0.2,
        "place": drawn.choice(PLACES),
        "currency": drawn.choice(["GBP", "EUR"]),
        "dues": dues,
        "weeks": weeks,
        "gaps": drawn.choice([[], ["no_price"]]),
    }
    told = summary(drawn.choice(STATES), **parts) if drawn.random() < 0.9 else None
    job = add(store, f"Patio {drawn.randint(0, 3)} {number}", told)
    if drawn.random() < 0.6:
        linked(store, drawn, job)
    if drawn.random() < 0.15:
        store.put_away(job, archived=True)
    if drawn.random() < 0.15:
        store.deleted.put(job)


def money_by_jobs(store, since):
    """Return money by weeks and the jobs with gaps, each job read by itself: the plain twin."""
    shown = {row.row.id: row for row in store.orders.page(JobsAsked(TODAY, limit=10_000)).jobs}
    with store.reading() as connection:
        lines = {row.job_id: row for row in connection.execute(sa.select(ORDER_LINES)).all()}
        weeks = connection.execute(sa.select(MONEY_WEEKS)).all()
    sure = {each.value for each in OPEN_STATES | {JobState.SNAGGING}}
    found = Counter()
    for week in weeks:
        if week.job_id not in shown or lines[week.job_id].state in {each.value for each in ENDS}:
            continue
        key = dt.date.fromisoformat(week.week), week.currency
        found[key, "owing"] += week.owing_minor
        if lines[week.job_id].state in sure and week.week >= since.isoformat():
            found[key, "expected"] += week.expected_minor
            found[key, "out"] += week.out_minor
    gaps = {job for job, line in lines.items() if job in shown and line.state in sure and line.gaps != "[]"}
    return found, gaps


def test_what_a_customer_accepted_is_told_beside_what_the_job_has_due_itself(store):
    """The day of it, the last day of it, and the day after; in the list, in its beginning, in the count, by places."""
    dues = [due("visit", on(0), "v"), due("bill_owing", on(-1), "b", amount_minor=300)]
    jobs = [add(store, f"Patio {number}", summary("quoted", dues=dues)) for number in range(2)]
    with at(0):
        _, token = store.quotations.make(
            Made(jobs[0], 1, TODAY + dt.timedelta(days=90), "{}", b"pdf"), withdraw_others=True
        )
        store.quotations.accept(token, WHAT, TODAY)
    for days, told in ((0, True), (ACCEPTED_DAYS, True), (ACCEPTED_DAYS + 1, False)):
        today = TODAY + dt.timedelta(days=days)
        plain = due_items(store.orders.dues(today), today, money=True)
        news = [(each.job_id, each.fact.on) for each in plain if each.fact.kind is DueKind.ACCEPTED]
        assert news == ([(jobs[0], TODAY)] if told else [])
        assert len(plain) == 4 + told, "each day of both jobs once, and the news"
        for limit in range(1, 7):
            found = store.orders.due_list(today, limit, money=True)
            assert (found.total, found.items) == (len(plain), plain[:limit])
        assert store.orders.due_places(today, money=True) == {"Ashford Green": len(plain)}


@pytest.mark.parametrize("seed", range(6))
def test_what_is_due_is_told_as_job_by_job(store, seed):
    drawn = random.Random(seed)
    for number in range(30):
        drawn_job(store, drawn, number)
    today = TODAY + dt.timedelta(days=seed)
    for money in (True, False):
        plain = due_items(store.orders.dues(today), today, money=money)
        assert plain
        for limit in (1, 7, 200):
            found = store.orders.due_list(today, limit, money=money)
            assert found.items == plain[:limit]
            assert found.total == len(plain)
        assert store.orders.due_places(today, money=money) == dict(Counter(item.place for item in plain))
    shown = store.orders.page(JobsAsked(TODAY, limit=10_000)).jobs
    assert store.orders.places() == dict(Counter(one.place for one in shown if one.facts is not None))
    since = TODAY - dt.timedelta(days=TODAY.weekday())
    weeks, gaps = money_by_jobs(store, since)
    told = store.orders.money(since)
    assert {each[0] for each in told.unknown} == gaps
    for each in told.weeks:
        key = each.week, each.currency
        assert (each.owing_minor, each.expected_minor, each.out_minor) == (
            weeks.pop((key, "owing"), 0),
            weeks.pop((key, "expected"), 0),
            weeks.pop((key, "out"), 0),
        )
    assert not +weeks


def test_no_document_is_read_to_tell_what_is_due(store):
    if store._engine.dialect.name != "sqlite":
        pytest.skip("how a plan reads is written another way there")
    drawn = random.Random(1)
    for number in range(10):
        drawn_job(store, drawn, number)
    asked = []
    sa.event.listen(store._engine, "before_cursor_execute", lambda *each: asked.append((each[2], each[3])))
    store.orders.due_list(TODAY, 200, money=True)
    store.orders.due_places(TODAY, money=True)
    store.orders.places()
    assert asked
    assert not [words for words, _ in asked if "document" in words]
    counted = [each for each in asked if "count(*)" in each[0] and "due_fact" in each[0]]
    assert counted
    with store.reading() as connection:
        for words, values in counted:
            plan = [row[3] for row in connection.exec_driver_sql(f"EXPLAIN QUERY PLAN {words}", values).all()]
            assert [line for line in plan if "COVERING INDEX ix_due_fact_near" in line], plan


def test_a_filled_store_is_moved_on_with_state_and_place_beside_each_day(url):
    store = open_store(url)
    drawn = random.Random(3)
    for number in range(12):
        drawn_job(store, drawn, number)
    told = store.orders.due_list(TODAY, 200, money=True)
    money = store.orders.money(TODAY)
    config = _config()
    with store._engine.connect().execution_options(write=True) as connection, connection.begin():
        config.attributes["connection"] = connection
        command.downgrade(config, "0015")
        as_one_firm(connection)
        columns = [each["name"] for each in sa.inspect(connection).get_columns("due_fact") if each["name"] != "firm_id"]
        assert "place" not in columns
        # kept by a version before, which did not keep of one kind and key the last alone
        due_facts = sa.table("due_fact", *(sa.column(name) for name in columns))
        twice = connection.execute(sa.select(due_facts).where(due_facts.c.number == 0).limit(1)).mappings().one()
        connection.execute(due_facts.insert().values(dict(twice) | {"number": 99}))
    store.close()
    again = open_store(url)
    assert again.orders.due_list(TODAY, 200, money=True) == told
    assert again.orders.money(TODAY) == money
    with again.reading() as connection:
        lines = {row.job_id: row for row in connection.execute(sa.select(ORDER_LINES)).all()}
        for row in connection.execute(sa.select(DUE_FACTS)).all():
            line = lines[row.job_id]
            assert (row.state, row.by_hand, row.place) == (line.state, line.by_hand, line.place)
        assert connection.execute(sa.select(sa.func.count()).select_from(JOBS)).scalar_one() == 12
    again.close()
