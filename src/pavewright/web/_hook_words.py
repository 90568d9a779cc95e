"""The words of telling other programs."""

from __future__ import annotations

NO_ADDRESS = "This is no address that can be told: write one such as https://office.example/hook."
NOT_SECURE = "Only secure addresses are told: https."
NOT_FOUND = "That machine is not found: look at the address."
PRIVATE = "That address leads into a private network, and those are not told."


def answered(status: int) -> str:
    """Return what the other side answered."""
    return f"answered {status}"


def no_answer(kind: str) -> str:
    """Return that nothing came back."""
    return f"no answer ({kind})"
