"""The sheets of a record, drawn with its files attached."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.papers import look
from pavewright.papers._compile import to_pdf
from pavewright.papers._document import page_text
from pavewright.papers.look import CalloutKind, Document, SheetOfPaper
from pavewright.papers.record._rows import row_of
from pavewright.papers.record._words import ATTACHED, HEADS, WORDS, fault_words, head_text, moment_text, stamp_words
from pavewright.record import EntryKind, check_record, files_beside, photos_of, stamps_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.papers.look import Block
    from pavewright.record import CheckedRecord

_NAME = "record.pdf"
_ROWS_MAX = 3000
"""So many entries are printed; the rest stand in the attached data."""
_SHORT = 16
_MEDIA = {
    "jsonl": "application/jsonl",
    "sha256": "text/plain",
    "txt": "text/plain",
    "tsr": "application/timestamp-reply",
}
_NO_DAY = dt.date(1980, 1, 1)


@dataclass(frozen=True, slots=True)
class RecordTitle:
    """What stands at the head of the record of a job.

    Attributes:
        job: Number of the job.
        title: Its title.
        client: The customer.
        address: The address.
        contractor: Whose record it is.
        revision: Revision that stands.
        invented: Whether it is an invented example.
    """

    job: str
    title: str
    client: str = ""
    address: str = ""
    contractor: str = ""
    revision: str = ""
    invented: bool = False


def record_paper(content: bytes, title: RecordTitle) -> bytes:
    """Return a record as a PDF with its data attached; the same record gives the same bytes.

    Args:
        content: The record as a file of lines.
        title: What stands at its head.

    Raises:
        PapersTooLargeError: drawing it takes more than it is given.
    """
    checked, files = check_record(content), files_beside(content)
    made = _document(checked, title)
    day = _day_of(checked)
    about = {
        "title": f"{title.job} {title.title}: {WORDS.title}",
        "year": day.year,
        "month": day.month,
        "day": day.day,
        "letterhead": None,
        "accent": "",
        "datum": "",
        "units": "",
        "assumed": "",
        "stands": True,
        "identity": {
            **{name: getattr(title, name) for name in ("job", "title", "client", "address", "contractor", "revision")},
            "date": day.isoformat(),
            "day": day.isoformat(),
            "invented": title.invented,
        },
        "attached": [_attached(name, each) for name, each in files.items()],
    }
    return to_pdf({_NAME: page_text(made, about)}, attached=files)[_NAME]


def _attached(name: str, content: bytes) -> dict[str, object]:
    """Return how a file is attached: its name, kind and words, and whether it is text."""
    media = _MEDIA.get(name.rpartition(".")[2], "application/octet-stream")
    try:
        content.decode("utf-8")
    except UnicodeDecodeError:
        is_text = False
    else:
        is_text = True
    return {"name": name, "media": media, "words": ATTACHED.get(name, name), "is_text": is_text}


def _day_of(checked: CheckedRecord) -> dt.date:
    """Return the day of the last entry: a record is as old as that."""
    try:
        return dt.date.fromisoformat(checked.entries[-1].at[:10])
    except (IndexError, ValueError):
        return _NO_DAY


def _document(checked: CheckedRecord, title: RecordTitle) -> Document:
    sheets = [_first(checked, title), _entries(checked), _checking()]
    photos = _photos(checked)
    return Document(WORDS.title, tuple(sheets if photos is None else [*sheets[:2], photos, sheets[2]]))


def _first(checked: CheckedRecord, title: RecordTitle) -> SheetOfPaper:
    sheet = SheetOfPaper(f"{WORDS.title}: {title.title}", measured=False)
    entries, seal = checked.entries, checked.seal
    if checked.faults:
        said = " ".join(dict.fromkeys(fault_words(each) for each in checked.faults[:8]))
        sheet.add(look.callout(CalloutKind.STOP, WORDS.changed(faults=said)))
    if not entries or seal is None:
        return sheet.add(look.paragraph(WORDS.empty))
    first, last = (moment_text(each.at) for each in (entries[0], entries[-1]))
    sheet.add(look.lead(WORDS.lead(entries=len(entries), first=first, last=last)))
    sheet.add(look.callout(CalloutKind.NOTE, head_text(seal.head), WORDS.give_out))
    sheet.add(*_notes(checked))
    sheet.add(look.heading(HEADS["shows"]), look.points(WORDS.shows))
    sheet.add(look.heading(HEADS["shows_not"]), look.points(WORDS.shows_not))
    stamps = [stamp_words(each) for each in stamps_of(entries)] or [WORDS.no_stamps]
    sheet.add(look.heading(HEADS["stamps"]), look.points(stamps))
    facts = ((HEADS["job"], seal.job), (HEADS["root"], head_text(seal.root)))
    return sheet.add(look.heading(HEADS["for_checking"]), look.facts(facts))


def _notes(checked: CheckedRecord) -> Iterator[Block]:
    first = checked.entries[0]
    if first.kind is EntryKind.BEGUN and first.facts.get("rev") not in (None, 1):
        yield look.callout(CalloutKind.CHECK, WORDS.late(rev=str(first.facts["rev"])))
    if checked.clock_back:
        numbers = ", ".join(map(str, checked.clock_back[:10]))
        yield look.callout(CalloutKind.CHECK, WORDS.clock_back(entries=numbers))


def _entries(checked: CheckedRecord) -> SheetOfPaper:
    sheet = SheetOfPaper(HEADS["entries"], upright=False, measured=False)
    said = HEADS
    heads = (
        *(look.right("No"), "UTC", look.rest(said["what"]), look.Head(said["who"], wide_mm=26.0)),
        *(look.Head(said["read_with"], wide_mm=48.0), said["begins"]),
    )
    rows = (
        (str(each.number), each.at, each.what, each.who, each.read_with, each.digest[:_SHORT])
        for each in map(row_of, checked.entries[:_ROWS_MAX])
    )
    sheet.add(look.table(heads, rows, type_size=7.5, pad=2.0))
    more = len(checked.entries) - _ROWS_MAX
    sheet.add(look.small(WORDS.spread_means))
    return sheet.add(look.paragraph(WORDS.more_entries(more=more))) if more > 0 else sheet


def _photos(checked: CheckedRecord) -> SheetOfPaper | None:
    photos = photos_of(checked.entries)
    if not photos:
        return None
    sheet = SheetOfPaper(HEADS["photos"], upright=False, measured=False, follows=True)
    rows = (
        (
            str(each.entry),
            each.id,
            each.note,
            WORDS.photo_deleted(entry=each.deleted) if each.deleted else "",
            head_text(each.hash),
        )
        for each in photos
    )
    said = HEADS
    heads = (look.right(said["entry"]), said["photo"], look.rest(said["what"]), "", said["kept_hash"])
    return sheet.add(look.table(heads, rows, type_size=7.0, pad=2.0))


def _checking() -> SheetOfPaper:
    sheet = SheetOfPaper(HEADS["checking"], measured=False)
    return sheet.add(look.points(WORDS.steps, numbered=True), look.small(WORDS.commands))
