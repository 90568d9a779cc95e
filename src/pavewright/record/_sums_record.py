"""Sums of records: hashes, chains and trees, so that anybody can hold them against published ones."""

from __future__ import annotations

from pavewright.record._chain import chain, sha256, tree_root
from pavewright.sums import Quantity, Sum, SumRefusedError, Value


def hash_of_words(words: str) -> dict[str, Value]:
    """Return the SHA-256 of words in UTF-8.

    Source: fips_180_4, section 6.2
    """
    return {"hash": sha256(words.encode("utf-8"))}


def chain_of_lines(lines: tuple[str, ...]) -> dict[str, Value]:
    """Return the hash of each line of a chain that begins with 32 bytes of zero.

    Source: definition
    """
    if not lines:
        message = "Give one line or more."
        raise SumRefusedError(message)
    return {"hashes": chain(lines)}


def root_of_leaves(leaves: tuple[str, ...]) -> dict[str, Value]:
    """Return the root of the tree of leaves that are given as hexadecimal digits.

    Source: rfc_6962, section 2.1
    """
    try:
        found = [bytes.fromhex(each) for each in leaves]
    except ValueError:
        message = "A leaf is given by hexadecimal digits, two for each byte: read it again."
        raise SumRefusedError(message) from None
    return {"root": tree_root(found)}


SUMS: tuple[Sum, ...] = (
    Sum(
        "hash-of-words",
        "Find the SHA-256 of words",
        (Quantity("words", "", "the words, taken as UTF-8", kind="word"),),
        (Quantity("hash", "", "SHA-256, as hexadecimal digits", kind="word"),),
        "SHA-256 of the bytes",
        "fips_180_4, section 6.2",
        hash_of_words,
    ),
    Sum(
        "chain-of-lines",
        "Find the hashes of lines of which each covers the one before",
        (Quantity("lines", "", "the lines in order, taken as UTF-8", kind="words"),),
        (Quantity("hashes", "", "hash of each line, as hexadecimal digits", kind="words"),),
        "hash = SHA-256 of the 32 bytes of the hash before, then the line; before the first stand zeros",
        "definition",
        chain_of_lines,
    ),
    Sum(
        "root-of-leaves",
        "Find the root of a hash tree",
        (Quantity("leaves", "", "the leaves in order, as hexadecimal digits", kind="words"),),
        (Quantity("root", "", "root of the tree, as hexadecimal digits", kind="word"),),
        "leaf: SHA-256 of 00, leaf; node: SHA-256 of 01, left, right; split at the largest power of two below",
        "rfc_6962, section 2.1",
        root_of_leaves,
    ),
)
