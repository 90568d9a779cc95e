"""Store: jobs with every revision, photos with their pin, and what phones have sent, in one database.

A job document is kept as the text that was given, with a whole number that counts its revisions. A change names the
revision on which it stands; where another one came first it is refused with both versions, so that no change is lost
in silence. A change that was acknowledged is on the disk.
"""

from pavewright.store._store import Store, open_store
from pavewright.store._types import Delivery, JobRow, Kept, Photo, Revision, StaleRevision, UnknownJob

__all__ = [
    "Delivery",
    "JobRow",
    "Kept",
    "Photo",
    "Revision",
    "StaleRevision",
    "Store",
    "UnknownJob",
    "open_store",
]
