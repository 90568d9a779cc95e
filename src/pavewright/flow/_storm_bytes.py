"""A storm as bytes and back, every bit of it, for whoever lets storms run elsewhere."""

from __future__ import annotations

import io
import json
import struct
from dataclasses import fields
from typing import Any

import numpy as np

from pavewright.flow._storm import Storm

_LENGTH = struct.Struct(">Q")


def storm_bytes(ran: Storm) -> bytes:
    """Return a storm as bytes: its plain values as JSON with its length before it, then its arrays.

    Args:
        ran: The storm.
    """
    plain, sink = {}, io.BytesIO()
    for each in fields(Storm):
        value = getattr(ran, each.name)
        if isinstance(value, np.ndarray):
            np.save(sink, np.ascontiguousarray(value, dtype="<f8"), allow_pickle=False)
        else:
            plain[each.name] = value
    head = json.dumps(plain, sort_keys=True).encode()
    return _LENGTH.pack(len(head)) + head + sink.getvalue()


def storm_read(told: bytes) -> Storm:
    """Return the storm of bytes.

    Args:
        told: As ``storm_bytes`` makes them.
    """
    source = io.BytesIO(told)
    (length,) = _LENGTH.unpack(source.read(_LENGTH.size))
    plain = json.loads(source.read(length))
    found: dict[str, Any] = {key: tuple(value) if isinstance(value, list) else value for key, value in plain.items()}
    for each in fields(Storm):
        if each.name not in found:
            found[each.name] = np.load(source, allow_pickle=False)
    return Storm(**found)
