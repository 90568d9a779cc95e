"""Signing in and out, and joining by an invitation."""

from __future__ import annotations

import asyncio
from typing import TYPE_CHECKING

from starlette.responses import RedirectResponse
from starlette.routing import Route

from pavewright.people import password_fault
from pavewright.store import SignInTakenError
from pavewright.web._answers import AskedWrongError, answer, sent, text_in
from pavewright.web._who_asks import SIGNED_IN
from pavewright.web.sign_in._forms import NO_STORE, Form, closed_page, fields_of, own_address, page_of
from pavewright.web.sign_in._guard import FAILED, address_of, cookie_of, first_firm_of, guard_of
from pavewright.web.sign_in._keys import RESET, code_fits, digest_of, is_of_now
from pavewright.web.sign_in._sign_in_words import (
    CLOSED,
    NAME_MISSING,
    PASSWORD_FAULTS,
    TAKEN,
    UNREAD,
    WRONG,
    wait_words,
)

if TYPE_CHECKING:
    from collections.abc import Mapping

    from starlette.requests import Request
    from starlette.responses import Response

    from pavewright.store import Invitation, Person
    from pavewright.web.sign_in._guard import Guard

_NAME_MAX = 60


async def _shown(request: Request) -> Response:
    guard, after = guard_of(request), own_address(request.query_params.get("to", "/"))
    if SIGNED_IN.get() is not None or not await guard.anybody():
        return RedirectResponse(after, 303, headers=NO_STORE)
    return page_of(Form("sign in", "Sign in", "/sign-in", after=after))


async def _sign_in(request: Request) -> Response:
    """Take name, password and code; every refusal reads the same and takes as long."""
    guard, fields = guard_of(request), await fields_of(request)
    name, after = fields.get("sign_in", "")[:_NAME_MAX], own_address(fields.get("to", "/"))
    form = Form("sign in", "Sign in", "/sign-in", sign_in=name, after=after, said=WRONG)
    address = address_of(request.scope)
    wait_s = await guard.waits.begin(name, address)
    if wait_s:
        await guard.note_failed(request.scope, {"way": "password", "why": "had to wait"})
        waiting = page_of(
            Form("sign in", "Sign in", "/sign-in", sign_in=name, after=after, said=wait_words(wait_s)), 429
        )
        waiting.headers["Retry-After"] = str(wait_s)
        return waiting
    person, why = await _proved(guard, name, fields)
    if person is None:
        known = await asyncio.to_thread(guard.accounts.person_called, name)
        firm_id = None if known is None else await asyncio.to_thread(first_firm_of, guard, known.id)
        facts = {"way": "password"} | ({"why": why} if why else {})
        await guard.note(request, FAILED, facts, firm_id, known.id if known else None)
        return page_of(form, 401)
    await guard.waits.succeeded(name, address)
    answered = RedirectResponse(after, 303, headers=NO_STORE)
    await guard.sign_in(request, person.id, "password", answered)
    return answered


async def _proved(guard: Guard, name: str, fields: Mapping[str, str]) -> tuple[Person | None, str]:
    """Return who proved himself by name, password and code; None where nobody, and why where it was the code."""
    accounts, typed = guard.accounts, fields.get("password", "")[:1_000]
    person = await asyncio.to_thread(accounts.person_called, name)
    kept = None if person is None else await asyncio.to_thread(accounts.password_digest, person.id)
    if not await guard.passwords.fits(kept, typed) or person is None or kept is None:
        return None, ""
    if not await asyncio.to_thread(accounts.memberships, person.id):
        return None, ""
    secret = await asyncio.to_thread(accounts.totp_secret, person.id)
    code = fields.get("code", "")[:40]
    if secret and not await asyncio.to_thread(code_fits, accounts, person.id, secret, code):
        return None, "code used before" if is_of_now(secret, code) else "code"
    if guard.passwords.is_old(kept):
        await asyncio.to_thread(accounts.keep_password, person.id, await guard.passwords.digest(typed))
    return person, ""


