"""What each role may do, said a second time by hand, and what a grant adds."""

from __future__ import annotations

import pytest

from pavewright.people import GRANTS, PASSWORD_MAX, PASSWORD_MIN, PasswordFault, Right, Role, password_fault, rights_of

CREW = {Right.READ_JOBS, Right.CHANGE_JOBS, Right.SITE, Right.RUN_LONG}
ALL = {each.value for each in Right}


def test_an_owner_may_everything_and_an_auditor_only_reads():
    assert rights_of(Role.OWNER) == set(Right)
    assert rights_of(Role.AUDITOR) == {Right.READ_JOBS, Right.SEE_MONEY, Right.AUDIT}


def test_the_office_lets_nobody_in_and_takes_nothing_away():
    assert set(Right) - rights_of(Role.OFFICE) == {Right.PEOPLE, Right.TOKENS, Right.BACKUP, Right.AUDIT, Right.METRICS}


def test_a_crew_is_granted_what_an_owner_may_grant_and_no_more():
    assert rights_of(Role.CREW) == CREW
    assert rights_of(Role.CREW, ALL | {"no such right"}) == CREW | GRANTS


@pytest.mark.parametrize("role", [Role.OFFICE, Role.AUDITOR])
def test_nobody_but_a_crew_is_granted_anything(role):
    assert rights_of(role, ALL) == rights_of(role)


@pytest.mark.parametrize(
    ("password", "fault"),
    [
        ("slabs in the rain"[: PASSWORD_MIN - 1], PasswordFault.SHORT),
        ("slab and lawn " * PASSWORD_MAX, PasswordFault.LONG),
        ("aaaaaaaaaaaaaaaa", PasswordFault.COMMON),
        ("1234567890123456", PasswordFault.COMMON),
        ("wren-the-paver-22", PasswordFault.OWN_NAME),
        ("slabs in the rain", None),
    ],
)
def test_a_password_is_refused_for_the_first_thing_that_is_wrong(password, fault):
    assert password_fault(password, "Wren the Paver") is fault
