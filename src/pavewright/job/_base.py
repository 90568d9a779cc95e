"""What all parts of the document share: strictness, names and bounded numbers."""

from __future__ import annotations

import re
from typing import Annotated, Any

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, StringConstraints

from pavewright.typed import LengthKind

_CONTROL = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\ufeff\ufff9-\ufffb\ufffe\uffff]")
"""Signs that steer a printer or a terminal, or are no signs at all: no name or note means them."""


def without_controls(words: object) -> object:
    """Return words without signs that steer; anything else as it is."""
    return _CONTROL.sub("", words.replace("\r\n", "\n").replace("\r", "\n")) if isinstance(words, str) else words


Name = Annotated[
    str,
    BeforeValidator(without_controls),
    StringConstraints(min_length=1, max_length=60, pattern=r"^[^\x00-\x1f]+$", strip_whitespace=True),
]
"""A name as written on the sketch. Letters, numbers and spaces of any language."""

Slug = Annotated[str, StringConstraints(pattern="^[a-z][a-z0-9_]{0,59}$")]
"""A key that the program made, never typed: small letters, figures and underscores."""

Text = Annotated[str, BeforeValidator(without_controls), StringConstraints(max_length=2000, pattern=r"^[^\x00]*$")]
"""Free words."""


def of_kind(kind: LengthKind) -> Any:  # noqa: ANN401 - what pydantic's Field gives
    """Return the hint of a field that says in the schema what kind of length it takes."""
    return Field(json_schema_extra={"length": kind.value})


Millimetres = Annotated[float, Field(ge=-10_000_000.0, le=10_000_000.0), of_kind(LengthKind.LEVEL)]
"""A level, where no other kind is said. [mm]"""


Place = Annotated[Millimetres, of_kind(LengthKind.PLACE)]
"""East or north on the site grid. [mm]"""

Along = Annotated[Millimetres, of_kind(LengthKind.SITE)]
"""A way along a line, negative behind its start. [mm]"""

Offset = Annotated[Millimetres, of_kind(LengthKind.OFFSET)]
"""A small distance off a line or a height over a point, on either side. [mm]"""

StaffReading = Annotated[Millimetres, of_kind(LengthKind.READING)]
"""What is read on a staff. [mm]"""

Length = Annotated[float, Field(gt=0.0, le=1_000_000.0), of_kind(LengthKind.SITE)]
"""A length that is more than zero, of the site where no other kind is said. [mm]"""

Run = Annotated[Length, of_kind(LengthKind.RUN)]
"""A long way, as of a pipe. [mm]"""

Size = Annotated[Length, of_kind(LengthKind.SIZE)]
"""A side of a thing that one man carries or steps over. [mm]"""

Depth = Annotated[Length, of_kind(LengthKind.OFFSET)]
"""A depth or a height that is more than zero. [mm]"""

Thickness = Annotated[Length, of_kind(LengthKind.THICKNESS)]
"""A thickness that is more than zero. [mm]"""

Accuracy = Annotated[float, Field(gt=0.0, le=1000.0), of_kind(LengthKind.ACCURACY)]
"""A standard deviation. [mm]"""

NonNegativeLength = Annotated[float, Field(ge=0.0, le=1_000_000.0), of_kind(LengthKind.OFFSET)]
"""A length that may be nothing, short where no other kind is said. [mm]"""

AlongWall = Annotated[NonNegativeLength, of_kind(LengthKind.SITE)]
"""A way along a wall from its start. [mm]"""

LongWay = Annotated[NonNegativeLength, of_kind(LengthKind.RUN)]
"""A way that is walked, or none. [mm]"""

Joint = Annotated[NonNegativeLength, of_kind(LengthKind.JOINT)]
"""A joint, or none. [mm]"""

Topsoil = Annotated[NonNegativeLength, of_kind(LengthKind.THICKNESS)]
"""A thickness, or none. [mm]"""

Tolerance = Annotated[NonNegativeLength, of_kind(LengthKind.ACCURACY)]
"""How far something may be off. [mm]"""

Percent = Annotated[float, Field(ge=0.0, le=100.0)]
"""A part of a hundred. [%]"""

Minor = Annotated[int, Field(ge=0, le=10_000_000_000)]
"""Money in whole minor units (pence, cents)."""

SignedMinor = Annotated[int, Field(ge=-10_000_000_000, le=10_000_000_000)]
"""Money in whole minor units that may be less than zero: a difference."""

Sha256 = Annotated[str, StringConstraints(pattern="^[0-9a-f]{64}$")]
"""The SHA-256 of a file, in hexadecimal."""


class Part(BaseModel):
    """A part of the document: strict, closed, unchangeable, no NaN."""

    model_config = ConfigDict(strict=True, extra="forbid", frozen=True, allow_inf_nan=False)


class Assumed(Part):
    """Says that something was neither measured nor seen: who takes it to be so, and why."""

    by: Name = Field(description="Who assumes it.")
    why: Text = Field("", description="What it is assumed from.")


class AssumedLevel(Part):
    """A level that nobody read: what it is taken to be, by whom, and why."""

    assumed_mm: Millimetres = Field(description="What it is taken to be. [mm]")
    by: Name = Field(description="Who assumes it.")
    why: Text = Field("", description="What it is assumed from.")


LevelOrPoint = Millimetres | Name | AssumedLevel
"""A level, the name of a point whose level is taken (one that a level book or a height gives), or one that is assumed."""
