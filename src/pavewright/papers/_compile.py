"""Typst in a child process: documents in, PDFs out, all in memory.

A child is fresh each time, so that nothing of one customer stays in the memory of the next. Text of users arrives as
data and is never part of the program that draws it; a warning is an error.
"""

from __future__ import annotations

import base64
import json
import subprocess
import sys
from importlib.resources import as_file, files

_HOME = files("pavewright.papers")


class PaperError(RuntimeError):
    """A sheet could not be drawn: a bug, not a fault of the job."""


def to_pdf(documents: dict[str, str]) -> dict[str, bytes]:
    """Return each document, given as JSON text by name, as a tagged PDF/A.

    Raises:
        PaperError: a document cannot be drawn.
    """
    with as_file(_HOME / "fonts") as fonts, as_file(_HOME / "_typst_child.py") as child:
        order = {
            "template": (_HOME / "sheets.typ").read_text("utf-8"),
            "fonts": str(fonts),
            "documents": documents,
        }
        done = subprocess.run(  # noqa: S603 - our own interpreter and file
            [sys.executable, str(child)], input=json.dumps(order).encode("utf-8"), capture_output=True, check=False
        )
    if done.returncode:
        raise PaperError(done.stderr.decode("utf-8", "replace"))
    return {name: base64.b64decode(text) for name, text in json.loads(done.stdout).items()}
