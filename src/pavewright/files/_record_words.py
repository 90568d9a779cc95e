"""What is said of a file that holds no record."""

from __future__ import annotations

from dataclasses import dataclass

from pavewright.writing import Catalogue


@dataclass(frozen=True, slots=True)
class Words(Catalogue):
    """The sentences of this."""

    too_large: str = "This file holds more than a record: nothing of it was read."
    no_record: str = "This file holds no record: give the PDF, the zip file or record.jsonl as they were handed out."
    broken_pdf: str = "This PDF cannot be read: get it again from who made it."
    broken_zip: str = "This zip file cannot be read: get it again from who made it."
    twice: str = "This zip file holds two files of one name: it is not as it was made."


WORDS = Words()
"""In English."""
