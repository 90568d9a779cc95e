"""What a person says of how a job goes in the firm."""

from __future__ import annotations

import datetime as dt
from enum import StrEnum
from typing import Annotated

from pydantic import Field

from pavewright.job._base import Name, Part, Text


class JobState(StrEnum):
    """How far a job is in the firm, from the first call to years after the last joint; the last two are ends."""

    ENQUIRY = "enquiry"
    VISIT = "visit"
    QUOTED = "quoted"
    ACCEPTED = "accepted"
    PLANNED = "planned"
    ON_SITE = "on_site"
    SNAGGING = "snagging"
    PAID = "paid"
    WATCHED = "watched"
    LOST = "lost"
    DECLINED = "declined"


class NotTaken(StrEnum):
    """Why a job is not done by the firm."""

    PRICE = "price"
    DATES = "dates"
    OTHER_FIRM = "other_firm"
    NO_ANSWER = "no_answer"
    PUT_OFF = "put_off"
    NOT_OUR_WORK = "not_our_work"
    TOO_FAR = "too_far"
    OTHER = "other"


class SetByHand(Part):
    """A state that somebody set: it wins over what follows from the job."""

    state: JobState = Field(description="How far the job is said to be.")
    on: dt.date = Field(strict=False, description="Day on which it was set.")
    by: Text = Field("", description="Who set it.")
    why: NotTaken | None = Field(
        None, description="Why the job is not done, where it is lost or declined; left out where nobody said."
    )
    note: Text = ""


class VisitKind(StrEnum):
    """What a visit is for."""

    LOOK = "look"
    MEASURE = "measure"
    TALK = "talk"
    LATER = "later"


class PromisedVisit(Part):
    """A visit that was promised to the customer."""

    name: Name = Field(description="Its name in the list, made by whoever enters it; each visit has its own.")
    kind: VisitKind = Field(VisitKind.LOOK, description="What it is for: later is a look at work handed over.")
    on: dt.date = Field(strict=False, description="Day that was promised.")
    at_min: Annotated[int, Field(ge=0, lt=1440)] | None = Field(
        None, description="When, after midnight; left out where no time was agreed. [min]"
    )
    by: Text = Field("", description="Who goes.")
    done_on: dt.date | None = Field(None, strict=False, description="Day on which it was made; left out before that.")
    note: Text = ""


class Standing(Part):
    """How the job goes in the firm, as people say. What is left out follows from the job."""

    by_hand: SetByHand | None = Field(
        None, description="State that somebody set by hand; what follows from the job where it is left out."
    )
    visits: tuple[PromisedVisit, ...] = Field((), max_length=200, description="Visits that were promised.")
