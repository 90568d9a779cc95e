"""A whole copy holds every firm with its people and files, from one moment, and comes back on a file and on a server."""

from __future__ import annotations

import datetime as dt
import json
import stat
import threading
import zipfile
from contextlib import closing

import pytest
import sqlalchemy as sa

from pavewright.record import check_record
from pavewright.store import Made, StoreTroubleError, Trouble, open_file, open_installation
from pavewright.store._all_tables import OF_A_FIRM, OF_INSTALLATION
from pavewright.store.hooks import Event
from pavewright.store.whole import _locked, back_up_whole, drill, is_whole_copy, needs_passphrase, restore_whole

PASSPHRASE = "four words in a row"


@pytest.fixture(autouse=True)
def quick_lock(monkeypatch):
    monkeypatch.setattr(_locked, "_COST", 4)


def fill(store, title, jobs=2):
    """Keep what each kind of column holds: text, numbers, nothing, yes or no, bytes."""
    for number in range(jobs):
        job = store.add(json.dumps({"identity": {"title": f"{title} {number} ä±\u2028"}}, ensure_ascii=False)).id
        store.add_photo("p1", job, f"{title} same".encode() * 400, "gully", (1.5, 2.25) if number else None)
    store.quotations.make(
        Made(job, 1, dt.date(2027, 6, 1), json.dumps(title), b"%PDF " + title.encode()), withdraw_others=False
    )
    store.runs.keep_plans({"plan": bytes(range(256))})
    store.hooks.add(title, "https://told.example", [next(iter(Event))])
    store.devices.pair("phone")
    return job


@pytest.fixture
def kept(url):
    opened = open_installation(url)
    other = opened.accounts.add_firm("Kerb and Sons")
    owner = opened.accounts.add_person("owner", "O. Owner")
    for firm in opened.accounts.firms():
        opened.accounts.join(owner.id, firm.id, "owner", ("see_money",))
    opened.accounts.add_passkey(owner.id, b"\x00credential", b"key", 2**40, "phone")
    opened.accounts.begin_sign_in(owner.id, opened.first_id, "laptop", 30)
    opened.accounts.audit(opened.first_id, owner.id, "made", {"a": 1})
    fill(opened.first, "Terrace")
    fill(opened.store_of(other.id), "Path", 1)
    yield opened
    opened.close()


def everything(kept):
    """Return every row of every firm and of the installation."""
    found = {}
    for firm in kept.accounts.firms():
        with kept.store_of(firm.id).reading() as connection:
            for table in OF_A_FIRM:
                found[firm.id, table.name] = sorted(map(repr, connection.execute(sa.select(table)).all()))
    with kept.first.reading() as connection:
        for table in OF_INSTALLATION:
            found["", table.name] = sorted(map(repr, connection.execute(sa.select(table)).all()))
    return found


ENDED = {"account_sign_in", "account_token", "hook", "hook_message", "calendar_feed", "device", "record_entry"}
"""What is not brought back as it was where there is no present store: what lets in by itself; records go on."""


@pytest.mark.parametrize("passphrase", [None, PASSPHRASE])
def test_a_drill_reads_back_all_that_was_copied(kept, tmp_path, passphrase):
    target = tmp_path / "copy"
    contents = back_up_whole(kept, target, passphrase)
    assert (contents.jobs, contents.photos, contents.size_bytes) == (3, 3, target.stat().st_size)
    assert (is_whole_copy(target), needs_passphrase(target)) == (True, passphrase is not None)
    assert stat.S_IMODE(target.stat().st_mode) == 0o600
    found = drill(target, passphrase)
    assert found.same
    assert len(found.tables) == len(OF_INSTALLATION) + 2 * len(OF_A_FIRM)
    assert {each.copied.table: each.files for each in found.tables if each.copied.firm == kept.first_id}["photo"] == 2
    assert [each.name for each in tmp_path.iterdir() if "part" in each.name or "drill" in each.name] == []


@pytest.mark.parametrize("to", ["file", "server"])
def test_it_comes_back_wherever_jobs_may_be_kept(kept, tmp_path, request, to):
    target = tmp_path / "copy.zip"
    back_up_whole(kept, target)
    before = everything(kept)
    server = request.getfixturevalue("server") if to == "server" else None
    where = (
        tmp_path / "new" / "jobs.sqlite" if server is None else server.new_database(request.getfixturevalue("template"))
    )
    if server is not None:
        assert drill(target, None, where).same
        assert drill(target, None, where).same, "a drill leaves nothing behind"
    assert restore_whole(target, where).contents.jobs == 3
    back = open_installation(where)
    after = everything(back)
    assert {key for key in before if before[key] != after[key]} == {
        key for key in before if key[1] in ENDED and before[key]
    }
    for store in (back.first, back.store_of(back.accounts.firms()[1].id)):
        for row in store.jobs():
            assert check_record(store.records.content(row.id)).faults == ()
        assert store.photo(store.jobs()[0].id, "p1").endswith(b"same")
        fill(store, "After")
    back.accounts.audit(back.first_id, None, "goes on", {})
    back.close()
    if server is not None:
        with pytest.raises(StoreTroubleError) as refused:
            restore_whole(target, where)
        assert refused.value.trouble is Trouble.NOT_EMPTY
        server.drop(where)


