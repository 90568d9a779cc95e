"""The guard: who asks, by the cookie of a signed-in device or the token of a program; and how a device is signed in."""

from __future__ import annotations

import asyncio
import contextlib
import datetime as dt
import ipaddress
import time
from http.cookies import CookieError, SimpleCookie
from typing import TYPE_CHECKING, Any

from starlette.datastructures import Headers

from pavewright.people import Right, Role, rights_of
from pavewright.store import StoreTroubleError
from pavewright.web._who_asks import SIGNED_IN, SignedIn
from pavewright.web.sign_in._device_words import device_words
from pavewright.web.sign_in._keys import Passwords
from pavewright.web.sign_in._passkeys import Passkeys
from pavewright.web.sign_in._waits import Often, Waits

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response
    from starlette.types import Scope

    from pavewright.store import Accounts, ApiToken, Member, SignIn

_NAME = "pavewright-sign-in"
_BEARER = "bearer "
IDLE_DAYS = 30
"""A device that asks for nothing for so long signs in again."""
_LONGEST_DAYS, _AUDITOR_DAYS = 180.0, 0.5
_SEEN_AFTER_S = 60
FAILED = "sign-in failed"
"""What stands in the list of who did what where somebody was not let in."""
_NOTED_EVERY_S, _NOTED_MAX = 60.0, 500


class Guard:
    """Who may come in, for one installation."""

    def __init__(self, accounts: Accounts, passwords: Passwords | None = None) -> None:
        """Keep the accounts and how passwords are compared."""
        self.accounts = accounts
        self.passwords = passwords or Passwords()
        self.waits = Waits(accounts)
        self.often = Often()
        self.passkeys = Passkeys()
        self.begun_codes: dict[str, str] = {}
        self._noted_lately: dict[tuple[str, str], float] = {}
        self._anybody = False

    async def anybody(self) -> bool:
        """Return whether a person was entered: from then on everybody signs in."""
        if not self._anybody:
            self._anybody = await asyncio.to_thread(self.accounts.anybody)
        return self._anybody

    async def asker(self, scope: Scope) -> SignedIn | None:
        """Return who asks; None where nobody is signed in, whatever the reason."""
        headers = Headers(scope=scope)
        proof = headers.get("authorization", "")
        if proof:
            known = proof.lower().startswith(_BEARER)
            found = await asyncio.to_thread(self._of_program, proof[len(_BEARER) :].strip()) if known else None
            if found is None:
                with contextlib.suppress(StoreTroubleError):  # a full disk changes no answer
                    await self.note_failed(scope, {"way": "token"})
            return found
        token = _token_in(headers.get("cookie", ""), cookie_of(scope))
        return await asyncio.to_thread(self._of_device, token) if token else None

    def _of_program(self, token: str) -> SignedIn | None:
        found = self.accounts.of_api_token(token)
        return None if found is None else _program(found[0], found[2])

    def _of_device(self, token: str) -> SignedIn | None:
        found = self.accounts.signed_in(token)
        if found is None:
            return None
        device, _, member = found
        idle_s = (dt.datetime.now(dt.UTC) - dt.datetime.fromisoformat(device.seen)).total_seconds()
        if idle_s > IDLE_DAYS * 24 * 3600:
            self.accounts.end_sign_in(device.id)
            return None
        if idle_s > _SEEN_AFTER_S:
            with contextlib.suppress(StoreTroubleError):  # a full disk locks nobody out who only reads
                self.accounts.note_seen(device.id)
        return _person(device, member)

    async def sign_in(self, request: Request, person_id: str, way: str, answered: Response) -> None:
        """Sign a device in and give it its cookie; what it had before opens nothing any more."""
        await asyncio.to_thread(self._end_before, request)
        joined = await asyncio.to_thread(self.accounts.memberships, person_id)
        member = joined[0]
        days = _AUDITOR_DAYS if member.role == Role.AUDITOR else _LONGEST_DAYS
        words = device_words(request.headers.get("user-agent", ""))
        _, token = await asyncio.to_thread(self.accounts.begin_sign_in, person_id, member.firm_id, words, days)
        await self.note(request, "signed_in", {"way": way}, member.firm_id, person_id)
        answered.set_cookie(
            cookie_of(request.scope),
            token,
            max_age=int(days * 24 * 3600),
            path="/",
            httponly=True,
            samesite="lax",
            secure=request.url.scheme == "https",
        )
        self._anybody = True

    def _end_before(self, request: Request) -> None:
        found = self.accounts.signed_in(_token_in(request.headers.get("cookie", ""), cookie_of(request.scope)))
        if found is not None:
            self.accounts.end_sign_in(found[0].id)

    async def note_failed(self, scope: Scope, facts: dict[str, Any], person_id: str | None = None) -> None:
        """Keep that somebody was not let in: once a minute of one kind from one address, so that nobody fills the list.

        Args:
            scope: The request.
            facts: By which way it was tried, and why it failed where that is known.
            person_id: Whose way it was; None where that is nobody known.
        """
        address, now_s = address_of(scope), time.monotonic()
        kind = (f"{sorted(facts.items())} {person_id}", address)
        lately = {each: at for each, at in self._noted_lately.items() if now_s - at < _NOTED_EVERY_S}
        if kind in lately or len(lately) >= _NOTED_MAX:
            return
        self._noted_lately = lately | {kind: now_s}
        firm_id = None if person_id is None else await asyncio.to_thread(first_firm_of, self, person_id)
        await asyncio.to_thread(self.accounts.audit, firm_id, person_id, FAILED, facts, address)

    async def note(
        self,
        request: Request,
        code: str,
        facts: dict[str, Any] | None = None,
        firm_id: str | None = None,
        person_id: str | None = None,
    ) -> None:
        """Keep what was done, by whom and from where."""
        asks = SIGNED_IN.get()
        if asks is not None and person_id is None:
            firm_id, person_id = firm_id or asks.firm_id, asks.person_id
        address = address_of(request.scope)
        await asyncio.to_thread(self.accounts.audit, firm_id, person_id, code, facts or {}, address)


