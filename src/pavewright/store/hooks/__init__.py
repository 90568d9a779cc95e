"""Hooks: addresses of other programs that are told when something happens, and what is still to be told to each.

What is to be told is kept in the same step of the database as the change itself: it is told for every change that was
kept, and for no other. It goes out at least once, later and later where nobody answers, and after some days not any
more until a person says so.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.store.hooks._hooks import Hooks, UnknownHookError
    from pavewright.store.hooks._outbox import post
    from pavewright.store.hooks._tables import HOOKS, MESSAGES
    from pavewright.store.hooks._types import Due, Event, Hook, Message, MessageState
else:
    __getattr__ = face(__name__)

__all__ = [
    "HOOKS",
    "MESSAGES",
    "Due",
    "Event",
    "Hook",
    "Hooks",
    "Message",
    "MessageState",
    "UnknownHookError",
    "post",
]
