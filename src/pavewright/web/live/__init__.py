"""Live: whoever listens to a job or to every job is told at once that somebody changed it, and who else is there.

What is told is names of jobs and numbers alone; whoever is told asks for the rest by the usual addresses, so that
rights hold there as always. The source is the database itself: what another program changes is told as well.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.web.live._hub import Live
    from pavewright.web.live._routes import ROUTES
else:
    __getattr__ = face(__name__)

__all__ = [
    "ROUTES",
    "Live",
]
