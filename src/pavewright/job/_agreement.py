"""Where and when a job is agreed: it decides whether the customer may cancel, and until when."""

from __future__ import annotations

import datetime as dt
from enum import StrEnum

from pydantic import Field

from pavewright.job._base import Part


class AgreementPlace(StrEnum):
    """Where contractor and customer agree the job."""

    HOME = "home"
    DISTANCE = "distance"
    PREMISES = "premises"


class Agreement(Part):
    """Where and when the job is agreed. What is left out is not known."""

    place: AgreementPlace | None = Field(
        None,
        description="At the customer's home, at a distance (post, telephone, internet), or at the contractor's own "
        "premises; left out where nobody has said.",
    )
    on: dt.date | None = Field(None, strict=False, description="Day on which it is agreed; left out until it is known.")
