"""Reading what a browser sends, and answering it."""

from __future__ import annotations

import json
import re
from typing import TYPE_CHECKING, Any

from starlette.responses import JSONResponse, Response

from pavewright.job import NotJobJsonError, strict_json
from pavewright.web._safety import TooMuchError
from pavewright.web._uploads import kind_at, too_much_of

if TYPE_CHECKING:
    from starlette.requests import Request

_NAME = re.compile(r"[A-Za-z0-9_-]{1,64}")
_NUMBER_MAX = 1e12
"""A number beyond this is none that a job holds."""
JOB_MAX = 5_000_000
"""Most that a job document may hold. [bytes]"""


class AskedWrongError(Exception):
    """The request is not one that can be answered; carries the status and a sentence."""

    def __init__(self, status: int, message: str) -> None:
        """Keep both."""
        super().__init__(message)
        self.status = status
        self.message = message


async def body_of(request: Request) -> bytes:
    """Return what was sent.

    Raises:
        AskedWrongError: more than is taken.
    """
    try:
        return await request.body()
    except TooMuchError as problem:
        raise AskedWrongError(413, too_much_of(kind_at(request.url.path))) from problem


async def sent(request: Request) -> dict[str, Any]:
    """Return the JSON object that was sent.

    Raises:
        AskedWrongError: what was sent is not a JSON object.
    """
    if request.headers.get("content-type", "").partition(";")[0].strip() != "application/json":
        raise AskedWrongError(415, "Send JSON.")
    try:
        value = strict_json((await body_of(request)).decode("utf-8"))
    except UnicodeDecodeError as problem:
        raise AskedWrongError(400, "What was sent is not text in UTF-8.") from problem
    except NotJobJsonError as problem:
        raise AskedWrongError(400, f"What was sent is not JSON that is taken: {problem.message}") from problem
    if not isinstance(value, dict):
        raise AskedWrongError(400, "Send a JSON object.")
    return value


def text_in(value: dict[str, Any], name: str, most: int, *, default: str | None = None) -> str:
    """Return a text of what was sent.

    Raises:
        AskedWrongError: it is missing, no text or too long.
    """
    found = value.get(name, default)
    if not isinstance(found, str) or len(found) > most:
        raise AskedWrongError(400, f"{name} is to be text of at most {most} letters.")
    if any("\ud800" <= letter <= "\udfff" or letter == "\x00" for letter in found):
        raise AskedWrongError(400, f"{name} holds characters that no text may hold.")
    return found


def whole_in(value: dict[str, Any], name: str) -> int:
    """Return a whole number of what was sent.

    Raises:
        AskedWrongError: it is missing or no whole number that can be kept.
    """
    found = value.get(name)
    if not isinstance(found, int) or isinstance(found, bool) or not 0 <= found < 2**31:
        raise AskedWrongError(400, f"{name} is to be a whole number.")
    return found


def number_in(value: dict[str, Any], name: str) -> float | None:
    """Return a number of what was sent, None where there is none.

    Raises:
        AskedWrongError: it is something else.
    """
    found = value.get(name)
    if found is None:
        return None
    if isinstance(found, bool) or not isinstance(found, int | float) or abs(found) > _NUMBER_MAX:
        raise AskedWrongError(400, f"{name} is to be a number.")
    return float(found)


def name_in(text: str) -> str:
    """Return a name out of an address.

    Raises:
        AskedWrongError: it is none.
    """
    if not _NAME.fullmatch(text):
        raise AskedWrongError(404, "There is nothing of that name.")
    return text


def document_in(value: dict[str, Any]) -> str:
    """Return the job document of what was sent, as text that is kept as it is.

    Raises:
        AskedWrongError: there is none, it is too long, or it is no JSON object.
    """
    document = value.get("document")
    if isinstance(document, dict):
        document = json.dumps(document, ensure_ascii=False, indent=1)
    if not isinstance(document, str):
        raise AskedWrongError(400, "document is to be a job document.")
    try:
        if not isinstance(strict_json(document), dict):
            raise AskedWrongError(400, "A job document is a JSON object.")
    except NotJobJsonError as problem:
        raise AskedWrongError(400, f"The job document is not JSON that is taken: {problem.message}") from problem
    size = len(document.encode())
    if size > JOB_MAX:
        raise AskedWrongError(413, "The job document is longer than any job.")
    return document


def answer(value: Any, status: int = 200) -> Response:  # noqa: ANN401 - anything that JSON holds
    """Answer with JSON that is not kept by the browser."""
    return JSONResponse(value, status, headers={"Cache-Control": "no-store"})


def answer_bytes(content: bytes, media: str = "application/json", name: str | None = None) -> Response:
    """Answer with bytes, as a file where it has a name."""
    headers = {"Cache-Control": "no-store"}
    if name is not None:
        headers["Content-Disposition"] = f'attachment; filename="{name}"'
    return Response(content, media_type=media, headers=headers)
