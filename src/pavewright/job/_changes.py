"""Changes of the document that an option asks for, applied to a job."""

from __future__ import annotations

import copy
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
    return parse(changed_document(json.loads(to_text(job)), changes))


def changed_document(document: dict[str, Any], changes: Iterable[FieldChange]) -> dict[str, Any]:
    """Return a copy of a document with fields of it changed; it is not checked whether it still is a job.

    Raises:
        LookupError: a change leads nowhere in the document.
        TypeError: it does.
        AttributeError: it does.
    """
    made = copy.deepcopy(document)
    for change in changes:
        _put(made, change)
    return made


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
