"""Words of signing in."""

from __future__ import annotations

from pavewright.people import PASSWORD_MAX, PASSWORD_MIN, PasswordFault, Strength

SIGN_IN_FIRST = "Sign in first."
NOT_ALLOWED = "You may not do this here. An owner of the firm can allow it."
TOO_OFTEN = "This address asks too often: wait a minute."
WRONG = "The name, the password or the code is not right."
CLOSED = "This link opens nothing: it was used, withdrawn or is too old. Ask an owner for a new one."
TAKEN = "Somebody signs in by this name already: choose another one."
NAME_MISSING = "Write your name, and a short name to sign in by."
UNREAD = "The form could not be read: fill it in again."
PASSWORD_FAULTS = {
    PasswordFault.SHORT: f"A password has at least {PASSWORD_MIN} characters. Four words in a row are good.",
    PasswordFault.LONG: f"A password has at most {PASSWORD_MAX} characters.",
    PasswordFault.COMMON: "This password is one of those that are tried first: choose another one.",
    PasswordFault.OWN_NAME: "This password is your own name: choose another one.",
}
STRENGTHS = {
    Strength.WEAK: "Easily guessed. One more word helps.",
    Strength.FAIR: "Good.",
    Strength.STRONG: "Strong.",
}
_MINUTE_S = 60


def wait_words(seconds: int) -> str:
    """Return that somebody has to wait.

    >>> wait_words(15)
    'Too many tries: wait 15 seconds.'
    """
    if seconds < _MINUTE_S:
        return f"Too many tries: wait {seconds} seconds."
    minutes = -(-seconds // _MINUTE_S)
    return f"Too many tries: wait {minutes} minute{'' if minutes == 1 else 's'}."
