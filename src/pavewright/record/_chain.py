"""The chain: each hash covers the one before it, so that nothing before it can change unseen."""

from __future__ import annotations

import hashlib

START = "0" * 64
"""What stands before the first entry: 32 bytes of zero, as hexadecimal digits."""
_LEAF, _NODE = b"\x00", b"\x01"


def sha256(content: bytes) -> str:
    """Return the SHA-256 of bytes, as hexadecimal digits.

    Source: fips_180_4, section 6.2

    >>> sha256(b"abc")[:16]
    'ba7816bf8f01cfea'
    """
    return hashlib.sha256(content).hexdigest()


def link(before: str, line: str) -> str:
    """Return the hash of a line that follows another one, as hexadecimal digits.

    Args:
        before: Hash of the line before it; zeros for the first.
        line: The line, without its end.

    Source: definition

    >>> link(START, "level A1 0.412")[:16]
    '65573790192bffe1'
    """
    return sha256(bytes.fromhex(before) + line.encode("utf-8"))


def chain(lines: tuple[str, ...]) -> tuple[str, ...]:
    """Return the hash of each line in a chain that begins with zeros.

    Source: definition
    """
    found: list[str] = []
    before = START
    for line in lines:
        before = link(before, line)
        found.append(before)
    return tuple(found)


def tree_root(leaves: list[bytes]) -> str:
    """Return the one hash of a list, by which an entry can later be shown to be in it without the others.

    Args:
        leaves: What is in the list, in order.

    Source: rfc_6962, section 2.1

    >>> tree_root([b""])[:16]
    '6e340b9cffb37a98'
    """
    if not leaves:
        return sha256(b"")
    level = [hashlib.sha256(_LEAF + leaf).digest() for leaf in leaves]
    # pairs from the left, the odd one carried up: the same tree as one that splits at the largest power of two
    while len(level) > 1:
        paired = [
            hashlib.sha256(_NODE + one + other).digest() for one, other in zip(level[::2], level[1::2], strict=False)
        ]
        level = paired + level[len(paired) * 2 :]
    return level[0].hex()
