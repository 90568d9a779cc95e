"""What the screens ask for: bytes in, bytes out, so that a worker can do it beside the server."""

from __future__ import annotations

import dataclasses
import hashlib
import json
from collections import OrderedDict
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from pavewright import drawing, rulebook
from pavewright.desk._account_verbs import ACCOUNT_VERBS
from pavewright.desk._archives import pack_archive, paper_archive
from pavewright.desk._beside import photos_apart
from pavewright.desk._better_verb import BETTER_VERBS
from pavewright.desk._book_verbs import (
    BOOK,
    BOOK_VERBS,
    ScreenRefusalError,
    book_at_hand,
    plan_with_book,
    with_its_book,
    without_idle_prices,
)
from pavewright.desk._build_ups import build_ups_told
from pavewright.desk._calendar import CALENDAR_VERBS
from pavewright.desk._cash import cash_told
from pavewright.desk._changes_drawn import changes_verb
from pavewright.desk._customer import customer
from pavewright.desk._drain_ways import Asked, drain_ways
from pavewright.desk._drawings import DRAWINGS
from pavewright.desk._exchange import exchange_verb
from pavewright.desk._frames import frames, storm_told
from pavewright.desk._link_screens import link_verbs
from pavewright.desk._outcome import outcome
from pavewright.desk._pieces import pieces_told, without_pieces
from pavewright.desk._plain import plain
from pavewright.desk._preview import preview
from pavewright.desk._read import read_book, read_job
from pavewright.desk._record_verbs import RECORD_VERBS
from pavewright.desk._risks import risk_of
from pavewright.desk._site_laid import water_verb
from pavewright.desk._site_log import log_told
from pavewright.desk._site_view import site_view
from pavewright.desk._starts import find_starts
from pavewright.desk._storms import film_drawing, run_storm_on
from pavewright.desk._summary import summary
from pavewright.desk._verbs import demo_document
from pavewright.desk._without_job import VERBS_WITHOUT_JOB
from pavewright.job import JobInvalid
from pavewright.papers import PaperKey, PlanPart, plan_json, plan_parts, written_where
from pavewright.pipeline import Room
from pavewright.water import StormRefusedError

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.pipeline import Plan, PlanSoFar

    Report = Callable[[str], None]
    Verb = Callable[[bytes, Report], bytes]

PLAN_PARTS = tuple(part.value for part in PlanPart)
"""Parts of a plan that a screen can ask for."""

_PLANS_KEPT = 3
_kept: OrderedDict[str, PlanSoFar] = OrderedDict()
"""The last plans of this worker: the drawings and papers of a plan need not plan again."""


def _planned(document: bytes, report: Report) -> PlanSoFar:
    """Return the plan of a document with the book that came with it: another book is another plan."""
    book = BOOK.get()
    key = hashlib.sha256(book + b"\0" + document).hexdigest()
    if key not in _kept:
        _kept[key] = plan_with_book(document, report, book)
    _kept.move_to_end(key)
    while len(_kept) > _PLANS_KEPT:
        _kept.popitem(last=False)
    return _kept[key]


def _or_refuse(document: bytes, report: Report) -> PlanSoFar:
    """Return the plan of a document as far as it goes, or refuse with its first faults."""
    try:
        return _planned(document, report)
    except JobInvalid as invalid:
        raise ScreenRefusalError(" ".join(fault.message for fault in invalid.faults[:3])) from invalid


def _with_rooms(document: bytes, report: Report, rooms: tuple[Room, ...]) -> Plan:
    """Return the plan of a document with rooms that are asked for, or refuse with what is missing for them."""
    made = _or_refuse(document, report)
    plan = made.with_rooms(rooms)
    if plan is None:
        raise ScreenRefusalError(" ".join(each.words for each in made.why_not(rooms)[:3]))
    return plan


def _json(value: Any) -> bytes:  # noqa: ANN401 - anything that JSON holds
    return json.dumps(value, ensure_ascii=False, allow_nan=False, separators=(",", ":")).encode()


def _faults(invalid: JobInvalid) -> list[dict[str, str]]:
    return [{"path": fault.path, "message": fault.message} for fault in invalid.faults]


