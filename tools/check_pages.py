#!/usr/bin/env python3
"""Check the pages of papers as they come out of the printer.

Words that lie on others or reach the edge of the page, type under 8 pt, words too pale for a black and white print,
pages all but empty, sizes of paper mixed, fonts that are not embedded, marks of an archival and tagged document, order
of reading. Prints what it finds and exits 1 where there is something.

python tools/check_pages.py pack/*.pdf
"""

from __future__ import annotations

import itertools
import re
import sys
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click
import pypdf
from shapely import Polygon

sys.path.insert(0, str(Path(__file__).resolve().parent))
from pdf_marks import Marks, marks_of

if TYPE_CHECKING:
    from collections.abc import Iterator

MM = 72.0 / 25.4
MIN_TYPE_PT = 8.0
EDGE_MM = 4.0
"""What most printers leave white at the edge."""
MIN_USED = 0.12
"""A page is used at least so far down, as a part of the room between head and foot."""
HEAD_MM, FOOT_MM = 21.0, 23.0
MIN_CONTRAST = 4.5
_SHRUNK_PT = 0.3
_OVERLAP = 0.12


@dataclass(frozen=True)
class Fault:
    """Something wrong on a page.

    Attributes:
        page: Number of the page; 0 for the whole document.
        what: What is wrong, in words.
    """

    page: int
    what: str


def faults_of(document: pypdf.PdfReader) -> list[Fault]:
    """Return all that is wrong with a document."""
    marks = [marks_of(page) for page in document.pages]
    found = [Fault(0, what) for what in archival_faults(document)]
    sizes = {tuple(sorted((round(page.wide), round(page.high)))) for page in marks}
    found += [Fault(0, f"sizes of paper are mixed: {sizes}")] if len(sizes) > 1 else []
    for number, page in enumerate(marks, start=1):
        for check in (collisions, clipped, small_type, pale, all_but_empty):
            found += [Fault(number, what) for what in check(page)]
    return found + [Fault(number, what) for number, what in out_of_order(document, marks)]


def collisions(page: Marks) -> Iterator[str]:
    """Give runs of words that lie on others; the white border of a word is drawn as the same word first."""
    runs = sorted({(run.text.strip(), _rounded(run.box)): run for run in page.runs}.values(), key=lambda run: run.box)
    runs = [run for run in runs if any(sign.isalnum() for sign in run.text)]  # a mark moves under the letter before it
    for place, first in enumerate(runs):
        for other in itertools.takewhile(lambda run: run.box[0] < first.box[2], runs[place + 1 :]):  # noqa: B023
            if other.box[1] >= first.box[3] or other.box[3] <= first.box[1]:
                continue
            one, two = (Polygon(run.corners).buffer(-_SHRUNK_PT, join_style="mitre") for run in (first, other))
            if one.intersection(two).area > _OVERLAP * min(one.area, two.area) > 0.0:
                yield f"{first.text.strip()!r} lies on {other.text.strip()!r}"


def _rounded(box: tuple[float, ...]) -> tuple[int, ...]:
    return tuple(round(each) for each in box)


def clipped(page: Marks) -> Iterator[str]:
    """Give words that reach into what a printer leaves white."""
    edge = EDGE_MM * MM
    for run in page.runs:
        left, bottom, right, top = run.box
        if left < edge or bottom < edge or right > page.wide - edge or top > page.high - edge:
            yield f"{run.text.strip()!r} reaches the edge of the page"


def small_type(page: Marks) -> Iterator[str]:
    """Give words under the smallest size of type."""
    for size, text in sorted(
        {(round(run.size, 1), run.text.strip()) for run in page.runs if run.size < MIN_TYPE_PT - 0.05}
    ):
        yield f"{text!r} is set in {size:g} pt"


def pale(page: Marks) -> Iterator[str]:
    """Give words too pale to be read in grey; white words stand on something dark, or are the border of others."""
    for run in page.runs:
        colour = run.colour * 3 if len(run.colour) == 1 else run.colour
        if len(colour) == 3 and min(colour) < 0.99 and _contrast(colour) < MIN_CONTRAST:
            yield f"{run.text.strip()!r} is too pale in black and white"


def _contrast(colour: tuple[float, ...]) -> float:
    linear = [each / 12.92 if each <= 0.04045 else ((each + 0.055) / 1.055) ** 2.4 for each in colour]
    return 1.05 / (0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2] + 0.05)


def used(page: Marks) -> float:
    """Return how far down a page is used, as a part of the room between head and foot."""
    top, foot = page.high - HEAD_MM * MM, FOOT_MM * MM
    boxes = [run.box for run in page.runs if not run.pagination] + list(page.boxes)
    lowest = min((box[1] for box in boxes if box[3] < top + 6.0 and box[1] > foot - 6.0), default=top)
    return (top - lowest) / (top - foot)


def all_but_empty(page: Marks) -> Iterator[str]:
    """Say where next to nothing stands on a page."""
    if used(page) < MIN_USED:
        yield f"only {100.0 * used(page):.0f} % of the page is used"


