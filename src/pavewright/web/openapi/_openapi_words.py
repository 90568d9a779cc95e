"""The words of the description of the routes."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

ABOUT = (
    "Every way into a server of pavewright. Lengths are millimetres, money is whole smallest coins of its "
    "currency; the unit is the "
    "end of the name. What is not known is null or left out; it is never zero."
)
COOKIE = "The cookie of a signed-in device."
GOOD = "Done."
OPERATION = "A small change of a job: what it does, where, and the value; see the page on operations."
LEADS = {
    303: "Done: the address to go on to stands in Location.",
    304: "The same as what is at hand.",
}
REFUSALS = {
    400: "What was sent makes no sense; the message says why.",
    401: "Nobody is signed in, and there is no token.",
    403: "Who asks may not do this.",
    404: "There is no such thing here.",
    409: "Something changed meanwhile, or does not fit what is there.",
    413: "That is more than is taken at once.",
    415: "What was sent is of another kind than is taken.",
    422: "What was sent cannot be taken; the message says why.",
    429: "Too much at once: ask again after Retry-After.",
    503: "Not now: the server is busy, or the disk refuses.",
}
OPEN = "Answered to everybody."
BY_HAND = "For a person who is signed in; a token is refused."
DOCS_TITLE = "Ways in for other programs"
DOCS_INTRO = (
    "The same as JSON for programs: <a href='/api/openapi.json'>/api/openapi.json</a>. Where people sign in, a program "
    "sends its token: <code>Authorization: Bearer TOKEN</code>."
)


def token(scopes: Sequence[str]) -> str:
    """Return what a token is, with the scopes that there are."""
    return f"A token of a program. Its scopes are among: {', '.join(scopes)}."


def scopes(rights: Sequence[str]) -> str:
    """Return what a token needs."""
    return f"Scopes: {', '.join(rights)}." if rights else "Any token."
