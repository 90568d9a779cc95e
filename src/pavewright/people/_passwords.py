"""What a good password is: long, and none that everybody tries first. What it is made of is everybody's own choice."""

from __future__ import annotations

from enum import StrEnum
from functools import cache

PASSWORD_MIN = 12
"""Characters that a password has at least."""
PASSWORD_MAX = 128
"""Characters that a password has at most."""
_LOOKED_AT = 24
"""So many characters are looked at for how soon they are guessed: what is hard to guess so far stays hard."""
_GUESSED_SOON = 2
"""Below this mark of zxcvbn a password is among those that are guessed first: under a million tries."""
_COMMON_HERE = frozenset(
    {"paving", "pavewright", "patio", "driveway", "builder", "landscape", "arsenal", "changeme", "changemenow"}
)
"""Words that are tried first in this trade, beside those of the list."""


class PasswordFault(StrEnum):
    """Why a password is not taken."""

    SHORT = "short"
    LONG = "long"
    COMMON = "common"
    OWN_NAME = "own_name"


class Strength(StrEnum):
    """How long a password stands against somebody who guesses."""

    WEAK = "weak"
    FAIR = "fair"
    STRONG = "strong"


_STRENGTHS = (Strength.WEAK, Strength.WEAK, Strength.WEAK, Strength.FAIR, Strength.STRONG)


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
    plain = "".join(each for each in password.casefold() if each.isalnum())
    letters = plain.strip("0123456789")
    words = {password.casefold(), plain, letters} - {""}
    if any(_is_common(word) for word in words) or _mark_of(password) < _GUESSED_SOON:
        return PasswordFault.COMMON
    own = "".join(each for each in sign_in.casefold() if each.isalnum())
    return PasswordFault.OWN_NAME if own and letters == own else None


def password_strength(password: str, sign_in: str = "") -> Strength:
    """Return how long a password stands; one that is not taken is weak.

    Args:
        password: What somebody typed so far.
        sign_in: The name by which he or she signs in.

    Source: common practice

    >>> password_strength("wet gloves on a Monday").value, password_strength("liverpool 24").value
    ('strong', 'weak')
    """
    return Strength.WEAK if password_fault(password, sign_in) is not None else _STRENGTHS[_mark_of(password)]


def _mark_of(password: str) -> int:
    """Return the mark of zxcvbn, zero to four."""
    from zxcvbn import zxcvbn  # noqa: PLC0415 - its lists take a third of a second to load, and few need them

    found: int = zxcvbn(password[:_LOOKED_AT])["score"]
    return found


@cache
def _common() -> frozenset[str]:
    """Return the words that are tried first: thirty thousand out of passwords that came to light."""
    from zxcvbn.frequency_lists import FREQUENCY_LISTS  # noqa: PLC0415 - as above

    return frozenset(FREQUENCY_LISTS["passwords"]) | _COMMON_HERE


def _is_common(word: str) -> bool:
    """Return whether a word is common, or a common one written several times."""
    lengths = [length for length in range(1, len(word) + 1) if len(word) % length == 0]
    return any(word == word[:length] * (len(word) // length) and word[:length] in _common() for length in lengths)
