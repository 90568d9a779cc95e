"""Standing: what a person says of how a job goes in the firm, beside what follows from the job by itself.

The state that somebody set by hand, why a quotation was not taken, and visits that are promised, with their days.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.job.standing._standing import JobState, NotTaken, PromisedVisit, SetByHand, Standing, VisitKind
else:
    __getattr__ = face(__name__)

__all__ = ["JobState", "NotTaken", "PromisedVisit", "SetByHand", "Standing", "VisitKind"]
