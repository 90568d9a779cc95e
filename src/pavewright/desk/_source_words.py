"""Where a sum comes from, in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import rulebook

if TYPE_CHECKING:
    from pavewright.sums import Sum


def source_words(entry: Sum) -> str:
    """Return where a sum comes from, in words: titles of sources with how they were read."""
    known = rulebook.load("england").sources
    reported = []
    for part in entry.source.split(";"):
        key, _, rest = part.strip().partition(",")
        word, _, more = key.partition(" ")
        if word in known:
            source = known[word]
            tail = "".join(f", {piece.strip()}" for piece in (rest,) if piece.strip())
            reported.append(
                f"{source.title}{' ' + more if more else ''}{tail}{f' ({source.remark})' if source.remark else ''}"
            )
        else:
            reported.append(part.strip())
    return "; ".join(reported)
