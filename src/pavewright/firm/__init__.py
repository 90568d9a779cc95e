"""Firm: the book of the firm, and what a job takes from it.

The book holds who the firm is, its prices with their dates, its people, how quick they are, and what the firm costs in
a year. A job says what is its own; what it leaves out comes from the book, and what neither says stays unknown. A job
that was quoted keeps the prices that it was quoted with.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.firm._book import (
        BOOK_FORMAT,
        BOOK_VERSION,
        Firm,
        FirmBook,
        ListColumn,
        ListColumnKind,
        ListedPack,
        ListKind,
        ListPer,
        Logo,
        LogoKind,
        Overhead,
        PastHours,
        Person,
        PriceListRead,
        StandardText,
        TaxStatus,
        TextKey,
        YearlyCost,
    )
    from pavewright.firm._findings import book_findings
    from pavewright.firm._learnt import LearntOutput, learnt_outputs, with_learnt
    from pavewright.firm._listed import EntryPlace, ListChange, ListChangeKind, with_listed
    from pavewright.firm._listed_rates import disposal_line, with_hires, with_hours, with_loads
    from pavewright.firm._overhead import OverheadRate, overhead_rate
    from pavewright.firm._quoting import quoted, snapshot, unquoted
    from pavewright.firm._read import read, schema, to_text
    from pavewright.firm._sums_firm import SUMS
    from pavewright.firm._used import BookEntry, BookUsed, book_used
    from pavewright.firm._with_book import with_book
else:
    __getattr__ = face(__name__)

__all__ = [
    "BOOK_FORMAT",
    "BOOK_VERSION",
    "SUMS",
    "BookEntry",
    "BookUsed",
    "EntryPlace",
    "Firm",
    "FirmBook",
    "LearntOutput",
    "ListChange",
    "ListChangeKind",
    "ListColumn",
    "ListColumnKind",
    "ListKind",
    "ListPer",
    "ListedPack",
    "Logo",
    "LogoKind",
    "Overhead",
    "OverheadRate",
    "PastHours",
    "Person",
    "PriceListRead",
    "StandardText",
    "TaxStatus",
    "TextKey",
    "YearlyCost",
    "book_findings",
    "book_used",
    "disposal_line",
    "learnt_outputs",
    "overhead_rate",
    "quoted",
    "read",
    "schema",
    "snapshot",
    "to_text",
    "unquoted",
    "with_book",
    "with_hires",
    "with_hours",
    "with_learnt",
    "with_listed",
    "with_loads",
]
