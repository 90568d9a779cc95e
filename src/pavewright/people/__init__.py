"""People: who belongs to the firm, what each of them may do, and what a good password is.

An owner may do everything. The office quotes and plans. The crew sees the work and not its money, unless an owner
grants that. An auditor reads, and changes nothing.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.people._passwords import (
        PASSWORD_MAX,
        PASSWORD_MIN,
        PasswordFault,
        Strength,
        password_fault,
        password_strength,
    )
    from pavewright.people._roles import GRANTS, Right, Role, rights_of
else:
    __getattr__ = face(__name__)

__all__ = [
    "GRANTS",
    "PASSWORD_MAX",
    "PASSWORD_MIN",
    "PasswordFault",
    "Right",
    "Role",
    "Strength",
    "password_fault",
    "password_strength",
    "rights_of",
]