def guard_of(request: Request) -> Guard:
    """Return the guard of an application."""
    found: Guard = request.app.state.guard
    return found


def cookie_of(scope: Scope) -> str:
    """Return the name of the cookie: over a secure connection one that no other host can set."""
    return f"__Host-{_NAME}" if scope.get("scheme") == "https" else _NAME


def first_firm_of(guard: Guard, person_id: str) -> str | None:
    """Return the first firm of a person; None where he or she is in none."""
    return next((each.firm_id for each in guard.accounts.memberships(person_id)), None)


def address_of(scope: Scope) -> str:
    """Return the address that asks: of an IPv6 one its network, which one customer of a provider has for himself."""
    client = scope.get("client")
    address = str(client[0]) if client else ""
    with contextlib.suppress(ValueError):
        found = ipaddress.ip_address(address)
        if found.version == 6 and not found.ipv4_mapped:  # noqa: PLR2004 - the version of the protocol
            return str(ipaddress.ip_network(f"{address}/64", strict=False))
    return address


def _token_in(cookies: str, name: str) -> str:
    found: SimpleCookie = SimpleCookie()
    with contextlib.suppress(CookieError):
        found.load(cookies)
    return found[name].value if name in found else ""


def _rights(member: Member) -> frozenset[Right]:
    return rights_of(Role(member.role), member.grants)


def _person(device: SignIn, member: Member) -> SignedIn:
    who = member.person
    return SignedIn(who.id, who.name, member.firm_id, Role(member.role), _rights(member), sign_in_id=device.id)


def _program(token: ApiToken, member: Member) -> SignedIn:
    who, rights = member.person, frozenset(right for right in _rights(member) if right.value in token.scopes)
    return SignedIn(who.id, who.name, member.firm_id, Role(member.role), rights, token_id=token.id)
