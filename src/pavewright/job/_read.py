"""Reading a document: text to a job, or every fault with its place."""

from __future__ import annotations

import json
from typing import Any

from pydantic import ValidationError

from pavewright.job._document import Job
from pavewright.job._faults import Fault, JobInvalid


def load_document(text: str | bytes) -> dict[str, Any]:
    """Return the document as a plain dictionary.

    Raises:
        JobInvalid: not JSON, or not an object.
    """
    try:
        document = json.loads(text)
    except (ValueError, RecursionError) as problem:
        raise JobInvalid((Fault("", f"The file is not JSON: {problem}."),)) from None
    if not isinstance(document, dict):
        raise JobInvalid((Fault("", "The file holds no job document."),))
    return document


def parse(document: dict[str, Any]) -> Job:
    """Return the job in a document.

    Raises:
        JobInvalid: with every fault found.
    """
    try:
        return Job.model_validate_json(json.dumps(document))
    except ValidationError as problem:
        raise JobInvalid(
            tuple(Fault(".".join(str(p) for p in error["loc"]), error["msg"]) for error in problem.errors())
        ) from None


def schema() -> dict[str, Any]:
    """Return the JSON Schema (draft 2020-12) of the job document."""
    return Job.model_json_schema()


def to_text(job: Job) -> str:
    """Return the job as a document, keys in the order of the schema."""
    return job.model_dump_json(indent=1, exclude_none=True) + "\n"
