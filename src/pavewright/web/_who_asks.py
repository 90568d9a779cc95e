"""Who asks, and for which firm: what a request carries with it."""

from __future__ import annotations

from contextvars import Context, ContextVar, copy_context
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.people import Right, Role


@dataclass(frozen=True, slots=True)
class SignedIn:
    """Somebody who signed in, or a program with a token of somebody.

    Attributes:
        person_id: Who it is.
        name: What he or she is called.
        firm_id: The firm for which he or she works now.
        role: What he or she is there.
        rights: What may be done; of a program no more than its token says.
        sign_in_id: The signed-in device; None for a program.
        token_id: The token of a program; None for a device.
    """

    person_id: str
    name: str
    firm_id: str
    role: Role
    rights: frozenset[Right]
    sign_in_id: str | None = None
    token_id: str | None = None


SIGNED_IN: ContextVar[SignedIn | None] = ContextVar("signed in", default=None)
"""Who asks; None while no person was entered: then everything is allowed on this machine and on paired devices."""

FIRM: ContextVar[str | None] = ContextVar("firm", default=None)
"""The firm that a request is about where nobody signs in for it: that of a customer's link. None for the first."""


def may(right: Right) -> bool:
    """Return whether who asks has a right; everybody has while no person was entered."""
    signed_in = SIGNED_IN.get()
    return signed_in is None or right in signed_in.rights


def firm_at_hand() -> str | None:
    """Return the firm that this request is about; None for the first one of the installation."""
    signed_in = SIGNED_IN.get()
    return FIRM.get() if signed_in is None else signed_in.firm_id


def context_of_firm() -> Context:
    """Return a context for work that is about this firm and is nobody's own: what it brings is kept for everybody."""
    firm_id, context = firm_at_hand(), copy_context()
    context.run(SIGNED_IN.set, None)
    context.run(FIRM.set, firm_id)
    return context