def _plan(payload: bytes, report: Report) -> bytes:
    """Answer a document with its plan as far as it goes, and with everything that is wrong with it."""
    try:
        made = _planned(payload, report)
    except JobInvalid as invalid:
        return _json({"plan": None, "faults": _faults(invalid)})
    titles = {key: source.title for key, source in rulebook.load(made.edition).sources.items()}
    faults = [{"path": fault.path, "message": fault.message} for fault in made.faults]
    head = b'{"faults":' + _json(faults) + b',"sources":' + _json(titles)
    return head + b',"plan":' + plan_json(made).strip() + b"}"


def _plan_parts(payload: bytes, report: Report) -> bytes:
    """Answer names of parts, a line feed and a document with those parts of its plan, and its pieces in columns."""
    names, _, document = payload.partition(b"\n")
    wanted = [PlanPart(name) for name in names.decode().split(",")]
    try:
        made = _planned(document, report)
    except JobInvalid as invalid:
        return _json({"plan": None, "faults": _faults(invalid)})
    titles = {key: source.title for key, source in rulebook.load(made.edition).sources.items()}
    faults = [{"path": fault.path, "message": fault.message} for fault in made.faults]
    pieces = []
    if made.laying is not None and PlanPart.LAYING in wanted:
        pieces = pieces_told(made.laying)
        made = replace(made, laying=without_pieces(made.laying))
    if PlanPart.JOB in wanted:
        made = without_idle_prices(made, document)
    return _json({"faults": faults, "sources": titles, "plan": plan_parts(made, wanted), "pieces": pieces})


def _preview(payload: bytes, _report: Report) -> bytes:
    """Answer a document with what follows a hand that drags."""
    try:
        return _json(preview(*read_job(payload)) | {"faults": []})
    except JobInvalid as invalid:
        return _json({"faults": _faults(invalid)})


def _site(payload: bytes, report: Report) -> bytes:
    """Answer a document with what is needed of its plan on site; no view where it makes no plan."""
    try:
        made = _planned(payload, report)
    except JobInvalid as invalid:
        return _json({"view": None, "faults": _faults(invalid)})
    return _json({"view": site_view(made, rulebook.load(made.edition)), "faults": []})


def _drains(payload: bytes, _report: Report) -> bytes:
    """Answer ``{"kind", "name"}``, a line feed and a document with what drains there, and what each option changes."""
    head, _, document = payload.partition(b"\n")
    asked = json.loads(head)
    try:
        return _json(drain_ways(*read_job(document), Asked(asked["kind"]), asked["name"]) | {"faults": []})
    except JobInvalid as invalid:
        return _json({"drains": None, "choices": [], "faults": _faults(invalid)})


def _drawing(payload: bytes, report: Report) -> bytes:
    """Answer the name of a drawing, a line feed and a document with SVG.

    Nothing is answered where the job has no such drawing, or not enough is known for it.
    """
    name, _, document = payload.partition(b"\n")
    asked = DRAWINGS.get(name.decode(errors="replace"))
    if asked is None:
        message = f"There are drawings of {', '.join(DRAWINGS)}."
        raise ScreenRefusalError(message)
    plan = _or_refuse(document, report).with_rooms(asked.needs)
    if plan is None:
        return b""
    with written_where(plan):
        scenes = asked.scenes(plan)
        return b"" if not scenes else drawing.stacked_svg(scenes).encode()


def _pack(payload: bytes, report: Report) -> bytes:
    """Answer a document with all papers that can be made of it in one archive, the same bytes for the same job."""
    photos, document = photos_apart(payload)
    return pack_archive(_or_refuse(document, report), report, book_at_hand(), photos)


def _paper(payload: bytes, report: Report) -> bytes:
    """Answer the key of a paper, a line feed and a document with that paper, its text and its pages in one archive."""
    photos, asked = photos_apart(payload)
    key, _, document = asked.partition(b"\n")
    return paper_archive(_or_refuse(document, report), PaperKey(key.decode()), report, book_at_hand(), photos)


