"""Jobs: list, open, keep, put away, revisions."""

from __future__ import annotations

import asyncio
import json
from typing import TYPE_CHECKING

from starlette.routing import Route

from pavewright.desk import demo_document, like_document, starter_document
from pavewright.job import strict_json, up_to_date
from pavewright.store import NotDeletedError, StaleRevision, read_back
from pavewright.web._answers import AskedWrongError, answer, answer_bytes, document_in, name_in, sent, text_in, whole_in
from pavewright.web._signed_in import names_of, store_of
from pavewright.web._told import by_whom, clashes_of, told_of, writing_of_the_firm

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

_REV_DIGITS = 10
"""Digits of a revision that an address may hold. [characters]"""


async def _new(request: Request) -> Response:
    store = store_of(request)
    asked = await sent(request)
    if "copy_of" in asked:
        kept = await asyncio.to_thread(store.job, name_in(text_in(asked, "copy_of", 64)))
        document, note = _copied(kept.document), "copied"
    elif "like" in asked:
        kept = await asyncio.to_thread(store.job, name_in(text_in(asked, "like", 64)))
        document, note = _like(kept.document, text_in(asked, "title", 200, default="New job")), "like another job"
    elif "document" in asked:
        document, note = document_in(asked), "brought in"
    elif "template" in asked:
        found = await asyncio.to_thread(store.views.template, name_in(text_in(asked, "template", 64)))
        document, note = _like(found.document, text_in(asked, "title", 200, default="New job")), "from a template"
    elif asked.get("start_from") == "demo":
        document, note = demo_document().decode(), "demo"
    else:
        title = text_in(asked, "title", 200, default="New job")
        book = await asyncio.to_thread(store.firm.book)
        document, note = starter_document(title, book.document), "new job"
    key = name_in(text_in(asked, "key", 64)) if "key" in asked else None
    kept = await asyncio.to_thread(store.add, document, note, key)
    return answer({"id": kept.id, "rev": kept.rev}, 201)


def _like(document: str, title: str) -> str:
    """Return a new document like another one, of as much as can be read of that."""
    job = read_back(document).document
    if job is None:
        raise AskedWrongError(422, "This job cannot be read as it was kept: open it and go back to a revision first.")
    return like_document(job, title)


def _copied(document: str) -> str:
    """Return a document whose title says that it is a copy, of as much as can be read."""
    job = read_back(document).document
    if job is None:
        raise AskedWrongError(422, "This job cannot be read as it was kept: open it and go back to a revision first.")
    identity = job.get("identity")
    if isinstance(identity, dict) and isinstance(identity.get("title"), str):
        identity["title"] = f"Copy of {identity['title']}"[:200]
    return json.dumps(job, ensure_ascii=False, indent=1)


async def _open(request: Request) -> Response:
    store = store_of(request)
    kept = await asyncio.to_thread(store.job, name_in(request.path_params["job"]))
    clashes = await asyncio.to_thread(clashes_of, store, kept.id)
    asked = request.query_params
    if asked.get("known") == str(kept.rev) and asked.get("clashes") == str(len(clashes)):
        return answer({"rev": kept.rev, "same": True})
    writing = await asyncio.to_thread(writing_of_the_firm, store)
    told = {"id": kept.id, "rev": kept.rev, "archived": kept.archived, "clashes": clashes, "writing": writing}
    known = asked.get("known", "")
    if known.isascii() and known.isdecimal() and len(known) <= _REV_DIGITS:
        told["by"] = await asyncio.to_thread(by_whom, request, kept.id, int(known), kept.rev)
    return answer(told | told_of(kept.document))


async def _brought_up(request: Request) -> Response:
    """Answer with a document in the present version: a browser may hold one that it wrote before an update."""
    document = strict_json(document_in(await sent(request)))
    assert isinstance(document, dict)  # noqa: S101 - document_in takes nothing else
    return answer({"document": up_to_date(document)})


async def _save(request: Request) -> Response:
    store = store_of(request)
    job_id = name_in(request.path_params["job"])
    asked = await sent(request)
    document = document_in(asked)
    rev, note = whole_in(asked, "rev"), text_in(asked, "note", 200, default="")
    key = name_in(text_in(asked, "key", 64)) if "key" in asked else None
    try:
        now = await asyncio.to_thread(store.save, job_id, rev, document, note, key)
    except StaleRevision as stale:
        theirs = stale.kept
        return answer(
            {
                "message": "This job was changed elsewhere meanwhile. Nothing is lost: choose which version holds.",
                "rev": theirs.rev,
            }
            | told_of(theirs.document),
            409,
        )
    return answer({"rev": now})


async def _put_away(request: Request) -> Response:
    store = store_of(request)
    asked = await sent(request)
    archived = asked.get("archived")
    if not isinstance(archived, bool):
        raise AskedWrongError(400, "archived is to be true or false.")
    await asyncio.to_thread(store.put_away, name_in(request.path_params["job"]), archived=archived)
    return answer({"archived": archived})


async def _delete(request: Request) -> Response:
    """Delete a job so that it can be brought back, or bring it back."""
    store = store_of(request)
    deleted, job_id = (await sent(request)).get("deleted"), name_in(request.path_params["job"])
    if not isinstance(deleted, bool):
        raise AskedWrongError(400, "deleted is to be true or false.")
    await asyncio.to_thread(store.deleted.put if deleted else store.deleted.bring_back, job_id)
    return answer({"deleted": deleted})


async def _remove(request: Request) -> Response:
    """Remove a deleted job for good."""
    store = store_of(request)
    try:
        await asyncio.to_thread(store.deleted.remove, name_in(request.path_params["job"]))
    except NotDeletedError as refused:
        raise AskedWrongError(409, str(refused)) from refused
    return answer({"removed": True})


async def _revisions(request: Request) -> Response:
    store = store_of(request)
    job_id = name_in(request.path_params["job"])
    await asyncio.to_thread(store.job, job_id)
    found = await asyncio.to_thread(store.revisions, job_id)
    who = await asyncio.to_thread(names_of, request, [one.who for one in found])
    told = [{"rev": one.rev, "at": one.at, "note": one.note, "who": who.get(one.who, "")} for one in found]
    return answer({"revisions": told})


async def _revision(request: Request) -> Response:
    store = store_of(request)
    rev = request.path_params["rev"]
    if not 0 < rev < 2**31:
        raise AskedWrongError(404, "There is no such revision.")
    one = await asyncio.to_thread(store.revision, name_in(request.path_params["job"]), rev)
    return answer({"rev": one.rev, "at": one.at, "note": one.note} | told_of(one.document))


async def _export(request: Request) -> Response:
    store = store_of(request)
    job_id = name_in(request.path_params["job"])
    kept = await asyncio.to_thread(store.job, job_id)
    return answer_bytes(kept.document.encode(), name=f"job-{job_id}.json")


ROUTES = (
    Route("/api/jobs", _new, methods=["POST"]),
    Route("/api/documents/up-to-date", _brought_up, methods=["POST"]),
    Route("/api/jobs/{job}", _open, methods=["GET"]),
    Route("/api/jobs/{job}", _save, methods=["PUT"]),
    Route("/api/jobs/{job}", _remove, methods=["DELETE"]),
    Route("/api/jobs/{job}/deleted", _delete, methods=["POST"]),
    Route("/api/jobs/{job}/archived", _put_away, methods=["POST"]),
    Route("/api/jobs/{job}/revisions", _revisions, methods=["GET"]),
    Route("/api/jobs/{job}/revisions/{rev:int}", _revision, methods=["GET"]),
    Route("/api/jobs/{job}/document.json", _export, methods=["GET"]),
)
