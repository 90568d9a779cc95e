"""Typst in a child process: documents in, PDFs out, all in memory.

A child is fresh each time, so that nothing of one customer stays in the memory of the next. Text of users arrives as
data and is never part of the program that draws it; a warning is an error.
"""

from __future__ import annotations

import base64
import json
import sys
from importlib.resources import as_file, files
from typing import TYPE_CHECKING, Any

from pavewright import children

if TYPE_CHECKING:
    from collections.abc import Mapping

_HOME = files("pavewright.papers")
PAGE_DOTS_PER_INCH = 120.0
"""So fine that a page read on a telephone can be enlarged to the size of paper."""
_MEMORY_BYTES = 2_000_000_000
_SECONDS = 300
"""What drawing may take: memory, and time of the processor. [bytes, s]"""


class PaperError(RuntimeError):
    """A sheet could not be drawn: a bug, not a fault of the job."""


class PapersTooLargeError(Exception):
    """Drawing the papers of a job takes more memory or time than it is given; says so in a sentence."""


def to_pdf(
    documents: dict[str, str],
    *,
    attached: Mapping[str, bytes] | None = None,
    memory_bytes: int = _MEMORY_BYTES,
    seconds: int = _SECONDS,
) -> dict[str, bytes]:
    """Return each document, given as JSON text by name, as a tagged PDF/A.

    Args:
        documents: The documents.
        attached: Files that documents attach by their names; None for none.
        memory_bytes: Most memory that drawing may take. [bytes]
        seconds: Most time of the processor that it may take. [s]

    Raises:
        PaperError: a document cannot be drawn.
        PapersTooLargeError: drawing takes more than it is given.
    """
    beside = {name: base64.b64encode(content).decode("ascii") for name, content in (attached or {}).items()}
    done = _answer({"documents": documents, "attached": beside, "dots_per_inch": 0.0}, memory_bytes, seconds)
    return {name: base64.b64decode(text) for name, text in done["made"].items()}


def to_pdf_and_pages(
    documents: dict[str, str], dots_per_inch: float = PAGE_DOTS_PER_INCH
) -> tuple[dict[str, bytes], dict[str, tuple[bytes, ...]]]:
    """Return each document as a tagged PDF/A, and each page of it as a PNG for a screen.

    Args:
        documents: The documents as JSON text by name.
        dots_per_inch: How fine the pages are drawn.

    Raises:
        PaperError: a document cannot be drawn.
        PapersTooLargeError: drawing takes more than it is given.
    """
    done = _answer({"documents": documents, "dots_per_inch": dots_per_inch}, _MEMORY_BYTES, _SECONDS)
    pages = {name: tuple(base64.b64decode(each) for each in found) for name, found in done["pages"].items()}
    return {name: base64.b64decode(text) for name, text in done["made"].items()}, pages


def _answer(asked: dict[str, Any], memory_bytes: int, seconds: int) -> dict[str, Any]:
    """Return what the child made of an order."""
    message = "The papers of this job take too much time or memory to draw: split the job into two of fewer areas."
    with as_file(_HOME / "fonts") as fonts, as_file(_HOME / "_typst_child.py") as child:
        order = asked | {"template": (_HOME / "sheets.typ").read_text("utf-8"), "fonts": str(fonts)}
        words = (sys.executable, str(child), str(memory_bytes), str(seconds))
        try:
            # on a busy machine the clock runs ahead of the time of the processor
            done = children.answer_of(words, json.dumps(order).encode("utf-8"), seconds=2.0 * seconds)
        except children.ChildStoppedError:
            raise PapersTooLargeError(message) from None
        except children.ChildEndedError as problem:
            if problem.by_signal or "MemoryError" in str(problem):
                raise PapersTooLargeError(message) from None
            raise PaperError(str(problem)) from None
    found: dict[str, Any] = json.loads(done)
    return found
