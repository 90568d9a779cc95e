"""What people prove themselves by: passwords, codes of a phone, codes on paper, and links that open once."""

from __future__ import annotations

import asyncio
import hashlib
import hmac
import secrets
import time
from typing import TYPE_CHECKING

import pyotp
from argon2 import Parameters, PasswordHasher, Type
from argon2.exceptions import Argon2Error, InvalidHashError

if TYPE_CHECKING:
    from pavewright.store import Accounts

SLOW = Parameters(type=Type.ID, version=19, salt_len=16, hash_len=32, time_cost=2, memory_cost=19 * 1024, parallelism=1)
"""How slow a digest is. Memory in KiB. Source: OWASP, Password Storage Cheat Sheet: 19 MiB, two rounds, one lane."""
_AT_ONCE = 2
"""Digests that are made at the same time: more would only wait for the same processor."""
_SIGNS = "23456789ABCDEFGHJKMNPQRSTVWXYZ"
"""Figures and letters that nobody takes for one another."""
_CODES, _CODE_LENGTH, _GROUP = 10, 16, 4
_STEP_S = 30
RECOVERY, RESET = "recovery", "reset"
"""Kinds of codes that open once."""


class Passwords:
    """Makes digests of passwords and compares them, beside everything else."""

    def __init__(self, slow: Parameters = SLOW) -> None:
        """Keep how slow a digest is, and make one that nobody's password has."""
        self._hasher = PasswordHasher.from_parameters(slow)
        self._nobody = self._hasher.hash(secrets.token_urlsafe())
        self._turns = asyncio.Semaphore(_AT_ONCE)

    async def digest(self, password: str) -> str:
        """Return what is kept of a password."""
        async with self._turns:
            return await asyncio.to_thread(self._hasher.hash, password)

    async def fits(self, kept: str | None, typed: str) -> bool:
        """Return whether a password is the one that is kept; where none is it takes as long."""
        async with self._turns:
            same = await asyncio.to_thread(self._same, kept or self._nobody, typed)
        return same and kept is not None

    def is_old(self, kept: str) -> bool:
        """Return whether a digest was made less slowly than one is made now."""
        return self._hasher.check_needs_rehash(kept)

    def _same(self, kept: str, typed: str) -> bool:
        try:
            return self._hasher.verify(kept, typed)
        except (Argon2Error, InvalidHashError):
            return False


def code_fits(accounts: Accounts, person_id: str, secret: str, typed: str) -> bool:
    """Return whether a code of a phone, or one on paper, is right, and let it open nothing more.

    The code before and the one after are taken too: clocks differ.
    """
    step = _step_of(secret, typed)
    if step is not None:
        return accounts.use_totp_step(person_id, step)
    return accounts.use_code(person_id, RECOVERY, digest_of_code(typed))


def is_of_now(secret: str, typed: str) -> bool:
    """Return whether a code is one that the phone shows about now: where it was refused all the same, it was used."""
    return _step_of(secret, typed) is not None


def _step_of(secret: str, typed: str) -> int | None:
    """Return the half minute whose code was typed; None where it is none of about now."""
    figures = "".join(typed.split())
    now = int(time.time()) // _STEP_S
    for step in (now - 1, now, now + 1):
        if hmac.compare_digest(pyotp.TOTP(secret).generate_otp(step).encode(), figures.encode()):
            return step
    return None


def codes_on_paper() -> tuple[str, ...]:
    """Return fresh codes to be written down, in groups that are read easily."""
    return tuple(_grouped("".join(secrets.choice(_SIGNS) for _ in range(_CODE_LENGTH))) for _ in range(_CODES))


def _grouped(code: str) -> str:
    return "-".join(code[at : at + _GROUP] for at in range(0, len(code), _GROUP))


def digest_of_code(typed: str) -> str:
    """Return what is kept of a code on paper, however it was typed."""
    return digest_of("".join(sign for sign in typed.upper() if sign in _SIGNS))


def digest_of(token: str) -> str:
    """Return what is kept of something random and long."""
    return hashlib.sha256(token.encode("utf-8", "replace")).hexdigest()
