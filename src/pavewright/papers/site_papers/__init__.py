"""Site papers: what the crew fills in, ticks off and works from, day by day.

Where work stops until somebody has looked, with the planned level at each peg and an empty box; setting out with the
services near the pins; the laying plan square by square; cuts by saw set-up; mixes; bags against area laid; the log of
a day, of deliveries and of waste. What the plan does not know is an empty box that says so.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.papers.site_papers._document import document
else:
    __getattr__ = face(__name__)

__all__ = ["document"]
