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
    from pavewright.store._calendars import CalendarFeed, KeptCalendar, StaleCalendarError
    from pavewright.store._deliveries import Aside
    from pavewright.store._devices import Device
    from pavewright.store._documents import DocumentRefusedError, ReadBack, read_back
    from pavewright.store._firm import KeptBook, StaleBookError
    from pavewright.store._fit import Amiss, amiss_of, size_bytes_of
    from pavewright.store._installation import Installation, open_installation
    from pavewright.store._operations import Batch
    from pavewright.store._quotation_types import (
        Acceptance,
        Accepted,
        AcceptedEarlierError,
        Made,
        OpenQuotation,
        Question,
        QuotationClosedError,
        QuotationLink,
        TooManyQuestionsError,
    )
    from pavewright.store._quotations import Quotations
    from pavewright.store._records import Records, RemovedRecord, TokenOfAnotherError
    from pavewright.store._runs import Run, RunResult, RunState, RunStore, UnknownRunError
    from pavewright.store._standing import Mark, Seen
    from pavewright.store._still_named import still_named
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
    from pavewright.store._who import Who, acting_as, customer_by, link_of, who_acts
    from pavewright.store.accounts import (
        Accounts,
        ApiToken,
        AuditEntry,
        Firm,
        Invitation,
        InvitationClosedError,
        LastOneError,
        Member,
        Passkey,
        Person,
        SignIn,
        SignInTakenError,
        UnknownFirm,
        UnknownPerson,
    )
    from pavewright.store.hooks._hooks import UnknownHookError
    from pavewright.store.hooks._types import Due, Event, Hook, Message, MessageState
    from pavewright.store.orders._types import (
        FirmMoney,
        FirmWeek,
        JobsAsked,
        JobsPage,
        JobTemplate,
        ListedJob,
        SavedView,
        Shelf,
        SortedBy,
    )
else:
    __getattr__ = face(__name__)

__all__ = [
    "Acceptance",
    "Accepted",
    "AcceptedEarlierError",
    "Accounts",
    "Amiss",
    "ApiToken",
    "Aside",
    "AuditEntry",
    "Batch",
    "CalendarFeed",
    "ClashRow",
    "Contents",
    "Delivery",
    "Device",
    "DocumentRefusedError",
    "Due",
    "Event",
    "Firm",
    "FirmMoney",
    "FirmWeek",
    "Hook",
    "Installation",
    "Invitation",
    "InvitationClosedError",
    "JobRow",
    "JobTemplate",
    "JobsAsked",
    "JobsPage",
    "Kept",
    "KeptBook",
    "KeptCalendar",
    "KeyUsedError",
    "LastOneError",
    "ListedJob",
    "Made",
    "Mark",
    "Member",
    "Message",
    "MessageState",
    "NotDeletedError",
    "OpenQuotation",
    "Operated",
    "Passkey",
    "Person",
    "Photo",
    "Question",
    "QuotationClosedError",
    "QuotationLink",
    "Quotations",
    "ReadBack",
    "Records",
    "RemovedRecord",
    "Restored",
    "Revision",
    "Run",
    "RunResult",
    "RunState",
    "RunStore",
    "SavedView",
    "Seen",
    "Shelf",
    "SignIn",
    "SignInTakenError",
    "SortedBy",
    "StaleBookError",
    "StaleCalendarError",
    "StaleRevision",
    "Store",
    "StoreTroubleError",
    "TokenOfAnotherError",
    "TooManyQuestionsError",
    "Trouble",
    "UnknownFirm",
    "UnknownHookError",
    "UnknownJob",
    "UnknownPerson",
    "UnknownRunError",
    "Who",
    "acting_as",
    "amiss_of",
    "back_up",
    "contents_of",
    "customer_by",
    "in_words",
    "link_of",
    "open_file",
    "open_installation",
    "open_store",
    "read_back",
    "restore",
    "restore_open",
    "size_bytes_of",
    "still_named",
    "who_acts",
]
