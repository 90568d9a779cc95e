"""The forms that a customer sends, read within bounds."""

from __future__ import annotations

from typing import TYPE_CHECKING
from urllib.parse import parse_qs

from pavewright.web._safety import TooMuchError

if TYPE_CHECKING:
    from starlette.requests import Request

_FORM_MAX = 64_000
_FIELDS_MAX = 40


async def form_of(request: Request) -> dict[str, list[str]]:
    """Return the fields of a form; none where it is none, or more than the forms here hold."""
    if request.headers.get("content-type", "").partition(";")[0].strip() != "application/x-www-form-urlencoded":
        return {}
    content = b""
    try:
        async for part in request.stream():
            content += part
            if len(content) > _FORM_MAX:
                return {}
        return parse_qs(content.decode("utf-8", "replace"), keep_blank_values=True, max_num_fields=_FIELDS_MAX)
    except (TooMuchError, ValueError):
        return {}
