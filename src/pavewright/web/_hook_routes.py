"""Other programs that are told, their secrets and what was told; and the tokens by which programs come in."""

from __future__ import annotations

import asyncio
import contextlib
import datetime as dt
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from starlette.routing import Route

from pavewright.store import Event, StoreTroubleError, UnknownHookError, UnknownPerson
from pavewright.web._answers import AskedWrongError, answer, name_in, sent, text_in
from pavewright.web._hook_sender import AddressRefusedError, checked_address, send
from pavewright.web._signed_in import accounts_of, firms_of, store_of
from pavewright.web._who_asks import SIGNED_IN, firm_at_hand

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

    from pavewright.store import Store
    from pavewright.web._firms import Firms

_LOOK_S = 5.0
"""How often it is looked whether something is to be told. [s]"""
_HOOKS_MAX, _TOKENS_MAX, _DAYS_MAX = 20, 50, 3_650
_NAME_MAX, _ADDRESS_MAX = 80, 500
_NOBODY = "Tokens belong to people: enter the first person under People."
_NO_HOOK = "There is no such address here."


async def tell_others(firms: Firms) -> None:
    """Tell what is to be told, again and again, for every firm that was used; never on the way of an answer."""
    while True:
        for store in firms.seen():
            with contextlib.suppress(StoreTroubleError):
                await asyncio.to_thread(told_once, store)
        await asyncio.sleep(_LOOK_S)


def told_once(store: Store) -> int:
    """Tell what is due of one firm and claimed by no other server, and return how many messages were tried."""
    tried = 0
    for due in store.hooks.due():
        if not store.hooks.claim(due):
            continue
        done = send(due)
        store.hooks.tried(due, done.told, delivered=done.delivered)
        tried += 1
    return tried


async def _hooks(request: Request) -> Response:
    found = await asyncio.to_thread(store_of(request).hooks.all)
    return answer({"hooks": [asdict(each) for each in found], "events": [each.value for each in Event]})


async def _add_hook(request: Request) -> Response:
    """Keep an address; its secret is answered here and never again."""
    asked, hooks = await sent(request), store_of(request).hooks
    name, address = text_in(asked, "name", _NAME_MAX).strip(), text_in(asked, "address", _ADDRESS_MAX).strip()
    if not name:
        raise AskedWrongError(400, "name is to say whose address it is.")
    try:
        checked_address(address)
    except AddressRefusedError as refusal:
        raise AskedWrongError(422, str(refusal)) from refusal
    if len(await asyncio.to_thread(hooks.all)) >= _HOOKS_MAX:
        raise AskedWrongError(422, f"No more than {_HOOKS_MAX} addresses are told.")
    hook, secret = await asyncio.to_thread(hooks.add, name, address, _events(asked.get("events")))
    return answer({"hook": asdict(hook), "secret": secret}, 201)


def _events(given: Any) -> list[Event]:  # noqa: ANN401 - as it was sent
    known = {each.value: each for each in Event}
    if not isinstance(given, list) or not given or not all(isinstance(each, str) and each in known for each in given):
        raise AskedWrongError(400, f"events is to be a list of {', '.join(known)}.")
    return [known[each] for each in given]


async def _hook_done(request: Request, what: str, *names: str) -> Any:  # noqa: ANN401 - what the store answers
    wanted = [name_in(request.path_params[name]) for name in names]
    try:
        return await asyncio.to_thread(getattr(store_of(request).hooks, what), *wanted)
    except UnknownHookError:
        raise AskedWrongError(404, _NO_HOOK) from None


async def _remove_hook(request: Request) -> Response:
    await _hook_done(request, "remove", "hook")
    return answer({"removed": True})


async def _rotate(request: Request) -> Response:
    """Make a new secret; the one before signs too until the rotation is ended."""
    return answer({"secret": await _hook_done(request, "rotate", "hook")}, 201)


async def _end_rotation(request: Request) -> Response:
    await _hook_done(request, "end_rotation", "hook")
    return answer({"rotating": False})


async def _messages(request: Request) -> Response:
    await _hook_done(request, "hook", "hook")
    found = await _hook_done(request, "messages", "hook")
    return answer({"messages": [asdict(each) for each in found]})


async def _again(request: Request) -> Response:
    await _hook_done(request, "again", "hook", "message")
    return answer({"state": "waiting"})


def _firm_id(request: Request) -> str:
    return firm_at_hand() or firms_of(request).installed.first_id


async def _tokens(request: Request) -> Response:
    found = await asyncio.to_thread(accounts_of(request).tokens, _firm_id(request))
    asks = SIGNED_IN.get()
    rights = sorted(right.value for right in (asks.rights if asks is not None else ()))
    return answer({"tokens": [asdict(each) for each in found], "scopes": rights})


async def _make_token(request: Request) -> Response:
    """Make a token of who asks, with no more than what he or she may do; it is answered here and never again."""
    asks, asked = SIGNED_IN.get(), await sent(request)
    if asks is None:
        raise AskedWrongError(409, _NOBODY)
    name, scopes = text_in(asked, "name", _NAME_MAX).strip(), asked.get("scopes")
    known = {right.value for right in asks.rights}
    if not name:
        raise AskedWrongError(400, "name is to say which program it is for.")
    if (
        not isinstance(scopes, list)
        or not scopes
        or not all(isinstance(each, str) and each in known for each in scopes)
    ):
        raise AskedWrongError(400, f"scopes is to be a list of {', '.join(sorted(known))}.")
    accounts, firm_id = accounts_of(request), _firm_id(request)
    if len(await asyncio.to_thread(accounts.tokens, firm_id)) >= _TOKENS_MAX:
        raise AskedWrongError(422, f"A firm has no more than {_TOKENS_MAX} tokens: withdraw some first.")
    until = _until(asked.get("days"))
    try:
        made, token = await asyncio.to_thread(accounts.make_token, firm_id, asks.person_id, name, scopes, until)
    except UnknownPerson:
        raise AskedWrongError(409, _NOBODY) from None
    return answer({"made": asdict(made), "token": token}, 201)


def _until(days: Any) -> dt.datetime | None:  # noqa: ANN401 - as it was sent
    if days is None:
        return None
    if not isinstance(days, int) or isinstance(days, bool) or not 0 < days <= _DAYS_MAX:
        raise AskedWrongError(400, f"days is to be a whole number up to {_DAYS_MAX}, or left out.")
    return dt.datetime.now(dt.UTC) + dt.timedelta(days=days)


async def _withdraw_token(request: Request) -> Response:
    token_id = name_in(request.path_params["token"])
    if not await asyncio.to_thread(accounts_of(request).withdraw_token, _firm_id(request), token_id):
        raise AskedWrongError(404, "There is no such token.")
    return answer({"withdrawn": True})


ROUTES = (
    Route("/api/hooks", _hooks, methods=["GET"]),
    Route("/api/hooks", _add_hook, methods=["POST"]),
    Route("/api/hooks/{hook}", _remove_hook, methods=["DELETE"]),
    Route("/api/hooks/{hook}/secret", _rotate, methods=["POST"]),
    Route("/api/hooks/{hook}/secret/before", _end_rotation, methods=["DELETE"]),
    Route("/api/hooks/{hook}/messages", _messages, methods=["GET"]),
    Route("/api/hooks/{hook}/messages/{message}/again", _again, methods=["POST"]),
    Route("/api/tokens", _tokens, methods=["GET"]),
    Route("/api/tokens", _make_token, methods=["POST"]),
    Route("/api/tokens/{token}", _withdraw_token, methods=["DELETE"]),
)
"""Routes of other programs."""
