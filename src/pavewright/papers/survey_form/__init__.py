"""The survey form: what is filled in by hand at the house, and what came of it.

Squared paper, tapes, a level book with its sums, and the questions of the walk round. What the job knows stands on it
already; the empty room is for what is open. A job that knows nothing gives the blank form. Once something is measured
the adjusted survey follows.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.papers.survey_form._form import document
else:
    __getattr__ = face(__name__)

__all__ = ["document"]
