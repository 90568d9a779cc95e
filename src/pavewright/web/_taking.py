"""Taking what is sent: no more than its kind may hold, what it is by its content, and scanned where that is set up."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.web._answers import AskedWrongError
from pavewright.web._long_tasks import LOG
from pavewright.web._safety import TooMuchError
from pavewright.web._scanning import Scan
from pavewright.web._upload_words import WORDS
from pavewright.web._uploads import kind_at, named, refusal_of, too_much_of

if TYPE_CHECKING:
    from pathlib import Path

    from starlette.requests import Request

    from pavewright.web._scanning import Scanned, Scanner
    from pavewright.web.sign_in import Guard

REFUSED_BY_SCAN = "file refused by the scan"
"""What is noted of a file that the scan refused, or that could not be scanned."""


async def file_of(request: Request) -> bytes:
    """Return the file that was sent.

    Raises:
        AskedWrongError: it is larger than its kind may be, is something else, or the scan refuses it.
    """
    kind = kind_at(request.url.path)
    try:
        content = await request.body()
    except TooMuchError as problem:
        raise AskedWrongError(413, too_much_of(kind)) from problem
    must_be_taken(request, content)
    scanner: Scanner | None = request.app.state.scanner
    if scanner is not None and content:
        await _heed(request, await scanner.content(content))
    return content


def must_be_taken(request: Request, beginning: bytes) -> None:
    """Look at the first bytes of a file that is sent.

    Raises:
        AskedWrongError: it is something else than its address takes.
    """
    refusal = refusal_of(kind_at(request.url.path), beginning)
    if refusal is not None:
        raise AskedWrongError(415, refusal)


async def scan_file(request: Request, path: Path) -> None:
    """Scan a file that was sent and stands on the disk, where that is set up.

    Raises:
        AskedWrongError: the scan refuses it, or could not be done.
    """
    scanner: Scanner | None = request.app.state.scanner
    if scanner is not None:
        await _heed(request, await scanner.file(path))


async def _heed(request: Request, scanned: Scanned) -> None:
    if scanned.scan is Scan.CLEAN:
        return
    kind = kind_at(request.url.path)
    guard: Guard = request.app.state.guard
    LOG.warning("a scan: %s, %s, code %s", kind.value, scanned.scan.value, scanned.code)
    facts = {"what": kind.value, "scan": scanned.scan.value, "code": scanned.code}
    await guard.note(request, REFUSED_BY_SCAN, facts)
    if scanned.scan is Scan.REFUSED:
        raise AskedWrongError(422, WORDS.infected(what=named(kind)))
    raise AskedWrongError(503, WORDS.not_scanned(what=named(kind).capitalize()))
