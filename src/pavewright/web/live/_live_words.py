"""The words of the live door."""

from __future__ import annotations

TOO_MANY_OF_YOURS = "Too many streams of yours are open at once: close those that are not used."
TOO_MANY = "The server has as many streams open as it can: ask again in a while."
STOPPING = "The server is being stopped."
