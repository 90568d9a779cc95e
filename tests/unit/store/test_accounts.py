"""Firms and people of an installation, and how they come in."""

from __future__ import annotations

import datetime as dt
import hashlib

import pytest
import sqlalchemy as sa

from pavewright.store import (
    InvitationClosedError,
    LastOneError,
    SignInTakenError,
    UnknownFirm,
    UnknownPerson,
    Who,
    acting_as,
    open_installation,
)

SOON = dt.datetime.now(dt.UTC) + dt.timedelta(days=2)
BEFORE = dt.datetime.now(dt.UTC) - dt.timedelta(days=2)


@pytest.fixture
def installation(url):
    opened = open_installation(url)
    yield opened
    opened.close()


@pytest.fixture
def accounts(installation):
    return installation.accounts


@pytest.fixture
def firm_id(installation):
    return installation.first_id


@pytest.fixture
def owner(accounts, firm_id):
    person = accounts.add_person("Owner@One.example", "O. Owner")
    accounts.join(person.id, firm_id, "owner")
    return person


def test_an_installation_begins_with_one_firm_without_people(installation):
    assert [firm.id for firm in installation.accounts.firms()] == [installation.first_id]
    assert installation.accounts.anybody() is False
    assert installation.store_of(installation.first_id) is installation.first


def test_it_is_the_same_firm_when_it_is_opened_again(installation, url):
    again = open_installation(url)
    assert again.first_id == installation.first_id
    again.close()


def test_each_further_firm_has_a_store_of_its_own(installation):
    other = installation.accounts.add_firm("Other")
    store = installation.store_of(other.id)
    assert store is installation.store_of(other.id)
    kept = store.add('{"identity": {"title": "Theirs"}}')
    assert installation.first.jobs() == ()
    assert [row.id for row in store.jobs()] == [kept.id]
    with pytest.raises(UnknownFirm):
        installation.store_of("0" * 32)
    found = installation.find(lambda one: one.jobs() or None)
    assert (found[0], found[1]) == (other.id, store)
    assert installation.find(lambda one: None) is None


def test_firms_are_renamed(accounts, firm_id):
    accounts.rename_firm(firm_id, "Paving One")
    assert accounts.firm(firm_id).name == "Paving One"
    with pytest.raises(UnknownFirm):
        accounts.rename_firm("none", "x")


def test_people_are_known_by_their_sign_in_in_any_case(accounts, firm_id, owner):
    assert accounts.anybody() is True
    assert accounts.person_called(" owner@one.EXAMPLE ") == owner
    assert accounts.person_called("nobody") is None
    with pytest.raises(SignInTakenError):
        accounts.add_person("OWNER@one.example", "Another")
    accounts.rename_person(owner.id, "Olive Owner")
    assert accounts.person(owner.id).name == accounts.names()[owner.id] == "Olive Owner"
    (member,) = accounts.people(firm_id)
    assert (member.person.id, member.role, member.grants, member.crew_name) == (owner.id, "owner", (), None)


def test_a_person_belongs_to_several_firms_and_leaves_one(accounts, firm_id, owner):
    other = accounts.add_firm("Other")
    accounts.join(owner.id, other.id, "auditor", ["see_money"], "Olly")
    assert [(each.firm_id, each.role) for each in accounts.memberships(owner.id)] == [
        (firm_id, "owner"),
        (other.id, "auditor"),
    ]
    accounts.end_member(owner.id, other.id)
    assert [each.firm_id for each in accounts.memberships(owner.id)] == [firm_id]
    assert accounts.people(other.id) == ()
    assert accounts.people(other.id, ended=True)[0].ended is not None
    assert accounts.person(owner.id).ended is None
    accounts.end_member(owner.id, firm_id)
    assert accounts.person(owner.id).ended is not None
    assert accounts.join(owner.id, firm_id, "office").ended is None
    assert accounts.person(owner.id).ended is None
    with pytest.raises(UnknownFirm):
        accounts.join(owner.id, "none", "crew")
    with pytest.raises(UnknownPerson):
        accounts.join("none", firm_id, "crew")


