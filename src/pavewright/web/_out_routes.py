"""What is kept of a person or of the firm, handed out as a file; and a person erased."""

from __future__ import annotations

import asyncio
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

from starlette.background import BackgroundTask
from starlette.responses import FileResponse
from starlette.routing import Route

from pavewright.people import Role
from pavewright.store import LastOneError, UnknownPerson, still_named
from pavewright.store.handed_out import hand_out_firm, hand_out_person
from pavewright.web._answers import AskedWrongError, answer, name_in, sent, text_in
from pavewright.web._out_words import WORDS
from pavewright.web._signed_in import accounts_of, firms_of
from pavewright.web._who_asks import firm_at_hand

if TYPE_CHECKING:
    from collections.abc import Callable

    from starlette.requests import Request
    from starlette.responses import Response

    from pavewright.store import Person

_NAME_MAX = 200


async def _person_out(request: Request) -> Response:
    """Answer with all that is kept of somebody, without secrets and without anybody else."""
    person = await _own_alone(request)
    installed = firms_of(request).installed
    return await _zip(request, "person.zip", lambda target: hand_out_person(installed, person.id, target))


async def _firm_out(request: Request) -> Response:
    """Answer with all that is kept of the firm in open formats, without secrets and without any other firm."""
    installed, firm_id = firms_of(request).installed, _firm_id(request)
    return await _zip(request, "firm.zip", lambda target: hand_out_firm(installed, firm_id, target))


async def _zip(request: Request, name: str, write: Callable[[Path], object]) -> Response:
    """Answer with a file that is written beside and deleted once it was sent; one at a time is made."""
    if request.headers.get("sec-fetch-site", "same-origin") not in {"same-origin", "none"}:
        raise AskedWrongError(403, WORDS.from_elsewhere)
    one_at_a_time: asyncio.Lock = request.app.state.backing_up
    folder = tempfile.TemporaryDirectory(prefix="pavewright-out-")
    target = Path(folder.name) / name
    try:
        async with one_at_a_time:
            await asyncio.to_thread(write, target)
    except BaseException:
        folder.cleanup()
        raise
    return FileResponse(
        target,
        media_type="application/zip",
        filename=name,
        headers={"Cache-Control": "no-store"},
        background=BackgroundTask(folder.cleanup),
    )


async def _erase(request: Request) -> Response:
    """Erase a person whose name was typed again; answer where the name still stands in what the firm wrote itself."""
    person = await _own_alone(request)
    called = person.name or person.sign_in
    if text_in(await sent(request), "typed", _NAME_MAX, default="").strip() != called.strip():
        raise AskedWrongError(422, WORDS.typed_wrong(name=called))
    installed, firm_id = firms_of(request).installed, _firm_id(request)
    try:
        await asyncio.to_thread(lambda: installed.accounts.erase_person(person.id, keep_one=Role.OWNER.value))
    except LastOneError as last:
        raise AskedWrongError(409, WORDS.last_owner) from last
    found = await asyncio.to_thread(still_named, installed, (person.name, person.sign_in))
    left = [{"table": table, "rows": rows} for (firm, table), rows in found.items() if firm in {"", firm_id}]
    return answer({"erased": True, "left": left})


async def _own_alone(request: Request) -> Person:
    """Return somebody of this firm and of no other: one of several firms is not for the owner of one of them.

    Raises:
        AskedWrongError: there is nobody, or he belongs to another firm too.
    """
    accounts, person_id = accounts_of(request), name_in(request.path_params["person"])
    try:
        person = await asyncio.to_thread(accounts.person, person_id)
    except UnknownPerson as unknown:
        raise AskedWrongError(404, WORDS.nobody) from unknown
    firms = {each.firm_id for each in await asyncio.to_thread(accounts.memberships, person_id)}
    if _firm_id(request) not in firms:
        raise AskedWrongError(404, WORDS.nobody)
    if len(firms) > 1:
        raise AskedWrongError(409, WORDS.several)
    return person


def _firm_id(request: Request) -> str:
    return firm_at_hand() or firms_of(request).installed.first_id


ROUTES = (
    Route("/api/people/{person}/copy.zip", _person_out, methods=["GET"]),
    Route("/api/people/{person}/erased", _erase, methods=["POST"]),
    Route("/api/firm/copy.zip", _firm_out, methods=["GET"]),
)
