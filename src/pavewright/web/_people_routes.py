"""People of the firm: the first owner, invitations by link, roles, new passwords by link, and who did what."""

from __future__ import annotations

import asyncio
import secrets
from typing import TYPE_CHECKING, Any

from starlette.routing import Route

from pavewright.people import GRANTS, Right, Role
from pavewright.store import LastOneError, UnknownPerson
from pavewright.web._answers import AskedWrongError, answer, name_in, sent, text_in
from pavewright.web._door import DEVICE
from pavewright.web._signed_in import CUSTOMER_BY, accounts_of, firms_of, store_of
from pavewright.web._who_asks import SIGNED_IN, firm_at_hand
from pavewright.web.sign_in._guard import guard_of
from pavewright.web.sign_in._keys import RESET, digest_of
from pavewright.web.sign_in._password_routes import link_holds_until

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

    from pavewright.store import AuditEntry, Member

_LAST_OWNER = "A firm has at least one owner: make somebody else an owner first."
_NOBODY = "There is no such person in the firm."
_PAGE = 100
_INVITATION_DAYS, _PASSWORD_DAYS = 7, 1
_OPEN_MAX = 50


def _firm_id(request: Request) -> str:
    return firm_at_hand() or firms_of(request).installed.first_id


async def _listed(request: Request) -> Response:
    """Answer with who belongs to the firm, and the invitations that are open."""
    accounts, firm_id = accounts_of(request), _firm_id(request)
    people = await asyncio.to_thread(accounts.people, firm_id)
    asks = SIGNED_IN.get()
    found = await asyncio.to_thread(accounts.invitations, firm_id)
    open_ones = [each for each in found if each.used is None and each.withdrawn is None]
    firm = await asyncio.to_thread(accounts.firm, firm_id)
    return answer(
        {
            "firm": firm.name,
            "anybody": bool(people),
            "here": DEVICE.get() is None,
            "roles": [each.value for each in Role],
            "grants": sorted(each.value for each in GRANTS),
            "people": [_told(each, asks.person_id if asks else "") for each in people],
            "invitations": [
                {"id": each.id, "name": each.name, "role": each.role, "made": each.made, "expires": each.expires}
                for each in open_ones
            ],
        }
    )


def _told(member: Member, own: str) -> dict[str, Any]:
    who = member.person
    told = {"id": who.id, "name": who.name, "sign_in": who.sign_in, "since": member.since, "you": who.id == own}
    return told | {"role": member.role, "grants": list(member.grants), "crew_name": member.crew_name}


async def _first(request: Request) -> Response:
    """Answer with the link for the first owner; only on this machine, and only while nobody was entered."""
    guard = guard_of(request)
    if await guard.anybody():
        raise AskedWrongError(409, "Somebody was entered already: an owner invites the others.")
    if DEVICE.get() is not None:
        raise AskedWrongError(403, "The first owner is entered on the machine where pavewright runs.")
    name = text_in(await sent(request), "name", 60)
    link = await _invited(request, name, Role.OWNER, ())
    return answer({"link": link}, 201)


async def _invite(request: Request) -> Response:
    asked = await sent(request)
    role, grants = _role_in(asked), _grants_in(asked)
    if not await guard_of(request).anybody():
        raise AskedWrongError(409, "Enter the first owner first.")
    accounts, firm_id = accounts_of(request), _firm_id(request)
    found = await asyncio.to_thread(accounts.invitations, firm_id)
    if sum(each.used is None and each.withdrawn is None for each in found) >= _OPEN_MAX:
        raise AskedWrongError(429, f"{_OPEN_MAX} invitations are open: withdraw some first.")
    link = await _invited(request, text_in(asked, "name", 60, default=""), role, grants)
    return answer({"link": link}, 201)


async def _invited(request: Request, name: str, role: Role, grants: tuple[str, ...]) -> str:
    """Keep an invitation and return the address that opens it."""
    asks, firm_id = SIGNED_IN.get(), _firm_id(request)
    made, token = await asyncio.to_thread(
        lambda: accounts_of(request).invite(
            firm_id,
            role=role.value,
            by=asks.person_id if asks else "",
            expires=link_holds_until(_INVITATION_DAYS),
            grants=grants,
            name=name,
        )
    )
    await guard_of(request).note(request, "invited", {"role": role.value, "invitation": made.id}, firm_id)
    return f"/join/{token}"


async def _withdraw(request: Request) -> Response:
    invitation = name_in(request.path_params["invitation"])
    if not await asyncio.to_thread(accounts_of(request).withdraw_invitation, _firm_id(request), invitation):
        raise AskedWrongError(404, "There is no such invitation.")
    await guard_of(request).note(request, "invitation withdrawn", {"invitation": invitation})
    return answer({"withdrawn": True})


async def _change(request: Request) -> Response:
    """Change what somebody may do; what he has open is held to it at once."""
    person, asked = name_in(request.path_params["person"]), await sent(request)
    role, grants = _role_in(asked), _grants_in(asked)
    crew_name = text_in(asked, "crew_name", 60, default="") or None
    accounts, firm_id = accounts_of(request), _firm_id(request)
    try:
        await asyncio.to_thread(
            lambda: accounts.change_member(
                person, firm_id, role=role.value, grants=grants, crew_name=crew_name, keep_one=Role.OWNER.value
            )
        )
    except UnknownPerson as unknown:
        raise AskedWrongError(404, _NOBODY) from unknown
    except LastOneError as last:
        raise AskedWrongError(409, _LAST_OWNER) from last
    facts = {"person": person, "role": role.value, "grants": list(grants)}
    await guard_of(request).note(request, "role changed", facts)
    return answer({"role": role.value, "grants": list(grants)})


