"""Changes of the document that an option asks for, applied to a job."""

from __future__ import annotations

import itertools
import json
from typing import TYPE_CHECKING, Any

from pavewright.job._read import parse, to_text

if TYPE_CHECKING:
    from collections.abc import Iterable

    from pavewright.findings import FieldChange
    from pavewright.job._document import Job


def changed(job: Job, changes: Iterable[FieldChange]) -> Job:
    """Return a job with fields of its document changed; lists grow by one, and what is missing on the way is made.

    Raises:
        JobInvalid: the changed document is no job.
    """
    document: dict[str, Any] = json.loads(to_text(job))
    for change in changes:
        _put(document, change)
    return parse(document)


def _put(document: dict[str, Any], change: FieldChange) -> None:
    steps: list[str | int] = [int(step) if step.isdigit() else step for step in change.path.split(".")]
    here: Any = document
    for step, following in itertools.pairwise(steps):
        made: Any = [] if isinstance(following, int) else {}
        if isinstance(step, int):
            if step == len(here):
                here.append(made)
        elif here.get(step) is None:
            here[step] = made
        here = here[step]
    here[steps[-1]] = change.value
