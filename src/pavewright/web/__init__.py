"""Web: the same desk, in a browser.

One process answers the pages and keeps the jobs; everything that is worked out is worked out by workers beside it,
which can be stopped. Pages are plain modules of the browser, without a build.
"""

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.web._app import make_app
    from pavewright.web._crew import Crew
    from pavewright.web._serve import PortTakenError, serve

__all__ = ["Crew", "PortTakenError", "make_app", "serve"]

_ROOMS = {"Crew": "_crew", "PortTakenError": "_serve", "make_app": "_app", "serve": "_serve"}


def __getattr__(name: str) -> object:
    """Load what is asked for: a worker needs nothing of the pages."""
    if name not in _ROOMS:
        message = f"module {__name__!r} has no attribute {name!r}"
        raise AttributeError(message)
    return getattr(import_module(f"{__name__}.{_ROOMS[name]}"), name)
