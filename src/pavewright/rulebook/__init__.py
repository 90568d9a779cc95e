"""Rulebook: the figures of the trade, by edition, read from plain text files.

An edition is a folder of files, one a room, each figure with its unit, source, place and status. An edition for a place
extends the common one and says only what differs there; a job names it as its locality. Editions of your own stand in
a folder that the variable PAVEWRIGHT_RULEBOOKS names.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.rulebook._load import NEUTRAL, OWN_EDITIONS, RulebookError, editions, load, localities, sources
else:
    __getattr__ = face(__name__)

__all__ = ["NEUTRAL", "OWN_EDITIONS", "RulebookError", "editions", "load", "localities", "sources"]
