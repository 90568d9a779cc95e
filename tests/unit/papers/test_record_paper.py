"""The record on paper: made of the record alone, its data attached, a fault first; what is not stated is said."""

from __future__ import annotations

import io

import pypdf
import pytest

from pavewright.papers.record import RecordTitle, record_paper, row_of
from pavewright.record import EntryKind, check_record, files_beside, follows, make_entry, record_lines

TITLE = RecordTitle("J-1", "Terrace", "A. Customer", "1 Invented Road", "Invented Paving", "4", invented=True)
READING = {"x_mm": 1.0, "y_mm": 2.0, "level_mm": 100_012.5, "area": "terrace", "label": "L1"}
WITH = {"read_by": "R", "instrument": "rotating laser", "reading_sd_mm": 1.5, "date": "2027-06-01"}


def _entries(*told):
    made, last = [], None
    for step, (kind, facts) in enumerate(told):
        number, before = follows(last)
        last = make_entry(number, before, f"2027-06-01T08:{step:02d}:30.000+00:00", kind, facts, "phone-1")
        made.append(last)
    return made


def _added(where=("as_laid", "readings"), item=READING, beside=WITH):
    return (EntryKind.ENTERED, {"rev": 2, "op": {"op": "add", "at": list(where), "item": item}, "with": beside})


def _pdf(content):
    return pypdf.PdfReader(io.BytesIO(record_paper(content, TITLE)))


def _words(reader):
    return " ".join(" ".join(page.extract_text().split()) for page in reader.pages)


@pytest.fixture(scope="module")
def content():
    photo = {"id": "p1", "sha256": "ab" * 32, "note": "drain before cover"}
    told = ((EntryKind.BEGUN, {"rev": 3, "photos": []}), _added(), (EntryKind.PHOTO, photo))
    return record_lines("j" * 16, _entries(*told))


def test_the_data_are_attached_byte_for_byte_and_the_same_record_gives_the_same_bytes(content):
    made = record_paper(content, TITLE)
    attached = pypdf.PdfReader(io.BytesIO(made)).attachments
    assert {name: found[0] for name, found in attached.items()} == files_beside(content)
    assert made == record_paper(content, TITLE)


def test_the_pages_say_what_was_read_by_whom_with_what_and_what_they_do_not_show(content):
    reader = _pdf(content)
    said = _words(reader)
    head = check_record(content).seal.head
    assert head[:8] in said and head[-8:] in said
    assert "label L1; x 1 mm" in said or "label L1; area terrace" in said
    assert "rotating laser, ± 1.5 mm, on 2027-06-01" in said
    assert "level 100012.5 mm" in said
    assert "drain before cover" in said
    assert "The record begins with revision 3" in said
    assert "That what was written down is true" in said
    assert "This record was changed" not in said
    assert "Superseded" not in said
    assert reader.metadata.title == "J-1 Terrace: Record"


def test_what_nobody_stated_of_a_reading_is_said_to_be_not_stated():
    (entry,) = _entries(_added(beside={}))
    assert row_of(entry).read_with == "instrument not stated, uncertainty not stated"
    (bill,) = _entries(_added(("bills",), {"number": 1}, {}))
    assert row_of(bill).read_with == ""


@pytest.mark.parametrize(
    ("operation", "said"),
    [
        (
            {"op": "set", "at": ["as_laid", "readings", {"label": "L3"}, "level_mm"], "was": 10.0, "to": 8.5},
            "As laid, readings, L3, level: 8.5 mm (was 10 mm)",
        ),
        (
            {"op": "set", "at": ["handed_over", "handed_to"], "to": "A. Customer"},
            "Handover, handed to: A. Customer (was –)",
        ),
        ({"op": "remove", "at": ["snags"], "item": {"name": "lip"}}, "Snag, deleted: name lip"),
        ({"op": "move", "at": ["site_days"], "item": {}}, "Day on site: the order was changed"),
        ({"op": "other", "at": ["unheard_of"]}, "unheard_of"),
        ("no operation", "no operation"),
    ],
)
def test_each_kind_of_change_has_its_words(operation, said):
    (entry,) = _entries((EntryKind.ENTERED, {"op": operation}))
    assert row_of(entry).what == said


def test_every_kind_of_entry_has_its_words_whatever_its_facts():
    for kind in EntryKind:
        (entry,) = _entries((kind, {}))
        assert row_of(entry).what


def test_a_long_value_is_cut_and_says_where_the_whole_stands():
    (entry,) = _entries((EntryKind.STOOD, {"part": "measurements", "value": {"points": list(range(500))}}))
    assert row_of(entry).what.endswith("… (whole in the data)")


def test_a_record_that_was_changed_says_so_first(content):
    first, second, *rest = content.decode().splitlines(keepends=True)
    changed = "".join((first, second.replace("100012.5", "100002.5"), *rest)).encode()
    said = _words(_pdf(changed))
    assert "This record was changed after it was written. An entry does not follow the one before it. Line 3." in said
    for broken in (b"", b"nothing\n"):
        assert "This record was changed" in _words(_pdf(broken))