async def _end(request: Request) -> Response:
    """Let somebody belong to the firm no more: what he has open there ends at once."""
    person, accounts = name_in(request.path_params["person"]), accounts_of(request)
    try:
        await asyncio.to_thread(lambda: accounts.end_member(person, _firm_id(request), keep_one=Role.OWNER.value))
    except UnknownPerson as unknown:
        raise AskedWrongError(404, _NOBODY) from unknown
    except LastOneError as last:
        raise AskedWrongError(409, _LAST_OWNER) from last
    await guard_of(request).note(request, "membership ended", {"person": person})
    return answer({"ended": True})


async def _new_password(request: Request) -> Response:
    """Answer with a link by which somebody chooses a new password, to be handed over in person."""
    person, accounts = name_in(request.path_params["person"]), accounts_of(request)
    joined = await asyncio.to_thread(accounts.memberships, person)
    if _firm_id(request) not in {each.firm_id for each in joined}:
        raise AskedWrongError(404, _NOBODY)
    if len(joined) > 1:
        # an owner of one firm would open another one with it
        raise AskedWrongError(409, "He belongs to several firms: the command pavewright people makes this link.")
    token = secrets.token_urlsafe(32)
    await asyncio.to_thread(accounts.keep_codes, person, RESET, (digest_of(token),), link_holds_until(_PASSWORD_DAYS))
    await guard_of(request).note(request, "link for a new password", {"person": person})
    return answer({"link": f"/new-password/{token}"}, 201)


async def _audit(request: Request) -> Response:
    """Answer with who did what, the last first; owners of the first firm see what is of no firm among it."""
    accounts, firm_id = accounts_of(request), _firm_id(request)
    before = request.query_params.get("before", "")
    number = int(before) if before.isascii() and before.isdigit() and len(before) < _DIGITS_MAX else None
    found = await asyncio.to_thread(
        lambda: accounts.audit_entries(firm_id, number, _PAGE, with_none=_is_of_installation(request))
    )
    links = [str(each.facts["link"]) for each in found if each.person_id is None and "link" in each.facts]
    numbers = await asyncio.to_thread(store_of(request).quotations.numbers, links) if links else {}
    known = {each.person.id: each.person.name for each in await asyncio.to_thread(_of_firm, request)}
    return answer(
        {
            "entries": [
                {
                    "number": each.number,
                    "at": each.at,
                    "code": each.code,
                    "who": known.get(each.person_id or "", "") or _customer(each, numbers),
                    "whom": known.get(str(each.facts.get("person", "")), ""),
                    "facts": each.facts,
                    "address": each.address,
                    "of_firm": each.firm_id is not None,
                }
                for each in found
            ],
            "more": len(found) == _PAGE,
        }
    )


def _customer(entry: AuditEntry, numbers: dict[str, int]) -> str:
    """Return what a customer is called who did something by his link; empty where it was none."""
    number = numbers.get(str(entry.facts.get("link", ""))) if entry.person_id is None else None
    return "" if number is None else CUSTOMER_BY(number=number)


def _is_of_installation(request: Request) -> bool:
    """Return whether who asks is an owner of the first firm: whose the installation is."""
    asks = SIGNED_IN.get()
    is_owner = asks is None or (asks.role is Role.OWNER and asks.token_id is None)
    return is_owner and _firm_id(request) == firms_of(request).installed.first_id


_DIGITS_MAX = 18


def _of_firm(request: Request) -> tuple[Member, ...]:
    return accounts_of(request).people(_firm_id(request), ended=True)


def _role_in(asked: dict[str, Any]) -> Role:
    """Return the role that was sent.

    Raises:
        AskedWrongError: it is none.
    """
    try:
        return Role(text_in(asked, "role", 20))
    except ValueError:
        raise AskedWrongError(400, f"role is to be one of {', '.join(Role)}.") from None


def _grants_in(asked: dict[str, Any]) -> tuple[str, ...]:
    """Return the rights beyond the role that were sent.

    Raises:
        AskedWrongError: one of them is none that is granted.
    """
    found = asked.get("grants", [])
    if not isinstance(found, list) or not all(each in {right.value for right in GRANTS} for each in found):
        raise AskedWrongError(400, f"grants is to be a list of {', '.join(sorted(GRANTS))}.")
    return tuple(Right(each).value for each in dict.fromkeys(found))


ROUTES = (
    Route("/api/people", _listed, methods=["GET"]),
    Route("/api/people/first", _first, methods=["POST"]),
    Route("/api/people/invitations", _invite, methods=["POST"]),
    Route("/api/people/invitations/{invitation}", _withdraw, methods=["DELETE"]),
    Route("/api/people/{person}", _change, methods=["PUT"]),
    Route("/api/people/{person}", _end, methods=["DELETE"]),
    Route("/api/people/{person}/new-password", _new_password, methods=["POST"]),
    Route("/api/audit", _audit, methods=["GET"]),
)