def test_a_copy_made_while_jobs_are_saved_is_of_one_moment(kept, tmp_path):
    store, stop, written = kept.first, threading.Event(), threading.Event()

    def write():
        number = 0
        while not stop.is_set() and number < 40:
            job = store.add(json.dumps({"identity": {"title": f"New {number}"}}))
            store.save(job.id, 1, json.dumps({"identity": {"title": f"Newer {number}"}}))
            store.add_photo("p", job.id, number.to_bytes(4, "big"), "", None)
            number += 1
            written.set()

    writer = threading.Thread(target=write)
    writer.start()
    try:
        written.wait()
        back_up_whole(kept, tmp_path / "copy.zip")
    finally:
        stop.set()
        writer.join()
    assert drill(tmp_path / "copy.zip").same
    restore_whole(tmp_path / "copy.zip", tmp_path / "back.sqlite")
    back = open_file(tmp_path / "back.sqlite")
    jobs = [row for row in back.jobs() if row.title.startswith("New")]
    assert jobs
    for row in jobs:
        assert len(back.revisions(row.id)) == row.rev
        assert len(back.photos(row.id)) == 0 or row.rev == 2
        assert check_record(back.records.content(row.id)).faults == ()
    back.close()


def test_a_restore_shuts_out_whom_the_present_store_shuts_out_and_keeps_every_file_aside(tmp_path):
    path = tmp_path / "jobs.sqlite"
    kept = open_installation(path)
    other = kept.accounts.add_firm("Other").id
    person = kept.accounts.add_person("gone", "G. Gone").id
    kept.accounts.join(person, other, "owner")
    _, token = kept.accounts.begin_sign_in(person, other, "phone", 30)
    fill(kept.first, "Terrace")
    fill(kept.store_of(other), "Path")
    back_up_whole(kept, tmp_path / "copy.zip")
    kept.accounts.end_member(person, other)
    kept.store_of(other).hooks.remove(kept.store_of(other).hooks.all()[0].id)
    kept.store_of(other).add("{}")
    kept.close()
    restored = restore_whole(tmp_path / "copy.zip", path)
    assert restored.aside.exists()
    assert len(list((tmp_path / "jobs.firms").glob("*.before-*.sqlite"))) == 1
    kept = open_installation(path)
    assert kept.accounts.signed_in(token) is None
    assert kept.accounts.person(person).ended is not None
    assert (len(kept.first.hooks.all()), len(kept.store_of(other).hooks.all())) == (1, 0)
    assert len(kept.store_of(other).jobs()) == 2
    kept.close()


def test_jobs_in_use_are_not_put_aside(tmp_path):
    path = tmp_path / "jobs.sqlite"
    kept = open_installation(path)
    kept.first.add("{}")
    back_up_whole(kept, tmp_path / "copy.zip")
    with pytest.raises(StoreTroubleError) as refused:
        restore_whole(tmp_path / "copy.zip", path)
    assert refused.value.trouble is Trouble.LOCKED
    assert len(kept.first.jobs()) == 1
    kept.close()
    assert sorted(each.name for each in tmp_path.iterdir()) == ["copy.zip", "jobs.sqlite"]


@pytest.fixture(scope="module")
def copies(tmp_path_factory):
    folder = tmp_path_factory.mktemp("copies")
    with pytest.MonkeyPatch.context() as quick:
        quick.setattr(_locked, "_COST", 4)
        with closing(open_installation(folder / "jobs.sqlite")) as kept:
            fill(kept.first, "Secret name")
            kept.first.add_photo("big", kept.first.jobs()[0].id, bytes(200_000), "", None)
            back_up_whole(kept, folder / "open")
            back_up_whole(kept, folder / "locked", PASSPHRASE)
    return folder


def test_what_is_locked_is_not_read_without_its_passphrase(copies, tmp_path):
    assert b"Secret name" not in (copies / "locked").read_bytes()
    for passphrase, trouble in ((None, Trouble.LOCKED_COPY), ("another one", Trouble.WRONG_PASSPHRASE)):
        with pytest.raises(StoreTroubleError) as refused:
            restore_whole(copies / "locked", tmp_path / "jobs.sqlite", passphrase)
        assert refused.value.trouble is trouble
    assert not list(tmp_path.iterdir())


