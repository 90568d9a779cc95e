"""A stranger's file is read apart, by a child with limits: one that breaks its reader breaks nothing else."""

from __future__ import annotations

import json
import sys
from typing import Any

from pavewright import children
from pavewright.files._read import FileRefusedError

_MEMORY_BYTES = 1_500_000_000
_SECONDS, _SECONDS_PER_MB = 8.0, 1.0
"""How long reading may take: at first, and for every megabyte of a cloud. [s]"""
_CLOUDS = frozenset({"las", "ply"})
_MB = 1_000_000


def file_told(content: bytes, asked: dict[str, Any]) -> dict[str, Any]:
    """Return what a file holds, as entries of the job document, or what has to be said before it can be read.

    Args:
        content: The file.
        asked: Its ``kind``; ``order`` and ``unit`` of CSV; ``layers`` and ``unit`` of DXF, without which the layers are
            shown; ``unit`` of GeoJSON and PLY; ``cell_mm``, ``every_mm``, ``ground_only`` and ``marks`` of a cloud.

    Raises:
        FileRefusedError: the file cannot be taken over; says where and why.
    """
    size_mb = len(content) / _MB
    seconds = _SECONDS + (_SECONDS_PER_MB * size_mb if str(asked.get("kind")) in _CLOUDS else 0.0)
    words = (sys.executable, "-m", "pavewright.files._foreign_child", str(_MEMORY_BYTES), str(int(seconds)))
    try:
        # a noisy machine may give the child a half of the processor: the clock waits longer than the processor's time
        answer = children.answer_of(words, json.dumps(asked).encode() + b"\n" + content, seconds=2.0 * seconds)
    except children.ChildStoppedError:
        message = f"Reading this file of {size_mb:.1f} MB took too long and was stopped: save a smaller part of it."
        raise FileRefusedError(message) from None
    except children.ChildEndedError:
        message = (
            f"Reading this file of {size_mb:.1f} MB had to be stopped: it is damaged, or it asks for more memory or "
            f"time than such a file needs. Save it again, or save a smaller part of it."
        )
        raise FileRefusedError(message) from None
    reported: dict[str, Any] = json.loads(answer)
    if "refused" in reported:
        raise FileRefusedError(reported["refused"])
    found: dict[str, Any] = reported["found"]
    return found
