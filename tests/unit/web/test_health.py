"""Whether the server runs and is ready is told to whoever asks, and nothing else is."""

from __future__ import annotations

import asyncio
import shutil
import threading
from types import SimpleNamespace

import pytest
import sqlalchemy as sa
from starlette.testclient import TestClient

from pavewright.store import Amiss, amiss_of, open_installation, size_bytes_of
from pavewright.web import Workers, make_app
from pavewright.web import _health_routes as health


@pytest.fixture
def kept(tmp_path):
    opened = open_installation(tmp_path / "jobs.sqlite")
    yield opened
    opened.close()


@pytest.fixture
def asks(kept):
    with TestClient(make_app(kept, Workers({})), base_url="http://127.0.0.1") as opened:
        yield opened


def enter_somebody(kept):
    kept.accounts.join(kept.accounts.add_person("kim", "Kim Flagg").id, kept.first_id, "owner")


def test_a_server_that_can_work_says_so_and_no_more(kept, asks):
    enter_somebody(kept)
    assert asks.get("/api/jobs").status_code == 401  # everybody signs in
    assert asks.get("/health").json() == {"alive": True, "message": "It runs."}
    answered = asks.get("/ready")
    assert (answered.status_code, answered.json()) == (200, {"ready": True, "amiss": [], "message": "It is ready."})
    assert "set-cookie" not in answered.headers
    assert answered.headers["cache-control"] == "no-store"
    assert asks.head("/ready").status_code == 200


def test_it_is_not_ready_where_another_version_made_the_tables(kept, asks):
    with kept.first.writing() as connection:
        connection.execute(sa.text("UPDATE alembic_version SET version_num = 'of tomorrow'"))
    answered = asks.get("/ready")
    assert answered.status_code == 503
    assert answered.json()["amiss"] == ["tables"]
    assert "of tomorrow" not in answered.text and "sqlite" not in answered.text


def test_it_is_not_ready_where_the_store_does_not_answer_and_still_alive(kept, asks, tmp_path):
    with kept.first.writing() as connection:
        connection.execute(sa.text("DROP TABLE alembic_version"))
    answered = asks.get("/ready")
    assert (answered.status_code, answered.json()["amiss"]) == (503, ["store"])
    assert str(tmp_path) not in answered.text
    assert asks.get("/health").status_code == 200


def test_it_is_not_ready_without_room_on_the_disk(kept, asks, monkeypatch):
    free = shutil.disk_usage(kept.first.name).free
    assert amiss_of(kept.first, free * 2) == (Amiss.DISK,)
    monkeypatch.setattr(
        "pavewright.store._fit.shutil", SimpleNamespace(disk_usage=lambda _: SimpleNamespace(free=199_999_999))
    )
    answered = asks.get("/ready")
    assert (answered.status_code, answered.json()["amiss"]) == (503, ["disk"])
    assert answered.json()["message"].startswith("The disk has hardly any room left")


def test_the_store_is_not_asked_at_each_question_and_one_that_hangs_holds_one_thread(monkeypatch):
    looked, now, hangs = [], [0.0], threading.Event()

    def looks(_store):
        looked.append(now[0])
        if now[0]:
            hangs.wait(60)
        return ()

    monkeypatch.setattr(health, "amiss_of", looks)

    async def asked():
        readiness = health.Readiness(SimpleNamespace(first=None), clock=lambda: now[0], look_s=60)
        assert await readiness.amiss() == ()
        assert await readiness.amiss() == ()
        now[0], readiness._look_s = 60.0, 0.01
        assert await readiness.amiss() == (Amiss.STORE,)
        assert await readiness.amiss() == (Amiss.STORE,)
        hangs.set()
        await readiness._looking
        assert looked == [0.0, 60.0]

    asyncio.run(asked())


def test_the_size_of_a_store_is_that_of_its_files(kept, tmp_path):
    assert size_bytes_of(kept.first) == sum(
        each.stat().st_size for each in tmp_path.iterdir() if each.name in {"jobs.sqlite", "jobs.sqlite-wal"}
    )
