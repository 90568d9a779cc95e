"""Store: jobs and the book of the firm with every revision, photos with their pin, what phones have sent: one database.

A job document is kept as the text that was given, with a whole number that counts its revisions. Changes come as
operations that merge with what others did meanwhile; where two truly clash both are kept until a person picks. A whole
document names the revision on which it stands; where another one came first it is refused with both versions. A change
that was acknowledged is on the disk, and can be read again. What is sent twice is kept once. A backup is a whole copy,
made while people work; where the file or its disk refuses, a sentence says what to do.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.store._backups import back_up, contents_of, restore, restore_open
    from pavewright.store._deliveries import Aside
    from pavewright.store._devices import Device
    from pavewright.store._documents import DocumentRefusedError, ReadBack, read_back
    from pavewright.store._firm import KeptBook, StaleBookError
    from pavewright.store._operations import Batch
    from pavewright.store._quotation_types import (
        Acceptance,
        Accepted,
        AcceptedEarlierError,
        Made,
        Question,
        QuotationClosedError,
        QuotationLink,
        TooManyQuestionsError,
    )
    from pavewright.store._quotations import OpenQuotation, Quotations
    from pavewright.store._store import Store, open_file, open_store
    from pavewright.store._troubles import StoreTroubleError, Trouble, in_words
    from pavewright.store._types import (
        ClashRow,
        Contents,
        Delivery,
        JobRow,
        Kept,
        KeyUsedError,
        NotDeletedError,
        Operated,
        Photo,
        Restored,
        Revision,
        StaleRevision,
        UnknownJob,
    )
else:
    __getattr__ = face(__name__)

__all__ = [
    "Acceptance",
    "Accepted",
    "AcceptedEarlierError",
    "Aside",
    "Batch",
    "ClashRow",
    "Contents",
    "Delivery",
    "Device",
    "DocumentRefusedError",
    "JobRow",
    "Kept",
    "KeptBook",
    "KeyUsedError",
    "Made",
    "NotDeletedError",
    "OpenQuotation",
    "Operated",
    "Photo",
    "Question",
    "QuotationClosedError",
    "QuotationLink",
    "Quotations",
    "ReadBack",
    "Restored",
    "Revision",
    "StaleBookError",
    "StaleRevision",
    "Store",
    "StoreTroubleError",
    "TooManyQuestionsError",
    "Trouble",
    "UnknownJob",
    "back_up",
    "contents_of",
    "in_words",
    "open_file",
    "open_store",
    "read_back",
    "restore",
    "restore_open",
]
