"""Who a person is goes for good when he is erased; what he did stays provable."""

from __future__ import annotations

import datetime as dt
import json
import zipfile

import pytest
from click.testing import CliRunner

from pavewright.cli import main
from pavewright.record import check_record
from pavewright.store import LastOneError, Who, acting_as, open_installation, restore, back_up, still_named
from pavewright.store.whole import back_up_whole

NAME, SIGN_IN = "Zebedee Quill\u00e9", "zeb@quill.example"
SOON = dt.datetime.now(dt.UTC) + dt.timedelta(days=2)


def fill(kept):
    """Let a person join by an invitation, come in every way, and do things; return his id and the job."""
    accounts, firm = kept.accounts, kept.first_id
    owner = accounts.add_person("owner", "O. Owner").id
    accounts.join(owner, firm, "owner")
    _, token = accounts.invite(firm, role="crew", by=owner, expires=SOON, name=NAME, sign_in=SIGN_IN)
    accounts.invite(firm, role="crew", by=owner, expires=SOON, name=NAME)
    person = accounts.use_invitation(token, password_digest="digest").person.id
    accounts.change_member(person, firm, role="crew", crew_name=NAME)
    accounts.rename_person(person, NAME)
    accounts.add_passkey(person, b"credential of " + SIGN_IN.encode(), b"key", 0, f"phone of {NAME}")
    accounts.begin_sign_in(person, firm, f"phone of {NAME}", 30)
    accounts.make_token(firm, person, f"token of {NAME}", ("read",))
    accounts.audit(firm, person, "joined", {"person": person})
    with acting_as(Who(person, NAME)):
        job = kept.first.add(json.dumps({"identity": {"title": "Terrace"}})).id
        kept.first.add_photo("p1", job, b"image", "gully", None)
    return owner, person, job


@pytest.fixture
def kept(url):
    opened = open_installation(url)
    yield opened
    opened.close()


def test_no_table_and_no_copy_holds_who_was_erased_and_his_record_holds(kept, tmp_path):
    _, person, job = fill(kept)
    assert {table for _, table in still_named(kept, (NAME, SIGN_IN))} == {
        "account_person",
        "account_member",
        "account_invitation",
        "account_passkey",
        "account_sign_in",
        "account_token",
    }
    kept.accounts.erase_person(person, keep_one="owner")
    assert still_named(kept, (NAME, SIGN_IN)) == {}
    back_up_whole(kept, tmp_path / "copy.zip")
    with zipfile.ZipFile(tmp_path / "copy.zip") as copy:
        told = b"".join(copy.read(name) for name in copy.namelist())
    for word in (NAME.encode(), json.dumps(NAME)[1:-1].encode(), b"Zebedee", SIGN_IN.encode()):
        assert word not in told
    assert person.encode() in told
    content = kept.first.records.content(job)
    assert check_record(content).faults == ()
    assert person.encode() in content, "what he did stands under his id"
    assert [each.person_id for each in kept.accounts.audit_entries(kept.first_id)] == [person]
    assert all(each.withdrawn or each.used for each in kept.accounts.invitations(kept.first_id))


def test_the_last_owner_is_not_erased(kept):
    owner, person, _ = fill(kept)
    with pytest.raises(LastOneError):
        kept.accounts.erase_person(owner, keep_one="owner")
    assert kept.accounts.person(owner).name == "O. Owner"
    assert still_named(kept, ("O. Owner",))
    kept.accounts.join(person, kept.first_id, "owner")
    kept.accounts.erase_person(owner, keep_one="owner")
    assert still_named(kept, ("O. Owner",)) == {}


def test_nothing_is_left_between_the_rows_of_a_file_and_a_backup_brings_nobody_back(tmp_path):
    path = tmp_path / "jobs.sqlite"
    kept = open_installation(path)
    _, person, _ = fill(kept)
    kept.close()
    back_up(path, tmp_path / "before.sqlite")
    assert SIGN_IN.encode() in path.read_bytes()
    kept = open_installation(path)
    kept.accounts.erase_person(person)
    kept.close()
    assert SIGN_IN.encode() not in path.read_bytes()
    assert NAME.encode() not in path.read_bytes()
    restore(tmp_path / "before.sqlite", path)
    kept = open_installation(path)
    assert still_named(kept, (NAME, SIGN_IN)) == {}
    kept.close()


def test_the_command_says_where_the_name_still_stands(tmp_path):
    def run(*words):
        return CliRunner().invoke(main, ["people", "erase", *words, "--data", str(tmp_path / "jobs.sqlite")])

    kept = open_installation(tmp_path / "jobs.sqlite")
    fill(kept)
    kept.first.add(json.dumps({"identity": {"title": "Path"}, "note": f"call {NAME}"}))
    kept.close()
    assert (run("nobody", "--yes").exit_code, run("owner", "--yes").exit_code) == (2, 2)
    assert run(SIGN_IN).exit_code == 1, "it asks first"
    done = run(SIGN_IN.upper(), "--yes")
    assert done.exit_code == 0, done.output
    assert "first firm, job: 1 rows" in done.output
    assert run(SIGN_IN, "--yes").exit_code == 2
