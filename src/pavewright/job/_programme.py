"""What the programme is told beside the calendar: where work stops to be looked at, what is pinned, what is done."""

from __future__ import annotations

import datetime as dt
from enum import StrEnum
from typing import Annotated

from pydantic import Field

from pavewright.job._base import Part, Text

TaskName = Annotated[str, Field(pattern=r"^[a-z][a-z0-9_.]{0,59}$")]
"""Key of a task or a wait of the programme, as the plan names it; made by the program, never typed as a name."""


class HoldKind(StrEnum):
    """Where work stops until somebody has looked."""

    FORMATION = "formation"
    DRAINS = "drains"
    LAYER = "layer"
    SNAG = "snag"


class HoldPoint(Part):
    """How long work stands still until somebody has looked."""

    key: HoldKind = Field(
        description="What is looked at: the formation before stone, drains while they lie open, each layer of stone that "
        "goes in by itself before it is covered, or the finished work with the customer."
    )
    wait_h: Annotated[float, Field(ge=0.0, le=1000.0)] = Field(
        0.0, description="From the end of the work to the word to go on, nights included. [h]"
    )
    by: Text = Field("", description="Who looks: the crew, an inspector, the customer.")


class PinnedTask(Part):
    """A task that is not to begin before a day, whatever would allow it."""

    task: TaskName = Field(description="Key of the task, as the plan names it.")
    on: dt.date = Field(strict=False, description="It does not begin before this day.")
    reason: Text = Field("", description="Why.")


class DoneTask(Part):
    """Work that is done, whole or in part: what is left is planned from the day after the last that is shown here."""

    task: TaskName = Field(description="Key of the task, as the plan names it.")
    on: dt.date = Field(strict=False, description="The day on which this was so, at its end.")
    since: dt.date | None = Field(None, strict=False, description="The day on which it began; the same day where none.")
    done_percent: Annotated[float, Field(gt=0.0, le=100.0)] = Field(100.0, description="How much of it is done. [%]")
