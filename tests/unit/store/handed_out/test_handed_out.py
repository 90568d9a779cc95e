"""What is handed out of a firm or a person holds all of it, no secret, and nothing of anybody else."""

from __future__ import annotations

import csv
import datetime as dt
import hashlib
import io
import json
import zipfile

import pytest
import sqlalchemy as sa
from click.testing import CliRunner

from pavewright.cli import main
from pavewright.record import check_record
from pavewright.store import Made, StoreTroubleError, Who, acting_as, open_installation
from pavewright.store._all_tables import OF_A_FIRM
from pavewright.store.accounts import _tables as accounts
from pavewright.store.handed_out import hand_out_firm, hand_out_person
from pavewright.store.handed_out._firm_out import SECRET, WORKED_OUT, handed_columns
from pavewright.store.hooks import Event

PNG = b"\x89PNG\r\n\x1a\n rest"
NAME, SIGN_IN = "Zebedee Quill\u00e9", "zeb@quill.example"


def fill(store, title, who):
    with acting_as(who):
        bill = {"number": 1, "kind": "stage", "on": "2027-06-01", "words": "=1+1", "held_minor": -5}
        job = store.add(json.dumps({"identity": {"title": title}, "bills": [bill]})).id
        store.save(job, 1, json.dumps({"identity": {"title": f"{title} changed"}, "bills": [bill]}), "@note")
        for name, image in (("p1", PNG), ("P1", b"\xff\xd8\xff jpeg"), ("../p1", b"?")):
            store.add_photo(name, job, image + title.encode(), "gully", None)
        store.quotations.make(
            Made(job, 2, dt.date(2027, 6, 1), json.dumps(title), b"%PDF " + title.encode()), withdraw_others=False
        )
        store.firm.save(0, json.dumps({"firm": {"name": title}}), "first")
        store.hooks.add(title, "https://told.example", [next(iter(Event))])
        store.devices.pair(f"phone of {title}")
    return job


@pytest.fixture
def kept(url):
    opened = open_installation(url)
    other = opened.accounts.add_firm("Kerb and Sons").id
    for firm, sign_in, name in ((opened.first_id, SIGN_IN, NAME), (other, "bert", "Bert Otherman")):
        owner = opened.accounts.add_person(f"owner-{firm}", f"Owner of {firm}").id
        opened.accounts.join(owner, firm, "owner")
        person = opened.accounts.add_person(sign_in, name).id
        opened.accounts.keep_password(person, f"argon of {name}")
        opened.accounts.join(person, firm, "office")
        opened.accounts.add_passkey(person, b"credential" + name.encode(), b"public", 0, f"passkey of {name}")
        opened.accounts.begin_sign_in(person, firm, f"laptop of {name}", 30)
        opened.accounts.make_token(firm, person, f"token of {name}", ("read",))
        opened.accounts.audit(firm, person, "role changed", {"person": owner, "said": name})
        fill(opened.store_of(firm), f"Terrace of {firm}", Who(person, name))
    yield opened
    opened.close()


def read(path):
    with zipfile.ZipFile(path) as opened:
        return {name: opened.read(name) for name in opened.namelist()}


def rows(content):
    return list(csv.DictReader(io.StringIO(content.decode(), newline="")))


def secrets_of(kept):
    """Return every secret that any firm or the installation keeps."""
    found = set()
    looked = [(kept.first, (accounts.SECRETS, accounts.CODES, accounts.PASSKEYS))]
    named = {"password", "totp", "digest", "credential", "public_key", "secret", "secret_before"}
    looked += [(kept.first, (accounts.SIGN_INS, accounts.TOKENS, accounts.INVITATIONS))]
    looked += [(kept.store_of(firm.id), OF_A_FIRM) for firm in kept.accounts.firms()]
    for store, tables in looked:
        with store.reading() as connection:
            for table in tables:
                for column in table.columns:
                    if column.name in named and table.name not in {"record_entry", *(each.name for each in WORKED_OUT)}:
                        found.update(connection.execute(sa.select(column)).scalars())
    return {each.encode() if isinstance(each, str) else bytes(each) for each in found if each}


def test_a_firm_is_handed_out_whole_without_secrets_and_without_the_other(kept, tmp_path):
    for firm, other in ((0, 1), (1, 0)):
        ours, theirs = (kept.accounts.firms()[number].id for number in (firm, other))
        store, target = kept.store_of(ours), tmp_path / f"{firm}.zip"
        told = hand_out_firm(kept, ours, target)
        found = read(target)
        everything = b"".join(found.values())
        (job,) = store.jobs()
        folder = f"jobs/{job.id}"
        assert found[f"{folder}/job.json"].decode() == store.job(job.id).document
        assert [name for name in found if name.startswith(f"{folder}/revisions/")] == [
            f"{folder}/revisions/{rev:06d}.json" for rev in (1, 2)
        ]
        photos = {row["id"]: row["file"] for row in rows(found["jobs/photos.csv"])}
        assert photos["p1"] == f"{folder}/photos/p1.png"
        assert {name: found[path] for name, path in photos.items()} == {
            each.id: store.photo(job.id, each.id) for each in store.photos(job.id)
        }
        assert [photos[name].rpartition(".")[2] for name in ("P1", "../p1")] == ["jpg", "bin"]
        assert found[f"{folder}/record.jsonl"] == store.records.content(job.id)
        assert check_record(found[f"{folder}/record.jsonl"]).faults == ()
        (bill,) = rows(found["money/bills.csv"])
        assert (bill["words"], bill["held_minor"]) == ("'=1+1", "-5")
        assert rows(found["jobs/revisions.csv"])[1]["note"] == "'@note"
        assert any(content.startswith(b"%PDF") for content in found.values())
        secrets = secrets_of(kept)
        assert len(secrets) > 10
        assert [secret for secret in secrets if secret in everything] == []
        assert theirs.encode() not in everything
        name = (NAME, "Bert Otherman")[other]
        assert name.encode() not in everything
        assert json.dumps(name)[1:-1].encode() not in everything
        about = json.loads(found.pop("manifest.json"))
        assert told.files == len(found) + 1
        assert about["files"] == {
            path: {"bytes": len(content), "sha256": hashlib.sha256(content).hexdigest()}
            for path, content in found.items()
        }
        assert about["rows"]["people/people.csv"] == 2


