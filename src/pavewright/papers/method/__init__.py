"""The method and risk sheet: what on this job hurts people, the usual caution, where it comes from, what to ask first.

All figures come from the method of the plan; what nobody knows is asked. Nothing on it says that work is without risk:
local codes and licensed practice decide.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.papers.method._document import document
else:
    __getattr__ = face(__name__)

__all__ = ["document"]
