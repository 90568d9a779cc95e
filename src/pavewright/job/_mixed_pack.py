"""A pack of mixed sizes as it is sold, and what of it lies already."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from pavewright.job._base import Minor, Part, Size
from pavewright.job._buying_terms import BuyingTerms


class LaidSoFar(Part):
    """What lay when the rest was planned again, read off the laying plan in hand."""

    pieces: Annotated[str, Field(pattern=r"^\d{1,5}(-\d{1,5})?(, ?\d{1,5}(-\d{1,5})?)*$", max_length=2000)] = Field(
        description='Numbers of all pieces already laid, as "1-37, 41", on the laying plan that this document gives '
        "without this entry and those after it."
    )
    yard: Annotated[tuple[Annotated[int, Field(ge=0, le=10000)], ...], Field(max_length=9)] = Field(
        (),
        description="Sound units of each size left in the yard, in the order of counts; what the packs hold less what "
        "lies where it is left out.",
    )

    @property
    def numbers(self) -> tuple[int, ...]:
        """Numbers of the pieces, each once, in turn."""
        found: set[int] = set()
        for part in self.pieces.split(","):
            first, _, last = part.strip().partition("-")
            found.update(range(int(first), int(last or first) + 1))
        return tuple(sorted(found))


class MixedPack(BuyingTerms):
    """A pack of mixed sizes: what it holds of each unit, and the module on which they fit together."""

    module_mm: Annotated[Size, Field(ge=50.0, le=1000.0)] = Field(
        description="Side of the squares on which the units fit together, joint included. [mm]"
    )
    counts: Annotated[tuple[Annotated[int, Field(ge=1, le=1000)], ...], Field(min_length=1, max_length=9)] = Field(
        description="How many of the unit of the area one pack holds, then of each of course_units in turn."
    )
    covers_m2: Annotated[float, Field(ge=0.0, le=1000.0)] = Field(
        0.0, description="Area that one pack is said to cover, checked against its units; 0 where it is not said. [m2]"
    )
    pack_price_minor: Minor | None = Field(
        None,
        description="Price of one mixed pack, before tax; left out where each size is bought by itself. [minor units]",
    )
    parts: Annotated[int, Field(ge=1, le=20)] = Field(
        1, description="Equal parts in which the seller splits a pack; 1 where only whole packs are sold."
    )
    laid: Annotated[tuple[LaidSoFar, ...], Field(max_length=20)] = Field(
        (), description="What was laid each time that the rest was planned again, earliest first."
    )
