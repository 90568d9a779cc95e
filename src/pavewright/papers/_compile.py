"""Typst in a child process: documents in, PDFs out, all in memory.

A child is fresh each time, so that nothing of one customer stays in the memory of the next. Text of users arrives as
data and is never part of the program that draws it; a warning is an error.
"""

from __future__ import annotations

import base64
import json
import sys
from importlib.resources import as_file, files

from pavewright import children

_HOME = files("pavewright.papers")
_MEMORY_BYTES = 2_000_000_000
_SECONDS = 300
"""What drawing may take: memory, and time of the processor. [bytes, s]"""


class PaperError(RuntimeError):
    """A sheet could not be drawn: a bug, not a fault of the job."""


class PapersTooLargeError(Exception):
    """Drawing the papers of a job takes more memory or time than it is given; says so in a sentence."""


def to_pdf(
    documents: dict[str, str], *, memory_bytes: int = _MEMORY_BYTES, seconds: int = _SECONDS
) -> dict[str, bytes]:
    """Return each document, given as JSON text by name, as a tagged PDF/A.

    Args:
        documents: The documents.
        memory_bytes: Most memory that drawing may take. [bytes]
        seconds: Most time of the processor that it may take. [s]

    Raises:
        PaperError: a document cannot be drawn.
        PapersTooLargeError: drawing takes more than it is given.
    """
    message = "The papers of this job take too much time or memory to draw: split the job into two of fewer areas."
    with as_file(_HOME / "fonts") as fonts, as_file(_HOME / "_typst_child.py") as child:
        order = {
            "template": (_HOME / "sheets.typ").read_text("utf-8"),
            "fonts": str(fonts),
            "documents": documents,
        }
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
    return {name: base64.b64decode(text) for name, text in json.loads(done).items()}