def test_the_last_of_a_role_stays(accounts, firm_id, owner):
    with pytest.raises(LastOneError):
        accounts.change_member(owner.id, firm_id, role="crew", keep_one="owner")
    with pytest.raises(LastOneError):
        accounts.end_member(owner.id, firm_id, keep_one="owner")
    second = accounts.add_person("second", "S")
    accounts.join(second.id, firm_id, "owner")
    changed = accounts.change_member(owner.id, firm_id, role="crew", grants=["x"], crew_name="O", keep_one="owner")
    assert (changed.role, changed.grants, changed.crew_name) == ("crew", ("x",), "O")
    with pytest.raises(UnknownPerson):
        accounts.change_member("none", firm_id, role="crew")


def test_secrets_are_kept_and_codes_are_used_once(accounts, owner):
    assert accounts.password_digest(owner.id) is None
    accounts.keep_password(owner.id, "digest")
    accounts.keep_password(owner.id, "digest 2")
    assert accounts.password_digest(owner.id) == "digest 2"
    assert accounts.use_totp_step(owner.id, 5) is False
    accounts.keep_totp(owner.id, "SECRET")
    assert accounts.totp_secret(owner.id) == "SECRET"
    assert [accounts.use_totp_step(owner.id, step) for step in (5, 5, 4, 6)] == [True, False, False, True]
    assert accounts.password_digest(owner.id) == "digest 2"
    with pytest.raises(UnknownPerson):
        accounts.keep_password("none", "digest")


def test_a_code_opens_once_and_not_after_its_time(accounts, owner):
    accounts.keep_codes(owner.id, "recovery", ["a", "b"])
    assert accounts.person_of_code("recovery", "a") == owner.id
    assert accounts.use_code("somebody", "recovery", "a") is False
    assert accounts.use_code(owner.id, "reset", "a") is False
    assert [accounts.use_code(owner.id, "recovery", "a") for _ in range(2)] == [True, False]
    assert accounts.codes_left(owner.id, "recovery") == 1
    accounts.keep_codes(owner.id, "recovery", ["c"])
    assert accounts.use_code(owner.id, "recovery", "b") is False
    accounts.keep_codes(owner.id, "reset", ["d"], BEFORE)
    assert accounts.use_code(owner.id, "reset", "d") is False
    assert accounts.person_of_code("reset", "d") is None


def test_passkeys_are_kept_counted_and_deleted(accounts, owner):
    made = accounts.add_passkey(owner.id, b"credential", b"key", 0, "Phone")
    assert accounts.passkey(b"credential") == made
    assert accounts.note_passkey(b"credential", 0) is True
    assert accounts.note_passkey(b"credential", 3) is True
    assert accounts.note_passkey(b"credential", 3) is False
    assert accounts.passkeys(owner.id)[0].count == 3
    with pytest.raises(ValueError, match="kept already"):
        accounts.add_passkey(owner.id, b"credential", b"key", 0, "Phone")
    assert accounts.remove_passkey("somebody", made.id) is False
    assert accounts.remove_passkey(owner.id, made.id) is True
    assert accounts.passkey(b"credential") is None


def test_a_sign_in_opens_until_it_ends(accounts, firm_id, owner):
    begun, token = accounts.begin_sign_in(owner.id, firm_id, "Phone", 30)
    found, person, member = accounts.signed_in(token)
    assert (found, person, member.role) == (begun, owner, "owner")
    assert accounts.signed_in(token + "x") is None
    second, other = accounts.begin_sign_in(owner.id, firm_id, "Desk", 30)
    assert {each.id for each in accounts.sign_ins(owner.id)} == {begun.id, second.id}
    assert accounts.end_sign_ins(owner.id, but=second.id) == 1
    assert accounts.signed_in(token) is None
    assert accounts.end_sign_in(second.id, "somebody") is False
    assert accounts.end_sign_in(second.id) is True
    assert accounts.signed_in(other) is None
    _, late = accounts.begin_sign_in(owner.id, firm_id, "Late", -1)
    assert accounts.signed_in(late) is None
    with pytest.raises(UnknownPerson):
        accounts.begin_sign_in("none", firm_id, "x", 1)