def test_the_same_store_gives_the_same_bytes_and_nothing_is_written_over_unasked(kept, tmp_path):
    first, second = tmp_path / "a.zip", tmp_path / "b.zip"
    for target in (first, second):
        hand_out_firm(kept, kept.first_id, target)
    assert first.read_bytes() == second.read_bytes()
    first.write_bytes(b"mine")
    with pytest.raises(StoreTroubleError, match="not written over"):
        hand_out_firm(kept, kept.first_id, first)
    assert first.read_bytes() == b"mine"
    hand_out_firm(kept, kept.first_id, first, replace=True)
    assert first.read_bytes() == second.read_bytes()
    assert sorted(each.name for each in tmp_path.iterdir() if each.suffix in {".zip", ".part"}) == ["a.zip", "b.zip"]


def test_a_person_gets_his_own_and_nothing_of_others(kept, tmp_path):
    person = kept.accounts.person_called(SIGN_IN)
    kept.first.add(json.dumps({"identity": {"title": f"House of {NAME}"}}))
    hand_out_person(kept, person.id, tmp_path / "person.zip")
    found = read(tmp_path / "person.zip")
    everything = b"".join(found.values())
    profile = json.loads(found["profile.json"])
    assert (profile["name"], profile["sign_in"], profile["firms"][0]["role"]) == (NAME, SIGN_IN, "office")
    assert [row["device"] for row in rows(found["sign_ins.csv"])] == [f"laptop of {NAME}"]
    assert [row["name"] for row in rows(found["passkeys.csv"])] == [f"passkey of {NAME}"]
    assert [(row["name"], json.loads(row["scopes"])) for row in rows(found["tokens.csv"])] == [
        (f"token of {NAME}", ["read"])
    ]
    assert [row["code"] for row in rows(found["audit.csv"])] == ["role changed"]
    assert [(row["rev"], row["note"]) for row in rows(found["revisions.csv"])][1] == ("2", "'@note")
    assert {row["table"]: row["rows"] for row in rows(found["mentions.csv"])}["job"] == "1"
    assert b"House of" not in everything
    for each in kept.accounts.firms():
        for other in kept.accounts.people(each.id):
            if other.person.id != person.id:
                words = (other.person.id, other.person.name, other.person.sign_in)
                assert [word for word in words if word.encode() in everything] == []
    assert [secret for secret in secrets_of(kept) if secret in everything] == []


def test_who_was_erased_stands_in_no_firm_that_is_handed_out(kept, tmp_path):
    person = kept.accounts.person_called(SIGN_IN)
    hand_out_firm(kept, kept.first_id, tmp_path / "before.zip")
    kept.accounts.erase_person(person.id, keep_one="owner")
    hand_out_firm(kept, kept.first_id, tmp_path / "after.zip")

    def named(path):
        # what was written into the list of who did what is evidence: erasing does not cover it
        covered = [content for name, content in read(path).items() if name != "people/audit.csv"]
        return [word for word in (NAME, SIGN_IN) if any(word.encode() in content for content in covered)]

    assert named(tmp_path / "before.zip") == [NAME, SIGN_IN]
    assert named(tmp_path / "after.zip") == []
    assert person.id.encode() in read(tmp_path / "after.zip")["jobs/revisions.csv"]


def test_no_column_that_sounds_like_a_secret_is_handed_out():
    known = {("record_entry", "digest")}
    sounds = ("digest", "secret", "password", "totp", "credential", "token")
    found = {
        (table.name, column.name)
        for table in OF_A_FIRM
        if table not in WORKED_OUT
        for column in handed_columns(table)
        if any(word in column.name for word in sounds)
    }
    assert found == known
    assert set(SECRET) >= {"hook", "device", "account_token"}


def test_the_commands_write_the_files_and_refuse_in_words(store_file, tmp_path):
    path = tmp_path / "jobs.sqlite"
    store_file.close()
    kept = open_installation(path)
    person = kept.accounts.add_person("flagg", "A. Flagg").id
    kept.accounts.join(person, kept.first_id, "owner")
    kept.close()

    def run(*words):
        return CliRunner().invoke(main, [*words, "--data", str(path)])

    for words, ending in ((("firms", "export"), "firm.zip"), (("people", "export", "flagg"), "person.zip")):
        target = str(tmp_path / ending)
        assert run(*words, "-o", target).exit_code == 0
        assert run(*words, "-o", target).exit_code == 2
        assert run(*words, "-o", target, "--replace").exit_code == 0
        assert "README.txt" in read(target)
    assert run("firms", "export", "None Such", "-o", str(tmp_path / "x.zip")).exit_code == 2
    assert run("people", "export", "nobody", "-o", str(tmp_path / "x.zip")).exit_code == 2
    assert not (tmp_path / "x.zip").exists()
