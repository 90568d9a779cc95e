"""Passwords: any characters, of any make, long ones whole; none of those that are tried first."""

from __future__ import annotations

import asyncio
import inspect

import argon2
import pytest
from zxcvbn.frequency_lists import FREQUENCY_LISTS

from pavewright.people import PASSWORD_MAX, PASSWORD_MIN, PasswordFault, Strength, password_fault, password_strength
from pavewright.web.sign_in import Passwords
from pavewright.web.sign_in._keys import SLOW

QUICK = Passwords(argon2.profiles.CHEAPEST)


def digest(password):
    return asyncio.run(QUICK.digest(password))


def fits(kept, typed):
    return asyncio.run(QUICK.fits(kept, typed))


def test_lengths_are_those_of_the_standard():
    long = "seven lorries of sharp sand and a broom " * 4
    assert (PASSWORD_MIN, PASSWORD_MAX) == (12, 128)
    assert password_fault(long[:64]) is None
    assert password_fault(long[:128]) is None
    assert password_fault(long[:129]) is PasswordFault.LONG


@pytest.mark.parametrize(
    "password",
    ["7391846205518", "!?+kerb=;;:<>-", "slabs in the rain", "SLABS IN THE RAIN", "плитка под дождём", "🧱🪨🏡🌧️☂️🧤🧹🚚🛠️📐📏🧰", "   wet   gloves   "],
)  # fmt: skip
def test_a_password_may_be_made_of_anything(password):
    assert password_fault(password) is None


def test_of_two_long_passwords_every_character_counts():
    first = "seven lorries of sharp sand and a broom " * 3
    kept = digest(first)
    assert fits(kept, first)
    assert not fits(kept, first[:-1])
    assert not fits(kept, first[:-1] + "x")
    assert not fits(kept, first.upper())


def test_a_password_of_any_script_and_with_spaces_is_compared_as_it_was_typed():
    for password in ("плитка под дождём", "🧱🪨🏡🌧️☂️🧤🧹🚚", "  two  spaces  here  "):
        kept = digest(password)
        assert fits(kept, password)
        assert not fits(kept, password.strip() + "!")
        assert not fits(kept, " ".join(password.split()) + " ")


def test_the_passwords_that_are_tried_first_are_refused_alone_and_dressed_up():
    listed = FREQUENCY_LISTS["passwords"]
    assert len(listed) >= 10_000
    long = [each for each in listed if len(each) >= PASSWORD_MIN]
    assert len(long) > 100
    assert {password_fault(each) for each in long} == {PasswordFault.COMMON}
    dressed = [f"{each.title()}-2026!2026!" for each in listed[:1_000] if each.isalpha()]
    assert len(dressed) > 500
    assert {password_fault(each) for each in dressed} == {PasswordFault.COMMON}
    assert password_fault("letmeinletmein") is PasswordFault.COMMON


def test_how_soon_a_password_is_guessed_is_told():
    assert password_strength("short") is Strength.WEAK
    assert password_strength("password123456") is Strength.WEAK
    assert password_strength("wet gloves twice a day") is Strength.STRONG


def test_salts_of_two_digests_of_one_password_differ_and_have_sixteen_bytes():
    made = [digest("wet gloves twice a day") for _ in range(2)]
    salts = {each.split("$")[-2] for each in made}
    assert len(salts) == 2
    assert SLOW.salt_len == 16


def test_the_served_digest_is_argon2id_as_slow_as_is_advised_and_a_quicker_one_is_made_anew():
    served = inspect.signature(Passwords).parameters["slow"].default
    assert served is SLOW
    kept = asyncio.run(Passwords().digest("wet gloves twice a day"))
    assert kept.startswith("$argon2id$v=19$m=19456,t=2,p=1$")
    assert not Passwords().is_old(kept)
    assert Passwords().is_old(digest("wet gloves twice a day"))
