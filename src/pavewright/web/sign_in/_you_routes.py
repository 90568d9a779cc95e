"""What somebody looks after himself: password, codes of a phone, passkeys, signed-in devices, the firm to work in."""

from __future__ import annotations

import asyncio
from dataclasses import asdict
from typing import TYPE_CHECKING

import pyotp
import segno
from starlette.routing import Route

from pavewright.people import password_fault
from pavewright.store import UnknownPerson
from pavewright.web._answers import AskedWrongError, answer, name_in, sent, text_in
from pavewright.web._who_asks import SIGNED_IN, SignedIn
from pavewright.web.sign_in._guard import address_of, guard_of
from pavewright.web.sign_in._keys import RECOVERY, code_fits, codes_on_paper, digest_of_code
from pavewright.web.sign_in._sign_in_words import PASSWORD_FAULTS, WRONG, wait_words

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

_PASSWORD_SENT_MAX = 1_000


def _asks() -> SignedIn:
    """Return who asks.

    Raises:
        AskedWrongError: no person was entered yet.
    """
    asks = SIGNED_IN.get()
    if asks is None:
        raise AskedWrongError(409, "Nobody signs in here yet: open People and enter the first owner.")
    return asks


async def _you(request: Request) -> Response:
    """Answer with who asks and what he may do; what others may know of him is nothing of this."""
    asks = SIGNED_IN.get()
    if asks is None:
        return answer({"signed_in": False, "rights": None})
    accounts = guard_of(request).accounts
    told = {"signed_in": True, "name": asks.name, "role": asks.role.value, "rights": sorted(asks.rights)}
    if asks.sign_in_id is None:
        return answer(told)
    person = await asyncio.to_thread(accounts.person, asks.person_id)
    firms = {each.id: each.name for each in await asyncio.to_thread(accounts.firms)}
    joined = await asyncio.to_thread(accounts.memberships, asks.person_id)
    devices = await asyncio.to_thread(accounts.sign_ins, asks.person_id)
    passkeys = await asyncio.to_thread(accounts.passkeys, asks.person_id)
    return answer(
        told
        | {
            "sign_in": person.sign_in,
            "has_password": await asyncio.to_thread(accounts.password_digest, asks.person_id) is not None,
            "has_codes": bool(await asyncio.to_thread(accounts.totp_secret, asks.person_id)),
            "codes_left": await asyncio.to_thread(accounts.codes_left, asks.person_id, RECOVERY),
            "firms": [{"id": each.firm_id, "name": firms.get(each.firm_id, ""), "role": each.role} for each in joined],
            "firm": asks.firm_id,
            "devices": [
                {key: asdict(each)[key] for key in ("id", "device", "begun", "seen", "expires")}
                | {"this": each.id == asks.sign_in_id}
                for each in devices
            ],
            "passkeys": [{"id": each.id, "name": each.name, "made": each.made, "used": each.used} for each in passkeys],
        }
    )


async def _prove_again(request: Request, asks: SignedIn, typed: str) -> None:
    """Look whether who sits there is who signed in, by the password; who has none proved himself by a passkey.

    Raises:
        AskedWrongError: the password is wrong, or was tried too often.
    """
    guard = guard_of(request)
    kept = await asyncio.to_thread(guard.accounts.password_digest, asks.person_id)
    if kept is None:
        return
    name, address = f"again {asks.person_id}", address_of(request.scope)
    wait_s = await guard.waits.begin(name, address)
    if wait_s:
        raise AskedWrongError(429, wait_words(wait_s))
    if not await guard.passwords.fits(kept, typed):
        raise AskedWrongError(403, "That is not the password that you have now.")
    await guard.waits.succeeded(name, address)


async def _password(request: Request) -> Response:
    """Keep a new password; every other device of the person signs in anew."""
    asks, guard, asked = _asks(), guard_of(request), await sent(request)
    password = text_in(asked, "password", _PASSWORD_SENT_MAX)
    person = await asyncio.to_thread(guard.accounts.person, asks.person_id)
    fault = await asyncio.to_thread(password_fault, password, person.sign_in)
    if fault is not None:
        raise AskedWrongError(422, PASSWORD_FAULTS[fault])
    await _prove_again(request, asks, text_in(asked, "now", _PASSWORD_SENT_MAX, default=""))
    await asyncio.to_thread(guard.accounts.keep_password, asks.person_id, await guard.passwords.digest(password))
    ended = await asyncio.to_thread(guard.accounts.end_sign_ins, asks.person_id, asks.sign_in_id)
    await guard.note(request, "password changed", {"way": "own"})
    return answer({"ended": ended})


async def _begin_codes(request: Request) -> Response:
    """Answer with a secret for the codes of a phone, as a picture and as letters; it holds when a code was typed."""
    asks, guard, asked = _asks(), guard_of(request), await sent(request)
    await _prove_again(request, asks, text_in(asked, "now", _PASSWORD_SENT_MAX, default=""))
    person = await asyncio.to_thread(guard.accounts.person, asks.person_id)
    secret = pyotp.random_base32()
    guard.begun_codes[asks.person_id] = secret
    address = pyotp.TOTP(secret).provisioning_uri(name=person.sign_in, issuer_name="pavewright")
    picture = segno.make(address, micro=False).svg_data_uri(scale=6, border=4, light="#fff", dark="#000")
    return answer({"secret": secret, "code": picture}, 201)