def spoilt(content, which):
    middle = len(content) // 2
    return {
        "cut short": content[:-1],
        "cut at a piece": content[: _locked._HEAD_BYTES + 65_552],
        "half": content[:middle],
        "beginning only": content[:40],
        "one bit": content[:middle] + bytes([content[middle] ^ 1]) + content[middle + 1 :],
        "a word in front": content[:70] + b"x" + content[70:],
        "last bit": content[:-1] + bytes([content[-1] ^ 1]),
    }[which]


@pytest.mark.parametrize(
    "which", ["cut short", "cut at a piece", "half", "beginning only", "one bit", "a word in front", "last bit"]
)
def test_a_locked_copy_that_was_changed_anywhere_is_refused(copies, tmp_path, which):
    (tmp_path / "copy").write_bytes(spoilt((copies / "locked").read_bytes(), which))
    with pytest.raises(StoreTroubleError) as refused:
        restore_whole(tmp_path / "copy", tmp_path / "jobs.sqlite", PASSPHRASE)
    assert refused.value.trouble is Trouble.COPY_DAMAGED
    assert [each.name for each in tmp_path.iterdir()] == ["copy"]


@pytest.mark.parametrize("which", ["cut short", "half", "beginning only", "one bit"])
def test_an_open_copy_that_was_damaged_is_refused(copies, tmp_path, which):
    (tmp_path / "copy").write_bytes(spoilt((copies / "open").read_bytes(), which))
    with pytest.raises(StoreTroubleError) as refused:
        restore_whole(tmp_path / "copy", tmp_path / "jobs.sqlite")
    assert refused.value.trouble in {Trouble.COPY_DAMAGED, Trouble.COPY_DIFFERS}
    assert [each.name for each in tmp_path.iterdir()] == ["copy"]


def rewritten(source, target, change):
    with zipfile.ZipFile(source) as before, zipfile.ZipFile(target, "w") as after:
        for name in before.namelist():
            content = change(name, before.read(name))
            if content is not None:
                after.writestr(name, content)


@pytest.mark.parametrize(
    ("change", "trouble"),
    [
        (lambda name, content: content.replace(b"gully", b"rully"), Trouble.COPY_DIFFERS),
        (lambda name, content: content[:-1] if name.startswith("files/") else content, Trouble.COPY_DAMAGED),
        (lambda name, content: None if name.startswith("files/") else content, Trouble.COPY_DAMAGED),
        (lambda name, content: None if name == "manifest.json" else content, Trouble.NO_COPY),
        (lambda name, content: content.replace(b'"table": "photo"', b'"table": "sqlite_master"'), Trouble.COPY_DAMAGED),
        (lambda name, content: b"{}" if name == "manifest.json" else content, Trouble.COPY_DAMAGED),
        (lambda name, content: b"[" * 100_000 if name == "manifest.json" else content, Trouble.COPY_DAMAGED),
    ],
)
def test_a_copy_that_somebody_rewrote_is_refused(copies, tmp_path, change, trouble):
    rewritten(copies / "open", tmp_path / "copy", change)
    with pytest.raises(StoreTroubleError) as refused:
        restore_whole(tmp_path / "copy", tmp_path / "jobs.sqlite")
    assert refused.value.trouble is trouble
    assert [each.name for each in tmp_path.iterdir()] == ["copy"]


def test_a_drill_says_which_table_differs(copies, tmp_path):
    rewritten(copies / "open", tmp_path / "copy", lambda _, content: content.replace(b'"gully"', b'"rully"'))
    found = drill(tmp_path / "copy")
    assert [each.copied.table for each in found.tables if not each.same] == ["photo"]


def test_a_copy_of_a_newer_version_is_refused(copies, tmp_path):
    with zipfile.ZipFile(copies / "open") as opened:
        tables = json.loads(opened.read("manifest.json"))["tables"]
    newer = f'"tables": "{tables}"'.encode(), b'"tables": "0999"'
    rewritten(copies / "open", tmp_path / "copy", lambda _, content: content.replace(*newer))
    with pytest.raises(StoreTroubleError) as refused:
        drill(tmp_path / "copy")
    assert refused.value.trouble is Trouble.COPY_NEWER


def test_a_locked_copy_that_would_hold_the_machine_up_is_refused(copies, tmp_path):
    content = bytearray((copies / "locked").read_bytes())
    content[len(_locked.MAGIC) + 16] = 60
    (tmp_path / "copy").write_bytes(content)
    with pytest.raises(StoreTroubleError) as refused:
        drill(tmp_path / "copy", PASSPHRASE)
    assert refused.value.trouble is Trouble.COPY_DAMAGED
