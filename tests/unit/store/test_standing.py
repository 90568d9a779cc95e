"""A look into the store says what changed, also where only a little of it is read again."""

from __future__ import annotations

import random

import pytest

from pavewright.desk import starter_document
from pavewright.store import open_store


@pytest.fixture
def store(tmp_path):
    opened = open_store(f"sqlite:///{tmp_path / 'jobs.sqlite'}")
    yield opened
    opened.close()


def test_a_look_after_each_change_is_what_a_first_look_sees(store):
    document = starter_document("A patio", store.firm.book().document)
    chance = random.Random(4)
    seen = store.standing.look()
    jobs: list[str] = []
    for _ in range(40):
        what = chance.choice(["add", "save", "archive", "back", "delete", "bring back"])
        job = chance.choice(jobs) if jobs else None
        if what == "add" or job is None:
            jobs.append(store.add(document).id)
        elif what == "save":
            store.save(job, store.job(job).rev, document)
        elif what in {"archive", "back"}:
            store.put_away(job, archived=what == "archive")
        elif what == "delete":
            store.deleted.put(job)
        else:
            store.deleted.bring_back(job)
        seen = store.standing.look(seen)
        assert seen.marks == store.standing.look().marks
    assert store.standing.look(seen) is seen
    job = jobs[0]
    store.deleted.put(job)
    store.deleted.remove(job)
    assert job not in store.standing.look(seen).marks