async def _codes(request: Request) -> Response:
    """Ask for codes from now on, where the first one is right; answer with the codes on paper."""
    asks, guard, asked = _asks(), guard_of(request), await sent(request)
    secret = guard.begun_codes.get(asks.person_id)
    if secret is None:
        raise AskedWrongError(409, "Begin again: the picture is too old.")
    await asyncio.to_thread(guard.accounts.keep_totp, asks.person_id, secret)
    fits = await asyncio.to_thread(code_fits, guard.accounts, asks.person_id, secret, text_in(asked, "code", 40))
    if not fits:
        await asyncio.to_thread(guard.accounts.keep_totp, asks.person_id, None)
        raise AskedWrongError(422, "This code is not right: look at the clock of the phone, and type the next one.")
    del guard.begun_codes[asks.person_id]
    paper = codes_on_paper()
    digests = [digest_of_code(each) for each in paper]
    await asyncio.to_thread(guard.accounts.keep_codes, asks.person_id, RECOVERY, digests)
    await guard.note(request, "codes asked from now on")
    return answer({"codes": paper}, 201)


async def _no_codes(request: Request) -> Response:
    asks, guard, asked = _asks(), guard_of(request), await sent(request)
    await _prove_again(request, asks, text_in(asked, "now", _PASSWORD_SENT_MAX, default=""))
    await asyncio.to_thread(guard.accounts.keep_totp, asks.person_id, None)
    await asyncio.to_thread(guard.accounts.keep_codes, asks.person_id, RECOVERY, ())
    await guard.note(request, "codes no more")
    return answer({"has_codes": False})


async def _passkey_asked(request: Request) -> Response:
    asks, guard = _asks(), guard_of(request)
    person = await asyncio.to_thread(guard.accounts.person, asks.person_id)
    known = await asyncio.to_thread(guard.accounts.passkeys, asks.person_id)
    who = (person.sign_in, person.name)
    return answer(guard.passkeys.to_make(request, f"you {asks.person_id}", who, known))


async def _add_passkey(request: Request) -> Response:
    asks, guard, asked = _asks(), guard_of(request), await sent(request)
    made = await asyncio.to_thread(guard.passkeys.made, request, f"you {asks.person_id}", asked.get("credential"))
    name = text_in(asked, "name", 60, default="") or "Passkey"
    try:
        kept = await asyncio.to_thread(
            guard.accounts.add_passkey, asks.person_id, made.credential, made.public_key, made.count, name
        )
    except ValueError as known:
        raise AskedWrongError(409, "This passkey is kept already.") from known
    await guard.note(request, "passkey added", {"passkey": kept.id})
    return answer({"id": kept.id}, 201)


async def _remove_passkey(request: Request) -> Response:
    """Delete a passkey; the last way to sign in stays."""
    asks, accounts = _asks(), guard_of(request).accounts
    passkey = name_in(request.path_params["passkey"])
    left = [each for each in await asyncio.to_thread(accounts.passkeys, asks.person_id) if each.id != passkey]
    if not left and await asyncio.to_thread(accounts.password_digest, asks.person_id) is None:
        raise AskedWrongError(409, "Set a password first: without this passkey you could not sign in any more.")
    if not await asyncio.to_thread(accounts.remove_passkey, asks.person_id, passkey):
        raise AskedWrongError(404, "There is no such passkey.")
    await guard_of(request).note(request, "passkey deleted", {"passkey": passkey})
    return answer({"deleted": True})


async def _end_device(request: Request) -> Response:
    asks, accounts = _asks(), guard_of(request).accounts
    device = name_in(request.path_params["device"])
    if not await asyncio.to_thread(accounts.end_sign_in, device, asks.person_id):
        raise AskedWrongError(404, "There is no such device.")
    await guard_of(request).note(request, "device signed out", {"device": device})
    return answer({"ended": 1})


async def _end_others(request: Request) -> Response:
    asks, accounts = _asks(), guard_of(request).accounts
    ended = await asyncio.to_thread(accounts.end_sign_ins, asks.person_id, asks.sign_in_id)
    await guard_of(request).note(request, "other devices signed out", {"ended": ended})
    return answer({"ended": ended})


async def _firm(request: Request) -> Response:
    """Let this device work in another firm of the person."""
    asks, accounts = _asks(), guard_of(request).accounts
    firm_id = name_in(text_in(await sent(request), "firm", 64))
    if asks.sign_in_id is None:
        raise AskedWrongError(403, WRONG)
    try:
        await asyncio.to_thread(accounts.switch_firm, asks.sign_in_id, firm_id)
    except UnknownPerson as unknown:
        raise AskedWrongError(404, "You do not belong to such a firm.") from unknown
    return answer({"firm": firm_id})


ROUTES = (
    Route("/api/you", _you, methods=["GET"]),
    Route("/api/you/password", _password, methods=["POST"]),
    Route("/api/you/codes/begun", _begin_codes, methods=["POST"]),
    Route("/api/you/codes", _codes, methods=["POST"]),
    Route("/api/you/codes", _no_codes, methods=["DELETE"]),
    Route("/api/you/passkeys/asked", _passkey_asked, methods=["POST"]),
    Route("/api/you/passkeys", _add_passkey, methods=["POST"]),
    Route("/api/you/passkeys/{passkey}", _remove_passkey, methods=["DELETE"]),
    Route("/api/you/devices/{device}", _end_device, methods=["DELETE"]),
    Route("/api/you/devices", _end_others, methods=["DELETE"]),
    Route("/api/you/firm", _firm, methods=["POST"]),
)
