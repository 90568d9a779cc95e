"""The record of a job on paper, with its data attached: what happened, who wrote it down, and how to check it.

The paper is made of the record alone, not of a plan. What it says is what the attached lines say; a fault that is found
in them stands first.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.papers.record._document import RecordTitle, record_paper
    from pavewright.papers.record._rows import EntryRow, row_of
    from pavewright.papers.record._words import WORDS, fault_words, head_text, moment_text, stamp_words
else:
    __getattr__ = face(__name__)

__all__ = [
    "WORDS",
    "EntryRow",
    "RecordTitle",
    "fault_words",
    "head_text",
    "moment_text",
    "record_paper",
    "row_of",
    "stamp_words",
]