async def _sign_out(request: Request) -> Response:
    guard, asks = guard_of(request), SIGNED_IN.get()
    answered = RedirectResponse("/sign-in", 303, headers=NO_STORE)
    if asks is not None and asks.sign_in_id is not None:
        await asyncio.to_thread(guard.accounts.end_sign_in, asks.sign_in_id)
        await guard.note(request, "signed out")
    answered.delete_cookie(cookie_of(request.scope), path="/", secure=request.url.scheme == "https", httponly=True)
    return answered


async def _passkey_asked(request: Request) -> Response:
    return answer(guard_of(request).passkeys.to_sign_in(request))


async def _passkey(request: Request) -> Response:
    """Sign somebody in who proves himself by a passkey: it is bound to its device and to who holds it."""
    guard, asked = guard_of(request), await sent(request)
    try:
        kept, count = await asyncio.to_thread(
            guard.passkeys.proved, request, asked.get("credential"), guard.accounts.passkey
        )
    except AskedWrongError:
        await guard.note_failed(request.scope, {"way": "passkey"})
        raise
    if not await asyncio.to_thread(guard.accounts.note_passkey, kept.credential, count):
        await guard.note_failed(request.scope, {"way": "passkey", "why": "copied"}, kept.person_id)
        raise AskedWrongError(422, "This passkey was copied: an owner has to let you in anew.")
    if not await asyncio.to_thread(guard.accounts.memberships, kept.person_id):
        raise AskedWrongError(401, WRONG)
    after = own_address(text_in(asked, "to", 300, default="/"))
    answered = answer({"to": after})
    await guard.sign_in(request, kept.person_id, "passkey", answered)
    return answered


async def _opened(request: Request) -> tuple[str, Invitation | None]:
    """Return the token in the address and the invitation that it opens; wrong ones make an address wait."""
    token, guard = str(request.path_params["token"])[:200], guard_of(request)
    found = await asyncio.to_thread(guard.accounts.invitation, token)
    return token, found


async def _joining(request: Request, token: str, found: Invitation, fields: Mapping[str, str], said: str) -> Response:
    guard, asks = guard_of(request), SIGNED_IN.get()
    firm = await asyncio.to_thread(guard.accounts.firm, found.firm_id)
    form = Form(
        "join",
        f"Join {firm.name}" if firm.name else "Join the firm",
        f"/join/{token}",
        said=said,
        name=fields.get("name", found.name),
        sign_in=fields.get("sign_in", found.sign_in),
        firm=firm.name,
        role=found.role,
        known=asks.name if asks is not None else "",
    )
    return page_of(form, 422 if said else 200)


async def _join_shown(request: Request) -> Response:
    token, found = await _opened(request)
    if found is None:
        return closed_page()
    return await _joining(request, token, found, {}, "")


async def _join(request: Request) -> Response:
    token, found = await _opened(request)
    fields = await fields_of(request)
    if found is None:
        return closed_page()
    if fields.get("do") == "join" and SIGNED_IN.get() is not None:
        return await _join_as_known(request, token, found)
    sign_in, name = _named(found, fields)
    said = await asyncio.to_thread(_fault_of, fields, sign_in, name)
    if said:
        return await _joining(request, token, found, fields, said)
    guard = guard_of(request)
    digest = await guard.passwords.digest(fields["password"])
    try:
        person_id = await _used(guard, request, token, sign_in, name, digest)
    except SignInTakenError:
        return await _joining(request, token, found, fields, TAKEN)
    answered = RedirectResponse("/you", 303, headers=NO_STORE)
    await guard.sign_in(request, person_id, "invitation", answered)
    return answered


def _fault_of(fields: Mapping[str, str], sign_in: str, name: str) -> str:
    """Return what keeps somebody from joining as he filled the form in; empty where nothing does."""
    if not fields:
        return UNREAD
    if not sign_in or not name:
        return NAME_MISSING
    fault = password_fault(fields.get("password", ""), sign_in)
    return PASSWORD_FAULTS[fault] if fault else ""


