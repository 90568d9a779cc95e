"""What the server says that it keeps, it keeps: once, readable, and in words where it cannot."""

from __future__ import annotations

import io
import json
import sqlite3
from contextlib import closing

import pytest
import sqlalchemy as sa
from PIL import Image
from starlette.testclient import TestClient

from pavewright.store import _open as opening
from pavewright.store import open_file, open_store
from pavewright.web import make_app


def put(client, job, rev, document, key=None):
    body = {"rev": rev, "document": json.dumps(document), "note": "n"} | ({} if key is None else {"key": key})
    return client.put(f"/api/jobs/{job}", json=body)


def test_a_save_sent_again_is_answered_with_its_revision(client, demo, document):
    document["identity"]["title"] = "Mine"
    assert put(client, demo, 1, document, "k1").json() == {"rev": 2}
    assert put(client, demo, 1, document, "k1").json() == {"rev": 2}
    other = document | {"identity": document["identity"] | {"title": "Theirs"}}
    assert put(client, demo, 2, other, "k2").json() == {"rev": 3}
    assert put(client, demo, 1, document, "k1").json() == {"rev": 2}
    wrong = put(client, demo, 3, document, "k2")
    assert (wrong.status_code, "new key" in wrong.json()["message"]) == (422, True)
    assert put(client, demo, 3, document, "no such/key").status_code == 404
    assert len(client.get(f"/api/jobs/{demo}/revisions").json()["revisions"]) == 3


def test_a_photo_of_the_same_name_on_another_job_is_another_photo(client, store, demo):
    other = store.add("{}").id
    pictures = {}
    for job, colour in ((demo, "red"), (other, "blue")):
        picture = io.BytesIO()
        Image.new("RGB", (40, 40), colour).save(picture, "JPEG")
        for status in (201, 200):
            path = f"/api/jobs/{job}/photos?id=same"
            assert (
                client.post(path, content=picture.getvalue(), headers={"Content-Type": "image/jpeg"}).status_code
                == status
            )
        pictures[job] = client.get(f"/api/jobs/{job}/photos/same").content
    assert pictures[demo] != pictures[other]


def test_a_photo_is_not_kept_by_a_browser(client, demo):
    picture = io.BytesIO()
    Image.new("RGB", (40, 40), "red").save(picture, "JPEG")
    path, kind = f"/api/jobs/{demo}/photos", {"Content-Type": "image/jpeg"}
    assert client.post(f"{path}?id=private", content=picture.getvalue(), headers=kind).status_code == 201
    assert client.get(f"{path}/private").headers["cache-control"] == "no-store"


