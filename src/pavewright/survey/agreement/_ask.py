"""All that is asked about a job whose readings make a plan."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.survey.agreement._dates import dates
from pavewright.survey.agreement._ground import ground_spots, things_in_the_ground
from pavewright.survey.agreement._magnitude import far_levels
from pavewright.survey.agreement._prices import prices
from pavewright.survey.agreement._restraints import restraints
from pavewright.survey.agreement._same_point import read_twice
from pavewright.survey.agreement._sizes import sizes
from pavewright.survey.agreement._staff import staff_readings
from pavewright.survey.agreement._walls import walls

if TYPE_CHECKING:
    from pavewright.findings import Finding
    from pavewright.job import Job
    from pavewright.survey._figures import SurveyFigures
    from pavewright.survey._types import Survey


def disagreements(job: Job, survey: Survey, figures: SurveyFigures) -> tuple[Finding, ...]:
    """Return a finding for everything that does not agree with what it has to agree with.

    Args:
        job: The job, as it was written.
        survey: What its readings make.
        figures: How far each may be off.
    """
    return (
        *far_levels(job, survey, figures),
        *staff_readings(job, figures),
        *read_twice(job, survey, figures),
        *walls(survey, figures),
        *ground_spots(job, survey, figures),
        *things_in_the_ground(survey, figures),
        *sizes(job, survey, figures),
        *restraints(survey, figures),
        *prices(job, figures),
        *dates(job, figures),
    )
