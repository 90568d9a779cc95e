"""What all parts of the document share: strictness, names and bounded numbers."""

from __future__ import annotations

import re
from typing import Annotated

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, StringConstraints

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

Text = Annotated[str, BeforeValidator(without_controls), StringConstraints(max_length=2000, pattern=r"^[^\x00]*$")]
"""Free words."""

Millimetres = Annotated[float, Field(ge=-10_000_000.0, le=10_000_000.0)]
"""A place or a level. [mm]"""

LevelOrPoint = Millimetres | Name
"""A level, or the name of a point whose level is taken: one that a level book or a height gives."""

Length = Annotated[float, Field(gt=0.0, le=1_000_000.0)]
"""A length that is more than zero. [mm]"""

NonNegativeLength = Annotated[float, Field(ge=0.0, le=1_000_000.0)]
"""A length that may be nothing. [mm]"""

Percent = Annotated[float, Field(ge=0.0, le=100.0)]
"""A part of a hundred. [%]"""

Minor = Annotated[int, Field(ge=0, le=10_000_000_000)]
"""Money in whole minor units (pence, cents)."""


class Part(BaseModel):
    """A part of the document: strict, closed, unchangeable, no NaN."""

    model_config = ConfigDict(strict=True, extra="forbid", frozen=True, allow_inf_nan=False)
