"""A new password by a link that an owner hands over."""

from __future__ import annotations

import asyncio
import datetime as dt
from typing import TYPE_CHECKING

from starlette.responses import RedirectResponse
from starlette.routing import Route

from pavewright.people import password_fault, password_strength
from pavewright.web._answers import answer, sent, text_in
from pavewright.web.sign_in._forms import NO_STORE, Form, closed_page, fields_of, page_of
from pavewright.web.sign_in._guard import first_firm_of, guard_of
from pavewright.web.sign_in._keys import RECOVERY, RESET, digest_of
from pavewright.web.sign_in._sign_in_words import PASSWORD_FAULTS, STRENGTHS

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response


_LOOKED_AT_MAX = 1_000


async def _password_shown(request: Request) -> Response:
    token, guard = str(request.path_params["token"])[:200], guard_of(request)
    person_id = await asyncio.to_thread(guard.accounts.person_of_code, RESET, digest_of(token))
    if person_id is None:
        return closed_page()
    person = await asyncio.to_thread(guard.accounts.person, person_id)
    return page_of(Form("password", "Choose a new password", f"/new-password/{token}", sign_in=person.sign_in))


async def _password(request: Request) -> Response:
    """Keep a new password; every device of the person signs in anew."""
    token, guard = str(request.path_params["token"])[:200], guard_of(request)
    accounts, fields, digest = guard.accounts, await fields_of(request), digest_of(token)
    person_id = await asyncio.to_thread(accounts.person_of_code, RESET, digest)
    if person_id is None:
        return closed_page()
    person = await asyncio.to_thread(accounts.person, person_id)
    fault = await asyncio.to_thread(password_fault, fields.get("password", ""), person.sign_in)
    if fault is not None:
        title, said = "Choose a new password", PASSWORD_FAULTS[fault]
        return page_of(Form("password", title, f"/new-password/{token}", said=said, sign_in=person.sign_in), 422)
    kept = await guard.passwords.digest(fields["password"])
    if not await asyncio.to_thread(accounts.use_code, person_id, RESET, digest):
        return closed_page()
    await asyncio.to_thread(accounts.keep_password, person_id, kept)
    # the phone that made the codes may be lost too: who handed the link over knows the person
    await asyncio.to_thread(accounts.keep_totp, person_id, None)
    await asyncio.to_thread(accounts.keep_codes, person_id, RECOVERY, ())
    await asyncio.to_thread(accounts.end_sign_ins, person_id)
    firm_id = await asyncio.to_thread(first_firm_of, guard, person_id)
    await guard.note(request, "password changed", {"way": "link"}, firm_id, person_id)
    return RedirectResponse("/sign-in", 303, headers=NO_STORE)


async def _strength(request: Request) -> Response:
    """Answer with how long a password stands that somebody is choosing; nothing of it is kept."""
    asked = await sent(request)
    password, sign_in = text_in(asked, "password", _LOOKED_AT_MAX), text_in(asked, "sign_in", 60, default="")
    fault = await asyncio.to_thread(password_fault, password, sign_in)
    found = await asyncio.to_thread(password_strength, password, sign_in)
    return answer({"strength": found, "said": PASSWORD_FAULTS[fault] if fault else STRENGTHS[found]})


def link_holds_until(days: float) -> dt.datetime:
    """Return until when a link that is handed over holds."""
    return dt.datetime.now(dt.UTC) + dt.timedelta(days=days)


PASSWORD_ROUTES = (
    Route("/api/password-strength", _strength, methods=["POST"]),
    Route("/new-password/{token}", _password_shown, methods=["GET"]),
    Route("/new-password/{token}", _password, methods=["POST"]),
)
