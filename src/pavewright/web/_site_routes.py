"""What the phone asks on site: the plan to take along, readings that arrive once, photos with a pin, the site sheet."""

from __future__ import annotations

import asyncio
import json
from typing import TYPE_CHECKING, Any

from starlette.responses import Response
from starlette.routing import Route

from pavewright.desk import DeliveryRefusedError, deliver_into, starter_document
from pavewright.store import Aside, DocumentRefusedError, KeyUsedError, UnknownJob
from pavewright.web._answers import AskedWrongError, answer, answer_bytes, name_in, sent, text_in, whole_in
from pavewright.web._money_hidden import look_at_money, shown_document
from pavewright.web._operation_routes import OPERATIONS, batch_in
from pavewright.web._signed_in import store_of
from pavewright.web._site_sheet import site_sheet
from pavewright.web._taking import file_of
from pavewright.web._told import clashes_of, told_of, writing_of_the_firm

if TYPE_CHECKING:
    from starlette.requests import Request

    from pavewright.store import Delivery, Store
    from pavewright.web._workers import Workers

_VIEW_S = 60.0
_PHOTO_S = 20.0
_AT_ONCE_MAX = 2000
"""Most deliveries of one site sheet."""
_PHOTOS_MAX = 500
"""Most photos of one job."""
_FARTHEST_MM = 1e7


async def _site_plan(request: Request) -> Response:
    """Answer with a job and what is needed of its plan on site, in one piece so that they belong together."""
    store = store_of(request)
    workers: Workers = request.app.state.workers
    kept = await asyncio.to_thread(store.job, name_in(request.path_params["job"]))
    view = await workers.ask_kept("plan", "site", shown_document(kept.document).encode(), seconds=_VIEW_S)
    clashes = await asyncio.to_thread(clashes_of, store, kept.id)
    writing = await asyncio.to_thread(writing_of_the_firm, store)
    told = {"id": kept.id, "rev": kept.rev, "clashes": clashes, "writing": writing} | told_of(kept.document)
    head = json.dumps(told).encode()
    return answer_bytes(head[:-1] + b"," + view[1:])


async def _site_water(request: Request) -> Response:
    """Answer with standing water as laid, which takes longer than the plan and is asked for by itself."""
    store = store_of(request)
    workers: Workers = request.app.state.workers
    kept = await asyncio.to_thread(store.job, name_in(request.path_params["job"]))
    told = await workers.ask_kept("plan", "site_water", shown_document(kept.document).encode(), seconds=_VIEW_S)
    return answer_bytes(json.dumps({"id": kept.id, "rev": kept.rev}).encode()[:-1] + b"," + told[1:])


async def _deliveries(request: Request) -> Response:
    """Take one delivery, or the deliveries of a site sheet each by itself."""
    store = store_of(request)
    job_id = name_in(request.path_params["job"])
    await asyncio.to_thread(store.job, job_id)
    asked = await sent(request)
    if "deliveries" not in asked:
        reported = await asyncio.to_thread(_deliver, store, job_id, asked)
        return answer(reported, 422 if reported["state"] == "refused" else 200)
    if asked.get("job", job_id) != job_id:
        raise AskedWrongError(409, "These readings were taken for another job: open that job and bring them in there.")
    listed = asked["deliveries"]
    if not isinstance(listed, list) or len(listed) > _AT_ONCE_MAX:
        raise AskedWrongError(400, f"deliveries is to be a list of no more than {_AT_ONCE_MAX}.")
    return answer({"results": [await asyncio.to_thread(_deliver, store, job_id, one) for one in listed]})


def _deliver(store: Store, job_id: str, delivery: Any) -> dict[str, Any]:  # noqa: ANN401 - as it was sent
    """Keep one delivery in one step of the database: with its name, or not at all."""
    if not isinstance(delivery, dict):
        return {"id": "", "state": "refused", "message": "A delivery is an object."}
    try:
        delivery_id = name_in(text_in(delivery, "id", 64))
    except AskedWrongError:
        return {"id": "", "state": "refused", "message": "A delivery needs an id of letters and figures."}
    body = json.dumps(delivery, ensure_ascii=True)
    try:
        if delivery.get("kind") == OPERATIONS:
            note = text_in(delivery, "note", 200, default="from site")
            batch = batch_in({"rev": 0} | delivery, delivery_id, "entries", note)
            look_at_money(store, job_id, batch.operations)
            done = store.deliver(delivery_id, job_id, body, batch, note)
        else:
            done = _deliver_readings(store, job_id, delivery_id, delivery, body)
    except AskedWrongError as refusal:
        return {"id": delivery_id, "state": "refused", "message": refusal.message}
    except (DeliveryRefusedError, DocumentRefusedError, KeyUsedError) as refusal:
        return {"id": delivery_id, "state": "refused", "message": str(refusal)}
    state = "repeated" if done.repeated else "kept"
    return {"id": delivery_id, "state": state, "rev": done.rev, "repeated": done.repeated}


def _deliver_readings(store: Store, job_id: str, delivery_id: str, delivery: dict[str, Any], body: str) -> Delivery:
    """Keep readings under the names that things have now, or beside the job where it cannot take them any more."""
    rev = whole_in({"rev": 0} | delivery, "rev")
    if rev and isinstance(delivery.get("entries"), list):
        following = store.operations.following(job_id, rev)
        entries = [following.entry(each) if isinstance(each, dict) else each for each in delivery["entries"]]
        delivery = delivery | {"entries": entries}
    kept = {name: delivery[name] for name in ("kind", "entries", "date") if name in delivery}
    aside = Aside(DeliveryRefusedError, rev, {"delivery": kept})
    note = f"from site: {delivery.get('kind')}"[:80]
    return store.deliver(
        delivery_id, job_id, body, lambda document: deliver_into(document, delivery), note, aside if rev else None
    )