def test_a_full_disk_and_a_lock_are_told_and_nothing_is_half_kept(client, store, demo, document, monkeypatch):
    document["identity"]["title"] = "On a full disk"
    document["site"]["notes"] = "x"
    document["filler"] = "x" * 300_000

    def no_room(connection):
        pages = connection.exec_driver_sql("PRAGMA page_count").scalar()
        connection.exec_driver_sql(f"PRAGMA max_page_count={pages + 1}")

    sa.event.listen(store._engine, "begin", no_room)
    try:
        full = put(client, demo, 1, document, "k")
        made = client.post("/api/jobs", json={"document": document})
    finally:
        sa.event.remove(store._engine, "begin", no_room)
        with store._engine.connect() as connection:
            connection.exec_driver_sql("PRAGMA max_page_count=1073741823")
    assert (full.status_code, made.status_code) == (507, 507)
    assert "free some space" in full.json()["message"]
    assert client.get(f"/api/jobs/{demo}").json()["rev"] == 1

    monkeypatch.setattr(opening, "BUSY_MS", 50)
    with store._engine.connect() as connection:
        connection.exec_driver_sql("PRAGMA busy_timeout=50")
    store._engine.dispose()
    with closing(sqlite3.connect(store.name, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        locked = put(client, demo, 1, document, "k")
        assert client.get(f"/api/jobs/{demo}").status_code == 200
        other.execute("ROLLBACK")
    assert (locked.status_code, "try again" in locked.json()["message"]) == (503, True)
    store._engine.dispose()
    assert put(client, demo, 1, document, "k").json() == {"rev": 2}


UNREADABLE = {
    "half a sign": lambda text: text.replace('"Corner by gate"', '"x"').replace(
        '"areas"', '"note": "\\ud83d", "areas"', 1
    ),
    "no number": lambda text: text.replace('"areas"', '"far": 1e999, "areas"', 1),
    "NaN": lambda text: text.replace('"areas"', '"far": NaN, "areas"', 1),
    "a mark before": lambda text: "\ufeff" + text,
    "twice": lambda text: text.replace('"areas"', '"units": [], "areas"', 1),
    "cut short": lambda text: text[: len(text) // 2],
    "nothing": lambda _: "",
    "no object": lambda _: "[1, 2]",
    "half a job": lambda _: '{"identity": {"title": "Half a job"}}',
    "nonsense": lambda _: '{"identity": 3, "areas": "x", "measurements": null}',
}


@pytest.mark.parametrize("what", UNREADABLE)
def test_a_kept_document_that_cannot_be_read_opens_as_a_draft_with_its_revisions(client, store, demo, what):
    good = store.job(demo).document
    assert put(client, demo, 1, json.loads(good) | {"version": 1}).status_code == 200
    with closing(sqlite3.connect(store.name)) as raw:  # as an older program left it
        raw.execute("UPDATE job SET document = ?, summary = NULL WHERE id = ?", (UNREADABLE[what](good), demo))
        raw.execute("UPDATE revision SET document = ? WHERE job_id = ? AND rev = 2", (UNREADABLE[what](good), demo))
        raw.commit()
    reported = client.get(f"/api/jobs/{demo}").json()
    readable = what in {"a mark before", "half a job", "nonsense"}
    assert bool(reported.get("fault")) != readable
    assert (reported["document"] is None) == (what in {"cut short", "nothing", "no object"})
    for path in ("", "/revisions", "/revisions/1", "/revisions/2", "/site-plan", "/photos", "/document.json"):
        assert client.get(f"/api/jobs/{demo}{path}").status_code == 200, path
    assert client.get(f"/api/jobs/{demo}/site-plan").json()["document"] == reported["document"]
    assert client.get("/api/jobs").status_code == 200
    assert client.get(f"/jobs/{demo}").status_code == 200
    assert client.get(f"/api/jobs/{demo}/customer").status_code in {200, 422}
    assert client.get(f"/jobs/{demo}/site-sheet.html").status_code in {200, 422}
    assert client.post("/api/preview", content=json.dumps(reported["document"])).status_code == 200
    assert client.post("/api/jobs", json={"copy_of": demo}).status_code in {201, 422}
    delivery = {"id": f"d-{demo}", "kind": "tapes", "entries": [{"start": "A", "end": "C", "length_mm": 9000.0}]}
    assert client.post(f"/api/jobs/{demo}/deliveries", json=delivery).status_code in {200, 422}
    stale = put(client, demo, 1, json.loads(good))
    assert stale.status_code == 409
    # and it is mended by going back
    now = client.get(f"/api/jobs/{demo}").json()["rev"]
    back = client.get(f"/api/jobs/{demo}/revisions/1").json()["document"]
    assert put(client, demo, now, back).status_code == 200
    assert client.get(f"/api/jobs/{demo}").json()["document"] == back


@pytest.mark.parametrize("text", ['{"a": 1e999}', '{"a": NaN}', '{"a": "\\ud83d"}', '{"a": 1, "a": 2}', "[]", "{"])
def test_what_could_not_be_read_again_is_refused_at_the_door(client, demo, text):
    answer = client.put(f"/api/jobs/{demo}", json={"rev": 1, "document": text})
    assert answer.status_code == 400
    assert answer.json()["message"]
    assert client.get(f"/api/jobs/{demo}").json()["rev"] == 1


def test_a_backup_is_downloaded_and_opens(client, demo, tmp_path):
    answer = client.get("/api/backup")
    assert answer.status_code == 200
    assert 'attachment; filename="pavewright-' in answer.headers["content-disposition"]
    (tmp_path / "copy.sqlite").write_bytes(answer.content)
    copied = open_file(tmp_path / "copy.sqlite")
    assert copied.job(demo).rev == 1
    copied.close()
    assert client.get("/api/backup", headers={"Sec-Fetch-Site": "cross-site"}).status_code == 403


def test_a_backup_is_sent_and_brought_back(tmp_path):
    store = open_store(f"sqlite:///{tmp_path / 'jobs.sqlite'}")
    with TestClient(make_app(store), base_url="http://127.0.0.1") as client:
        first = client.post("/api/jobs", json={"title": "Terrace"}).json()["id"]
        backup = client.get("/api/backup").content
        second = client.post("/api/jobs", json={"title": "Path"}).json()["id"]
        kind = {"Content-Type": "application/octet-stream"}
        told = client.post("/api/restore", content=backup, headers=kind).json()
        assert told["jobs"] == 1
        assert client.get(f"/api/jobs/{first}").status_code == 200
        assert client.get(f"/api/jobs/{second}").status_code == 404
        assert (tmp_path / told["aside"]).is_file()
        assert client.post("/api/restore", content=b"no store", headers=kind).status_code == 415
        assert client.post("/api/restore", content=backup[:300], headers=kind).status_code == 503
        assert client.post("/api/restore", content=backup).status_code == 415
        assert client.get(f"/api/jobs/{first}").status_code == 200
        assert not list(tmp_path.glob(".pavewright-restore-*"))
    store.close()