def test_who_leaves_a_firm_is_signed_in_there_no_more(accounts, firm_id, owner):
    _, token = accounts.begin_sign_in(owner.id, firm_id, "Phone", 30)
    _, api = accounts.make_token(firm_id, owner.id, "Notebook", ["read_jobs"])
    accounts.end_member(owner.id, firm_id)
    assert accounts.signed_in(token) is None
    assert accounts.of_api_token(api) is None
    accounts.join(owner.id, firm_id, "crew")
    assert accounts.signed_in(token) is None
    assert accounts.of_api_token(api) is None


def test_a_device_switches_only_to_a_firm_of_its_person(accounts, firm_id, owner):
    begun, token = accounts.begin_sign_in(owner.id, firm_id, "Phone", 30)
    other = accounts.add_firm("Other")
    with pytest.raises(UnknownPerson):
        accounts.switch_firm(begun.id, other.id)
    accounts.join(owner.id, other.id, "office")
    accounts.switch_firm(begun.id, other.id)
    found, _, member = accounts.signed_in(token)
    assert (found.firm_id, member.firm_id, member.role) == (other.id, other.id, "office")
    with pytest.raises(UnknownPerson):
        accounts.switch_firm("none", other.id)


def test_that_a_device_asked_is_noted_once_a_minute(installation, accounts, firm_id, owner):
    begun, _ = accounts.begin_sign_in(owner.id, firm_id, "Phone", 30)
    accounts.note_seen(begun.id)
    assert accounts.sign_ins(owner.id)[0].seen == begun.seen
    with installation.first.writing() as connection:
        connection.execute(sa.text("UPDATE account_sign_in SET seen = '2026-01-01T00:00:00.000+00:00'"))
    accounts.note_seen(begun.id)
    assert accounts.sign_ins(owner.id)[0].seen >= begun.seen


def test_an_invitation_opens_once(accounts, firm_id, owner):
    made, token = accounts.invite(
        firm_id,
        role="crew",
        by=owner.id,
        expires=SOON,
        grants=["see_money"],
        name="C. Crew",
        sign_in="crew@one.example",
    )
    assert accounts.invitation(token) == made
    member = accounts.use_invitation(token, sign_in="another", password_digest="argon")
    assert (member.person.name, member.person.sign_in, member.role) == ("C. Crew", "crew@one.example", "crew")
    assert member.grants == ("see_money",)
    assert accounts.password_digest(member.person.id) == "argon"
    assert accounts.invitation(token) is None
    with pytest.raises(InvitationClosedError):
        accounts.use_invitation(token, sign_in="second", name="Second")
    assert accounts.person_called("second") is None
    assert accounts.invitations(firm_id)[0].used is not None


def test_an_invitation_that_cannot_be_used_stays_open(accounts, firm_id, owner):
    _, token = accounts.invite(firm_id, role="crew", by=owner.id, expires=SOON)
    with pytest.raises(SignInTakenError):
        accounts.use_invitation(token, sign_in=owner.sign_in)
    assert accounts.invitation(token) is not None
    assert accounts.use_invitation(token, sign_in="new", name="New").person.name == "New"


def test_withdrawn_and_late_invitations_open_nothing(accounts, firm_id, owner):
    made, token = accounts.invite(firm_id, role="crew", by=owner.id, expires=SOON)
    assert accounts.withdraw_invitation("another", made.id) is False
    assert [accounts.withdraw_invitation(firm_id, made.id) for _ in range(2)] == [True, False]
    assert accounts.invitation(token) is None
    _, late = accounts.invite(firm_id, role="crew", by=owner.id, expires=BEFORE)
    assert accounts.invitation(late) is None
    with pytest.raises(InvitationClosedError):
        accounts.use_invitation(late, sign_in="x")
    with pytest.raises(UnknownFirm):
        accounts.invite("none", role="crew", by=owner.id, expires=SOON)


