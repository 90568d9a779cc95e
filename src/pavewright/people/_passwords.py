"""What a good password is: long, and none that everybody tries first."""

from __future__ import annotations

from enum import StrEnum

PASSWORD_MIN = 12
"""Signs that a password has at least."""
PASSWORD_MAX = 200
"""Signs that a password has at most."""
_DIFFERENT_MIN = 5
_COMMON_LINES = (
    "password passw0rd letmein welcome iloveyou sunshine princess football baseball superman batman dragon monkey",
    "qwerty qwertyuiop qwertyuiopasdf asdfghjkl asdfghjklzxcvbnm zxcvbnm admin administrator changeme changemenow",
    "trustno1 whatever starwars liverpool arsenal chelsea manchester charlie michael summer winter autumn spring",
    "abcdef abcdefgh abcdefghijkl letmeinletmein correcthorsebatterystaple mypassword secret topsecret paving",
    "pavewright patio driveway builder landscape",
)
"""Words that most lists of tried passwords begin with, from memory, and those of this trade."""
_COMMON = frozenset(word for line in _COMMON_LINES for word in line.split())


class PasswordFault(StrEnum):
    """Why a password is not taken."""

    SHORT = "short"
    LONG = "long"
    COMMON = "common"
    OWN_NAME = "own_name"


def password_fault(password: str, sign_in: str = "") -> PasswordFault | None:
    """Return why a password is not taken, None where it is.

    Args:
        password: What somebody typed.
        sign_in: The name by which he or she signs in.

    Source: common practice

    >>> password_fault("wet gloves on a Monday")
    >>> password_fault("Password1234!").value
    'common'
    >>> password_fault("short").value
    'short'
    """
    if len(password) < PASSWORD_MIN:
        return PasswordFault.SHORT
    if len(password) > PASSWORD_MAX:
        return PasswordFault.LONG
    plain = "".join(sign for sign in password.casefold() if sign.isalnum())
    letters = plain.rstrip("0123456789").lstrip("0123456789")
    if len(set(plain)) < _DIFFERENT_MIN or not letters or _is_common(letters) or _is_common(plain):
        return PasswordFault.COMMON
    own = "".join(sign for sign in sign_in.casefold() if sign.isalnum())
    return PasswordFault.OWN_NAME if own and letters == own else None


def _is_common(word: str) -> bool:
    """Return whether a word is common, or a common one written several times."""
    return any(word == each * (len(word) // len(each)) for each in _COMMON if len(word) % len(each) == 0)
