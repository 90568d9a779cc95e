"""The job as the server keeps it, asked for after a touch: the screen answers before the server has it."""

from __future__ import annotations

PATIENT_ms = 40_000
AGAIN_ms = 100
TOUCHED = "(key) => { key.click(); return document.querySelector('#unsent').textContent; }"
"""What the page on site or the walk says of what waits, at the very touch of a key."""


def document_of(served, job):
    """Return the document of a job as the server keeps it now."""
    return served.call("GET", f"/api/jobs/{job}")["document"]


def wait_kept(page, served, job, done):
    """Return the document of a job once the server keeps it as it should be.

    `done` says of a document whether it is so; a part that is not there yet means that it is not. The page goes on
    meanwhile.
    """
    for _ in range(PATIENT_ms // AGAIN_ms):
        document = document_of(served, job)
        if _is(done, document):
            return document
        page.wait_for_timeout(AGAIN_ms)
    notes = [one["note"] for one in served.call("GET", f"/api/jobs/{job}/revisions")["revisions"]]
    raise AssertionError(("it was never kept; the revisions of the job", notes))


def _is(done, document):
    try:
        return bool(done(document))
    except (KeyError, IndexError, TypeError):
        return False