def archival_faults(document: pypdf.PdfReader) -> Iterator[str]:
    """Give what an archival, tagged document lacks: a list of checks, no validator (ISO 19005-3, ISO 14289-1)."""
    root: Any = document.trailer["/Root"]
    if document.is_encrypted:
        yield "it is encrypted"
    if not root.get("/MarkInfo", {}).get("/Marked"):
        yield "it is not marked as tagged"
    if "/StructTreeRoot" not in root:
        yield "it has no tree of structure"
    if not str(root.get("/Lang", "")):
        yield "its language is not said"
    said = root["/Metadata"].get_data().decode("utf-8") if "/Metadata" in root else ""
    if not re.search(r"pdfaid:part>3<", said) or not re.search(r"pdfaid:conformance>[AB]<", said):
        yield "it does not say that it is PDF/A-3"
    if not root.get("/OutputIntents"):
        yield "it names no colour space of output"
    if not document.metadata or not document.metadata.title:
        yield "it has no title"
    yield from (f"it holds {key}" for key in ("/OpenAction", "/AA", "/AcroForm") if key in root)
    yield from sorted(set(_font_faults(document)))
    yield from _figures_unsaid(root)


def _font_faults(document: pypdf.PdfReader) -> Iterator[str]:
    for page in document.pages:
        for resources in _all_resources(page["/Resources"]):
            for reference in resources.get("/Font", {}).values():
                font = reference.get_object()
                below = font["/DescendantFonts"][0].get_object() if "/DescendantFonts" in font else font
                held = below.get("/FontDescriptor", {})
                if not {"/FontFile", "/FontFile2", "/FontFile3"} & set(held):
                    yield f"font {font.get('/BaseFont')} is not embedded"
                if "/ToUnicode" not in font:
                    yield f"font {font.get('/BaseFont')} does not say what its letters are"


def _all_resources(resources: Any) -> Iterator[Any]:  # noqa: ANN401 - an object of a PDF
    resources = resources.get_object()
    yield resources
    for reference in resources.get("/XObject", {}).values():
        inner = reference.get_object()
        if inner.get("/Subtype") == "/Form" and "/Resources" in inner:
            yield from _all_resources(inner["/Resources"])


def _elements(node: Any) -> Iterator[Any]:  # noqa: ANN401 - an object of a PDF
    """Give the elements of structure below one, in the order of reading."""
    below = node.get("/K", [])
    for each in below if isinstance(below, list) else [below]:
        inner = each.get_object()
        if isinstance(inner, dict) and "/S" in inner:
            yield inner
            yield from _elements(inner)


def _figures_unsaid(root: Any) -> Iterator[str]:  # noqa: ANN401 - an object of a PDF
    every = list(_elements(root["/StructTreeRoot"])) if "/StructTreeRoot" in root else []
    if any(each["/S"] == "/Figure" and not str(each.get("/Alt", "")).strip() for each in every):
        yield "a figure has no words that say what it shows"
    levels = [int(name[2:]) for each in every if re.fullmatch(r"/H[1-6]", name := str(each["/S"]))]
    if any(then > first + 1 for first, then in zip([0, *levels], levels, strict=False)):
        yield "a level of headings is left out"


def out_of_order(document: pypdf.PdfReader, marks: list[Marks]) -> Iterator[tuple[int, str]]:
    """Give headings that are read before what stands over them: pages, and on each from top to bottom."""
    root: Any = document.trailer["/Root"]
    numbers = {page.indirect_reference.idnum: place for place, page in enumerate(document.pages, start=1)}  # type: ignore[union-attr]
    tops = [{run.mark: run for run in reversed(page.runs) if run.mark >= 0} for page in marks]
    last = (0, 0.0)
    for each in _elements(root["/StructTreeRoot"]) if "/StructTreeRoot" in root else ():
        if not re.fullmatch(r"/H[1-6]", str(each["/S"])):
            continue
        number, mark = _first_mark(each, numbers)
        run = tops[number - 1].get(mark) if number else None
        if run is None:
            continue
        here = (number, -run.box[3])
        if here < last and not (here[0] == last[0] and here[1] > last[1] - 3.0):
            yield number, f"{run.text.strip()!r} is read after what stands below it"
        last = here


def _first_mark(element: Any, numbers: dict[int, int]) -> tuple[int, int]:  # noqa: ANN401 - an object of a PDF
    page = numbers.get(element.raw_get("/Pg").idnum, 0) if "/Pg" in element else 0
    below = element.get("/K", [])
    for each in below if isinstance(below, list) else [below]:
        inner = each.get_object()
        if isinstance(inner, int):
            return page, inner
        if isinstance(inner, pypdf.generic.DictionaryObject):
            if "/MCID" in inner:
                own = numbers.get(inner.raw_get("/Pg").idnum, 0) if "/Pg" in inner else page
                return own, int(str(inner["/MCID"]))
            found = _first_mark(inner, numbers)
            if found[0]:
                return found
    return 0, -1


@click.command()
@click.argument("papers", nargs=-1, required=True, type=click.Path(exists=True, path_type=Path))
def main(papers: tuple[Path, ...]) -> None:
    """Check the pages of papers."""
    many = 0
    for path in papers:
        found = faults_of(pypdf.PdfReader(path))
        many += len(found)
        for fault in found:
            click.echo(f"{path.name}{f' page {fault.page}' if fault.page else ''}: {fault.what}")
    click.echo(f"{len(papers)} papers, {many} faults")
    sys.exit(1 if many else 0)


if __name__ == "__main__":
    main()
