"""Rulebook: the figures of the trade, by edition, read from plain text files.

An edition is a folder of files, one a room, each figure with its unit, source, place and status. An edition for a place
extends the common one and says only what differs there; a job names it as its locality. Editions of your own stand in
a folder that the variable PAVEWRIGHT_RULEBOOKS names. Each has a date; of one place there may be several, an earlier
one in a folder whose edition.toml names the place (``locality = "england"``). A job keeps the one that it names.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.rulebook._load import (
        NEUTRAL,
        OWN_EDITIONS,
        RulebookError,
        edition_of,
        editions,
        load,
        localities,
        newest,
        place_names,
        sources,
        zone_of,
    )
else:
    __getattr__ = face(__name__)

__all__ = [
    "NEUTRAL",
    "OWN_EDITIONS",
    "RulebookError",
    "edition_of",
    "editions",
    "load",
    "localities",
    "newest",
    "place_names",
    "sources",
    "zone_of",
]
