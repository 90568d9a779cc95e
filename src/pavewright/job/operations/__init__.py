"""Changes of a job document as small operations: stored, sent, merged and undone as such.

An operation sets one field, or adds, removes or moves one item of a list. It says where by the names that a person
knows, what the sender saw there and what it is to be. Operations of two people merge; where they truly clash the value
in the document stays and both are kept for a person to pick.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.job.operations._apply import Applied, apply
    from pavewright.job.operations._between import between
    from pavewright.job.operations._clashes import Clash, ClashKind
    from pavewright.job.operations._follow import Done, Following
    from pavewright.job.operations._inverse import inverse
    from pavewright.job.operations._items import KEYS, KINDS, REFERENCES, SETS, UNIQUE
    from pavewright.job.operations._settle import taken_over
    from pavewright.job.operations._shape import OperationRefusedError, checked_operations
    from pavewright.job.operations._values import MISSING, Operation
else:
    __getattr__ = face(__name__)

__all__ = [
    "KEYS",
    "KINDS",
    "MISSING",
    "REFERENCES",
    "SETS",
    "UNIQUE",
    "Applied",
    "Clash",
    "ClashKind",
    "Done",
    "Following",
    "Operation",
    "OperationRefusedError",
    "apply",
    "between",
    "checked_operations",
    "inverse",
    "taken_over",
]
