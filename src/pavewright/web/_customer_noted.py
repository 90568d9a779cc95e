"""What a customer did by his link is noted as his: in the list of who did what, and in what is written into his job."""

from __future__ import annotations

import contextlib
from typing import TYPE_CHECKING

from pavewright.store import StoreTroubleError, acting_as, customer_by
from pavewright.web._who_asks import FIRM
from pavewright.web.sign_in._guard import guard_of

if TYPE_CHECKING:
    from starlette.requests import Request

    from pavewright.store import Acceptance, QuotationLink


async def note_customer(request: Request, link: QuotationLink, code: str) -> None:
    """Keep in the list of who did what that a customer did something by his link; it is never in the way of that."""
    with contextlib.suppress(StoreTroubleError):
        await guard_of(request).note(request, code, {"job": link.job_id, "link": link.id}, FIRM.get())


async def write_accepted(request: Request, acceptance: Acceptance) -> None:
    """Write what was accepted into its job, as the customer who accepted it."""
    with acting_as(customer_by(acceptance.link_id)):
        await request.app.state.write_acceptance(acceptance)