def test_who_is_a_person_already_joins_by_an_invitation(accounts, owner):
    other = accounts.add_firm("Other")
    _, token = accounts.invite(other.id, role="office", by=owner.id, expires=SOON)
    assert accounts.use_invitation(token, person_id=owner.id).firm_id == other.id
    assert len(accounts.memberships(owner.id)) == 2


def test_tokens_of_programs_reach_one_firm_until_they_end(accounts, firm_id, owner):
    made, token = accounts.make_token(firm_id, owner.id, "Notebook", ["read_jobs"], SOON)
    found, person, member = accounts.of_api_token(token)
    assert (found.id, found.scopes, person, member.firm_id) == (made.id, ("read_jobs",), owner, firm_id)
    assert accounts.tokens(firm_id)[0].used is not None
    _, late = accounts.make_token(firm_id, owner.id, "Late", [], BEFORE)
    assert accounts.of_api_token(late) is None
    assert accounts.withdraw_token("another", made.id) is False
    assert accounts.withdraw_token(firm_id, made.id) is True
    assert accounts.of_api_token(token) is None


def test_failures_are_counted_by_digest(installation, accounts):
    since = dt.datetime.now(dt.UTC) - dt.timedelta(minutes=15)
    for _ in range(3):
        accounts.note_failure("name: owner")
    assert (accounts.failures("name: owner", since), accounts.failures("name: other", since)) == (3, 0)
    with installation.first.reading() as connection:
        keys = set(connection.execute(sa.text("SELECT key FROM account_failure")).scalars())
    assert keys == {hashlib.sha256(b"name: owner").hexdigest()}
    accounts.clear_failures("name: owner")
    assert accounts.failures("name: owner", since) == 0


def test_what_was_done_is_noted_and_stays(installation, accounts, firm_id, owner):
    for number in range(3):
        accounts.audit(firm_id, owner.id, "role_changed", {"number": number}, "127.0.0.1")
    accounts.audit(None, None, "sign_in_failed", {})
    entries = accounts.audit_entries(firm_id)
    assert [each.facts["number"] for each in entries] == [2, 1, 0]
    assert [each.facts["number"] for each in accounts.audit_entries(firm_id, before=entries[1].number)] == [0]
    assert [each.code for each in accounts.audit_entries(None)] == ["sign_in_failed"]
    for words in ("UPDATE account_audit SET code = 'x'", "DELETE FROM account_audit"):
        with pytest.raises(sa.exc.DBAPIError, match="stays as it was"), installation.first.writing() as connection:
            connection.execute(sa.text(words))
    assert accounts.audit_entries(firm_id) == entries


def test_an_erased_person_is_known_by_his_bare_id_only(accounts, firm_id, owner):
    _, token = accounts.begin_sign_in(owner.id, firm_id, "Phone", 30)
    accounts.keep_password(owner.id, "digest")
    accounts.erase_person(owner.id)
    assert accounts.signed_in(token) is None
    assert accounts.password_digest(owner.id) is None
    assert accounts.person_called(owner.sign_in) is None
    erased = accounts.person(owner.id)
    assert (erased.name, erased.sign_in) == ("", "")
    assert accounts.add_person(owner.sign_in, "Somebody else").id != owner.id


def test_every_change_notes_who_made_it(installation):
    store, who = installation.first, Who("5f", "A. Person")
    with acting_as(who):
        kept = store.add("{}")
        store.save(kept.id, 1, '{"a": 1}')
        store.add_photo("p1", kept.id, b"image", "", None)
        store.firm.save(0, "{}")
    store.save(kept.id, 2, '{"a": 2}')
    assert [each.who for each in store.revisions(kept.id)] == ["", "5f", "5f"]
    assert store.revision(kept.id, 2).who == "5f"
    assert [each.who for each in store.photos(kept.id)] == ["5f"]
    assert [each.who for each in store.firm.revisions()] == ["5f"]
    assert store.firm.revision(1).who == "5f"
    assert b'"who":"5f"' in store.records.content(kept.id).replace(b'": "', b'":"')