async def _join_as_known(request: Request, token: str, found: Invitation) -> Response:
    """Let somebody who is signed in join one more firm, and work there now."""
    guard, asks = guard_of(request), SIGNED_IN.get()
    if asks is None or asks.sign_in_id is None:
        return closed_page()
    await asyncio.to_thread(guard.accounts.use_invitation, token, person_id=asks.person_id)
    # a link that an owner of the other firm made would open this one too
    await asyncio.to_thread(guard.accounts.keep_codes, asks.person_id, RESET, ())
    await asyncio.to_thread(guard.accounts.switch_firm, asks.sign_in_id, found.firm_id)
    await guard.note(request, "joined", {"role": found.role}, found.firm_id, asks.person_id)
    return RedirectResponse("/", 303, headers=NO_STORE)


def _named(found: Invitation, fields: Mapping[str, str]) -> tuple[str, str]:
    """Return the short name to sign in by and the name, each on one line."""
    sign_in, name = found.sign_in or fields.get("sign_in", ""), fields.get("name", "") or found.name
    one_line = (" ".join(text.split()) for text in (sign_in, name))
    sign_in, name = ("".join(sign for sign in text if sign.isprintable())[:_NAME_MAX] for text in one_line)
    return sign_in, name


async def _used(guard: Guard, request: Request, token: str, sign_in: str, name: str, digest: str | None) -> str:
    """Use an invitation and return the person who joined."""
    member = await asyncio.to_thread(
        guard.accounts.use_invitation, token, sign_in=sign_in, name=name, password_digest=digest
    )
    person_id = member.person.id
    await guard.note(request, "joined", {"role": member.role}, member.firm_id, person_id)
    return person_id


async def _join_passkey_asked(request: Request) -> Response:
    token, found = await _opened(request)
    if found is None:
        raise AskedWrongError(404, CLOSED)
    asked = await sent(request)
    sign_in, name = _named(found, {each: text_in(asked, each, 200, default="") for each in ("sign_in", "name")})
    if not sign_in or not name:
        raise AskedWrongError(422, NAME_MISSING)
    guard = guard_of(request)
    return answer(guard.passkeys.to_make(request, f"join {digest_of(token)}", (sign_in, name), ()))


async def _join_passkey(request: Request) -> Response:
    """Join by an invitation with a passkey and without a password."""
    token, found = await _opened(request)
    if found is None:
        raise AskedWrongError(404, CLOSED)
    asked, guard = await sent(request), guard_of(request)
    sign_in, name = _named(found, {each: text_in(asked, each, 200, default="") for each in ("sign_in", "name")})
    if not sign_in or not name:
        raise AskedWrongError(422, NAME_MISSING)
    made = await asyncio.to_thread(guard.passkeys.made, request, f"join {digest_of(token)}", asked.get("credential"))
    if await asyncio.to_thread(guard.accounts.passkey, made.credential) is not None:
        raise AskedWrongError(409, "This passkey is somebody's already.")
    try:
        person_id = await _used(guard, request, token, sign_in, name, None)
    except SignInTakenError as taken:
        raise AskedWrongError(409, TAKEN) from taken
    await asyncio.to_thread(
        guard.accounts.add_passkey, person_id, made.credential, made.public_key, made.count, "First passkey"
    )
    answered = answer({"to": "/you"}, 201)
    await guard.sign_in(request, person_id, "invitation", answered)
    return answered


ROUTES = (
    Route("/sign-in", _shown, methods=["GET"]),
    Route("/sign-in", _sign_in, methods=["POST"]),
    Route("/sign-out", _sign_out, methods=["POST"]),
    Route("/api/sign-in/passkey/asked", _passkey_asked, methods=["POST"]),
    Route("/api/sign-in/passkey", _passkey, methods=["POST"]),
    Route("/join/{token}", _join_shown, methods=["GET"]),
    Route("/join/{token}", _join, methods=["POST"]),
    Route("/api/join/{token}/passkey/asked", _join_passkey_asked, methods=["POST"]),
    Route("/api/join/{token}/passkey", _join_passkey, methods=["POST"]),
)
