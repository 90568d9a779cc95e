"""Who and where, and what was promised of the finished paving."""

from __future__ import annotations

import datetime as dt
from enum import StrEnum
from typing import Annotated

from pydantic import Field, ValidationInfo, field_validator
from pydantic_core import PydanticCustomError

from pavewright.job._base import Name, Part, Text
from pavewright.writing import Measure

LOCALITIES = "localities"
"""Under this name the editions that there are go into the reading of a job."""


class Identity(Part):
    """Who and where."""

    job: Name = Field(description="Number or short name of the job.")
    title: Text
    client: Text = ""
    address: Text = ""
    contractor: Text = ""
    date: dt.date = Field(strict=False, description="Date of this revision; stands on every sheet.")
    revision: Annotated[int, Field(ge=0, le=9999)] = Field(0, description="Number of this revision, from 0.")
    locality: Annotated[str, Field(pattern="^[a-z][a-z0-9_]{0,39}$")] = Field(
        description="Whose rules hold: an edition of the rulebook."
    )
    edition: dt.date | None = Field(
        None,
        strict=False,
        description="Date of the edition of the rulebook that the job was planned with and keeps; the newest where none is "
        "given.",
    )
    currency: Annotated[str, Field(pattern="^[A-Z]{3}$")] = "GBP"
    region: Annotated[str, Field(pattern="^[A-Z]{2}$")] | None = Field(
        None,
        description="Region, two letters, as whose people numbers and dates are written; by locality and currency where "
        "none is given. Where rules name no place it also gives the time zone of the site, if the region has no more "
        "than one.",
    )
    measure: Measure | None = Field(
        None, description="Whether feet and inches stand beside metres; by the region where none is given."
    )
    invented: bool = Field(default=False, description="Whether names and prices are invented, for examples.")

    @field_validator("locality")
    @classmethod
    def _is_known(cls, locality: str, asked: ValidationInfo) -> str:
        """Refuse a place of which there is no edition, where whoever reads the job says which there are."""
        known = (asked.context or {}).get(LOCALITIES, ())
        if known and locality not in known:
            kind, words = "enum", "no such edition"
            raise PydanticCustomError(kind, words, {"expected": ", ".join(known)})
        return locality


class ToleranceRegime(StrEnum):
    """Which as-laid limits were promised."""

    FLAGS = "flags"
    BLOCKS = "blocks"
