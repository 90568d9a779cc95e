"""Accounts: the firms of an installation, the people of each, what they prove themselves by, and what was done.

What is kept of a firm stands apart from every other; who belongs to which stands here, once. Of a token only its digest
is kept, passwords and codes arrive as digests. An invitation opens once. What was done with people, rights and keys is
noted, and the database itself refuses to change it.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.store.accounts._accounts import Accounts, first_firm, for_first_firm
    from pavewright.store.accounts._tables import PREFIX
    from pavewright.store.accounts._types import (
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
else:
    __getattr__ = face(__name__)

__all__ = [
    "PREFIX",
    "Accounts",
    "ApiToken",
    "AuditEntry",
    "Firm",
    "Invitation",
    "InvitationClosedError",
    "LastOneError",
    "Member",
    "Passkey",
    "Person",
    "SignIn",
    "SignInTakenError",
    "UnknownFirm",
    "UnknownPerson",
    "first_firm",
    "for_first_firm",
]
