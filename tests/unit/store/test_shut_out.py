"""Whoever was shut out since a backup stays out when it is brought back."""

from __future__ import annotations

import datetime as dt
import json
import sqlite3
from contextlib import closing

import pytest

from pavewright.store import back_up, open_file, open_installation, restore, restore_open
from pavewright.store._shut_out import NEW_PASSWORD, let_nobody_in
from pavewright.store.hooks import Event

SOON = dt.datetime.now(dt.UTC) + dt.timedelta(days=2)


class Doors:
    """Everything by which somebody comes in, one of each, and how it is asked whether it opens."""

    def __init__(self, kept):
        accounts, firm = kept.accounts, kept.first_id
        self.firm = firm
        self.job = kept.first.add(json.dumps({"identity": {"title": "Terrace"}})).id
        self.owner = accounts.add_person("owner", "O. Owner").id
        self.ended = accounts.add_person("ended", "E. Ended").id
        for person in (self.owner, self.ended):
            accounts.join(person, firm, "owner")
            accounts.keep_password(person, f"digest of {person}")
            accounts.keep_codes(person, NEW_PASSWORD, (f"code {person}",), SOON)
            accounts.add_passkey(person, person.encode(), b"key", 0, "phone")
        self.sign_in, self.device = accounts.begin_sign_in(self.owner, firm, "laptop", 30)
        _, self.device_of_ended = accounts.begin_sign_in(self.ended, firm, "phone", 30)
        self.token, self.api = accounts.make_token(firm, self.owner, "accounting", ("read",))
        _, self.invited = accounts.invite(firm, role="office", by=self.owner, expires=SOON)
        self.feed, self.feed_token = kept.first.calendar.make_feed("p1")
        self.hook, _ = kept.first.hooks.add("told", "https://told.example", [next(iter(Event))])
        kept.first.hooks.post(next(iter(Event)), {})

    def shut(self, kept):
        """End all of it, each in its own way."""
        accounts = kept.accounts
        accounts.end_member(self.ended, self.firm)
        accounts.end_sign_in(self.sign_in.id)
        accounts.withdraw_token(self.firm, self.token.id)
        accounts.use_invitation(self.invited, sign_in="new", name="N. New")
        accounts.use_code(self.owner, NEW_PASSWORD, f"code {self.owner}")
        accounts.keep_password(self.owner, "another digest")
        accounts.remove_passkey(self.owner, accounts.passkeys(self.owner)[0].id)
        accounts.audit(self.firm, self.owner, "ended", {"person": self.ended})
        kept.first.calendar.withdraw_feed(self.feed.id)
        kept.first.hooks.remove(self.hook.id)

    def open(self, kept):
        """Return what of it opens anything."""
        accounts, first = kept.accounts, kept.first
        asked = {
            "device": accounts.signed_in(self.device),
            "device of the one who left": accounts.signed_in(self.device_of_ended),
            "token": accounts.of_api_token(self.api),
            "invitation": accounts.invitation(self.invited),
            "new password": accounts.person_of_code(NEW_PASSWORD, f"code {self.owner}"),
            "feed": first.calendar.feed_of(self.feed_token),
            "hook": first.hooks.all() or None,
            "messages": first.hooks.due() or None,
            "member": [one for one in accounts.people(self.firm) if one.person.id == self.ended] or None,
        }
        return {name for name, found in asked.items() if found is not None}


@pytest.fixture
def doors(filled_doors, tmp_path):
    return filled_doors(tmp_path)


@pytest.fixture
def filled_doors():
    def fill(folder):
        path, copy = folder / "jobs.sqlite", folder / "copy.sqlite"
        kept = open_installation(path)
        made = Doors(kept)
        back_up(path, copy)
        return kept, made, path, copy

    return fill


@pytest.mark.parametrize("way", [restore, restore_open])
def test_nobody_who_was_shut_out_comes_in_by_a_backup(doors, way):
    kept, made, path, copy = doors
    assert len(made.open(kept)) == 9
    made.shut(kept)
    kept.first.save(made.job, 1, json.dumps({"identity": {"title": "Later"}}))
    mine, token = kept.accounts.begin_sign_in(made.owner, made.firm, "office", 30)
    kept.close()
    way(copy, path)
    kept = open_installation(path)
    assert made.open(kept) == set()
    assert kept.accounts.person(made.ended).ended is not None
    assert kept.accounts.password_digest(made.owner) == "another digest"
    assert kept.accounts.passkeys(made.owner) == ()
    assert kept.accounts.signed_in(token)[0] == mine, "who is in now stays in"
    assert [one.name for one in (kept.accounts.person_called("new"),)] == ["N. New"], "who joined since stays"
    assert [one.code for one in kept.accounts.audit_entries(made.firm)] == ["ended"]
    assert [row.title for row in kept.first.jobs()] == ["Terrace"], "the jobs themselves go back"
    kept.close()


@pytest.mark.parametrize("present", ["missing", "damaged", "another", "older"])
def test_without_the_present_store_people_come_in_by_password_and_passkey_only(doors, tmp_path, present):
    kept, made, path, copy = doors
    kept.accounts.audit(made.firm, made.owner, "made", {})
    kept.close()
    place = tmp_path / "there.sqlite"
    if present == "damaged":
        place.write_bytes(b"\x00" * 9000)
    elif present == "another":
        open_installation(place).close()
    elif present == "older":
        open_file(place).close()
        with closing(sqlite3.connect(place)) as raw:
            raw.execute("DROP TABLE hook_message")
    restore(copy, place)
    kept = open_installation(place)
    assert made.open(kept) == {"member"}
    assert kept.accounts.password_digest(made.owner) == f"digest of {made.owner}"
    assert len(kept.accounts.passkeys(made.owner)) == 1
    assert kept.accounts.anybody(), "the store is not open to whoever sits there"
    kept.close()


def test_nothing_lets_in_by_itself_on_a_file_and_on_a_server(url):
    kept = open_installation(url)
    made = Doors(kept)
    with kept.first.writing() as connection:
        let_nobody_in(connection)
    assert made.open(kept) == {"member"}
    kept.close()