def _starts(payload: bytes, report: Report) -> bytes:
    try:
        return _json([dataclasses.asdict(area) for area in find_starts(payload, report)])
    except JobInvalid as invalid:
        raise ScreenRefusalError(" ".join(fault.message for fault in invalid.faults[:3])) from invalid


def _storm(payload: bytes, report: Report) -> bytes:
    """Answer ``{"rain_mm_per_h", "minutes", "cell_mm"}``, a line feed and a document with a storm and its map."""
    head, _, document = payload.partition(b"\n")
    asked = json.loads(head)
    made = _with_rooms(document, report, (Room.LEVELS,))
    try:
        storms = run_storm_on(
            made, asked.get("rain_mm_per_h"), asked.get("minutes", 10.0), asked.get("cell_mm", 100.0), report
        )
    except StormRefusedError as refusal:
        raise ScreenRefusalError(str(refusal)) from refusal
    reported = [plain(storm_told(each)) for each in storms]
    return _json({"areas": reported, "frames": [frames(each) for each in storms], "map": film_drawing(made, storms)})


def _risk(payload: bytes, report: Report) -> bytes:
    """Answer a document with the risk of its price, and the titles of the sources that it leans on."""
    try:
        found = risk_of(_or_refuse(payload, report), report)
    except JobInvalid as invalid:
        raise ScreenRefusalError(" ".join(fault.message for fault in invalid.faults[:3])) from invalid
    return _json({"risk": plain(found)})


def _site_log(payload: bytes, report: Report) -> bytes:
    """Answer a document with the log of its days, and what the firm's book may learn of it."""
    return _json(log_told(_or_refuse(payload, report), read_book(BOOK.get()) if BOOK.get() else None))


def _summary(payload: bytes, report: Report) -> bytes:
    try:
        return _json(summary(_planned(payload, report)))
    except JobInvalid as invalid:
        faults = _faults(invalid)
        return _json({"stage": "measure", "next": faults[0]["message"], "stops": len(faults), "outlines": []})


def _outcome(payload: bytes, report: Report) -> bytes:
    """Answer a document with the few figures by which it is compared."""
    try:
        return _json({"outcome": outcome(_planned(payload, report)), "faults": []})
    except JobInvalid as invalid:
        return _json({"outcome": None, "faults": _faults(invalid)})


def _customer(payload: bytes, report: Report) -> bytes:
    """Answer a document with what its customer may see, and nothing else."""
    told, book = customer(_or_refuse(payload, report)), book_at_hand()
    if book is not None and not told["contractor"]:
        told["contractor"] = book.firm.name
    return _json(told)


def _warm(payload: bytes, report: Report) -> bytes:
    """Do once with the demo what is asked later, so that everything is loaded; ``quick`` leaves out the whole plan."""
    document = demo_document()
    _preview(document, report)
    if payload != b"quick":
        _plan(document, report)
    return b"{}"


SCREEN_VERBS: dict[str, Verb] = {
    "warm": _warm,
    **BOOK_VERBS,
    **VERBS_WITHOUT_JOB,
    **ACCOUNT_VERBS,
    **RECORD_VERBS,
    **CALENDAR_VERBS,
    **BETTER_VERBS,
    "plan": _plan,
    "cash": lambda payload, report: _json(cash_told(_or_refuse(payload, report))),
    "site_log": _site_log,
    "plan_parts": _plan_parts,
    "preview": _preview,
    "drains": _drains,
    "drawing": _drawing,
    "pack": _pack,
    "paper": _paper,
    "starts": _starts,
    "storm": _storm,
    "risk": _risk,
    "build-ups": lambda payload, report: _json({"build_ups": build_ups_told(_or_refuse(payload, report), report)}),
    "site": _site,
    "summary": _summary,
    "outcome": _outcome,
    "customer": _customer,
    "changes": changes_verb(_or_refuse),
    "site_water": water_verb(_planned),
    "exchange": exchange_verb(_or_refuse),
    **link_verbs(_or_refuse),
}
SCREEN_VERBS = {name: with_its_book(verb) for name, verb in SCREEN_VERBS.items()}
"""What a worker can be asked, by name."""
