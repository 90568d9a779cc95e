"""Whether those who listen may still do so: asked for all of them together, every few seconds."""

from __future__ import annotations

import asyncio
from typing import TYPE_CHECKING

from pavewright.people import Right, Role, rights_of

if TYPE_CHECKING:
    from collections.abc import Collection

    from pavewright.store import Accounts, Installation, Member
    from pavewright.web._who_asks import SignedIn
    from pavewright.web.live._listener import Listener
    from pavewright.web.sign_in import Guard


async def out_by_now(listeners: Collection[Listener], installed: Installation, guard: Guard) -> list[Listener]:
    """Return those who may not listen any more as they did: signed out, withdrawn, in another firm, other rights."""
    if not listeners:
        return []
    signs_in = await guard.anybody()
    return await asyncio.to_thread(_out, listeners, installed, signs_in)


def _out(listeners: Collection[Listener], installed: Installation, signs_in: bool) -> list[Listener]:  # noqa: FBT001
    asks = {each.whose.asks for each in listeners if each.whose.asks is not None}
    still = _still(installed.accounts, asks)
    devices = {each.whose.device_id for each in listeners} - {None}
    paired = {each.id for each in installed.first.devices.all()} if devices else set()
    return [
        each
        for each in listeners
        if (each.whose.asks not in still if each.whose.asks is not None else signs_in)
        or (each.whose.device_id is not None and each.whose.device_id not in paired)
    ]


def _still(accounts: Accounts, asks: Collection[SignedIn]) -> set[SignedIn]:
    """Return those who are signed in as they were."""
    devices = [each.sign_in_id for each in asks if each.sign_in_id is not None]
    programs = [each.token_id for each in asks if each.token_id is not None]
    signed = accounts.still_signed_in(devices) if devices else {}
    tokens = accounts.still_open(programs) if programs else {}
    found: set[SignedIn] = set()
    for each in asks:
        member = signed.get(each.sign_in_id or "")
        rights = frozenset[Right]() if member is None else _rights(member)
        if each.token_id in tokens:
            token, member = tokens[each.token_id]
            rights = frozenset(right for right in _rights(member) if right.value in token.scopes)
        if member is not None and member.firm_id == each.firm_id and rights == each.rights:
            found.add(each)
    return found


def _rights(member: Member) -> frozenset[Right]:
    return rights_of(Role(member.role), member.grants)