async def _photos(request: Request) -> Response:
    store = store_of(request)
    job_id = name_in(request.path_params["job"])
    await asyncio.to_thread(store.job, job_id)
    found = await asyncio.to_thread(store.photos, job_id)
    reported = [
        {"id": one.id, "at": one.at, "note": one.note, "place": None if one.x_mm is None else [one.x_mm, one.y_mm]}
        for one in found
    ]
    return answer({"photos": reported})


async def _add_photo(request: Request) -> Response:
    """Keep a photo, once; its picture is the body, its name, note and place stand in the address."""
    store = store_of(request)
    workers: Workers = request.app.state.workers
    job_id = name_in(request.path_params["job"])
    await asyncio.to_thread(store.job, job_id)
    given = dict(request.query_params)
    photo_id, note = name_in(text_in(given, "id", 64)), text_in(given, "note", 300, default="")
    place = _place(given)
    known = await asyncio.to_thread(store.photos, job_id)
    if photo_id in {one.id for one in known}:
        return answer({"id": photo_id, "repeated": True})
    if len(known) >= _PHOTOS_MAX:
        raise AskedWrongError(422, f"This job has {_PHOTOS_MAX} photos already: delete some first.")
    clean = await workers.ask("quick", "photo", await file_of(request), seconds=_PHOTO_S)
    repeated = await asyncio.to_thread(store.add_photo, photo_id, job_id, clean, note, place)
    return answer({"id": photo_id, "repeated": repeated}, 200 if repeated else 201)


def _place(given: dict[str, str]) -> tuple[float, float] | None:
    """Return where a photo is pinned, None where it is not."""
    if "x_mm" not in given and "y_mm" not in given:
        return None
    try:
        x, y = float(given["x_mm"]), float(given["y_mm"])
    except (KeyError, ValueError) as problem:
        raise AskedWrongError(400, "x_mm and y_mm are to be numbers.") from problem
    if not (abs(x) <= _FARTHEST_MM and abs(y) <= _FARTHEST_MM):
        raise AskedWrongError(400, "x_mm and y_mm are to lie on the site.")
    return x, y


async def _photo(request: Request) -> Response:
    store = store_of(request)
    job_id, photo_id = name_in(request.path_params["job"]), name_in(request.path_params["photo"])
    try:
        image = await asyncio.to_thread(store.photo, job_id, photo_id)
    except UnknownJob as problem:
        raise AskedWrongError(404, "There is no such photo.") from problem
    return answer_bytes(image, "image/jpeg")


async def _remove_photo(request: Request) -> Response:
    store = store_of(request)
    job_id, photo_id = name_in(request.path_params["job"]), name_in(request.path_params["photo"])
    await asyncio.to_thread(store.job, job_id)
    await asyncio.to_thread(store.remove_photo, job_id, photo_id)
    return answer({"id": photo_id, "removed": True})


async def _sheet(request: Request) -> Response:
    """Answer with the site sheet: one file that needs no server."""
    store = store_of(request)
    workers: Workers = request.app.state.workers
    kept = await asyncio.to_thread(store.job, name_in(request.path_params["job"]))
    document, fields = shown_document(kept.document).encode(), told_of(kept.document)["document"] or {}
    reported = json.loads(await workers.ask_kept("plan", "site", document, seconds=_VIEW_S))
    if reported["view"] is None:  # no job can be read in it: readings are taken all the same
        unread = reported["faults"]
        identity = fields.get("identity")
        document = starter_document(str(identity.get("title", "")) if isinstance(identity, dict) else "").encode()
        fields = json.loads(document)
        reported = json.loads(await workers.ask_kept("plan", "site", document, seconds=_VIEW_S))
        reported["view"]["missing"] = [{"words": fault["message"]} for fault in unread]
    laid = reported["view"]["parts"]["laid"]
    if laid is not None and laid["is_read"]:
        laid["water"] = json.loads(await workers.ask_kept("plan", "site_water", document, seconds=_VIEW_S))["water"]
    drawings = {
        name: (await workers.ask_kept("plan", "drawing", name.encode() + b"\n" + document, seconds=_VIEW_S)).decode()
        for name in ("setting-out", "levels")
    }
    writing = await asyncio.to_thread(writing_of_the_firm, store)
    page = await asyncio.to_thread(site_sheet, kept, fields, reported["view"], drawings, writing)
    headers = {"Content-Disposition": f'attachment; filename="site-sheet-{kept.id}.html"', "Cache-Control": "no-store"}
    return Response(page, media_type="text/html; charset=utf-8", headers=headers)


ROUTES = (
    Route("/api/jobs/{job}/site-plan", _site_plan, methods=["GET"]),
    Route("/api/jobs/{job}/site-water", _site_water, methods=["GET"]),
    Route("/api/jobs/{job}/deliveries", _deliveries, methods=["POST"]),
    Route("/api/jobs/{job}/photos", _photos, methods=["GET"]),
    Route("/api/jobs/{job}/photos", _add_photo, methods=["POST"]),
    Route("/api/jobs/{job}/photos/{photo}", _photo, methods=["GET"]),
    Route("/api/jobs/{job}/photos/{photo}", _remove_photo, methods=["DELETE"]),
    Route("/jobs/{job}/site-sheet.html", _sheet, methods=["GET"]),
)
