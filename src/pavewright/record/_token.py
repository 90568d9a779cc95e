"""Timestamps of an authority: what a token says; whether its signature holds is left to openssl."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import Any

from pyasn1.codec.der.decoder import decode
from pyasn1.error import PyAsn1Error
from pyasn1_modules import rfc3161, rfc5652

TOKEN_BYTES_MAX = 65_536
"""A token is a few thousand bytes, with its certificates. [bytes]"""
_SHA256 = "2.16.840.1.101.3.4.2.1"
_SIGNED = "1.2.840.113549.1.7.2"
_STAMP = "1.2.840.113549.1.9.16.1.4"
_GRANTED = frozenset({0, 1})
_MILLI, _MICRO = 1e-3, 1e-6


class TokenRefusedError(ValueError):
    """What was given is no token that can be read, or none that was granted."""


@dataclass(frozen=True, slots=True)
class TimeToken:
    """What a token says.

    Attributes:
        imprint: SHA-256 that was stamped, as hexadecimal digits.
        at: Time that the authority gives, UTC.
        accuracy_s: How far that may be off, as the authority says; None where it says nothing. [s]
        serial: Number that the authority gave the token.
        policy: Its policy, as an object identifier.
        ordering: Whether two tokens of this authority are always ordered by their times.
        is_answer: Whether it stood in the answer of its authority, and not alone.
    """

    imprint: str
    at: dt.datetime
    accuracy_s: float | None
    serial: int
    policy: str
    ordering: bool
    is_answer: bool


def read_token(content: bytes) -> TimeToken:
    """Return what a token says, given alone or in the answer of its authority.

    Args:
        content: The file, in DER.

    Source: rfc_3161, section 2.4.2

    Raises:
        TokenRefusedError: it is none, it was not granted, or it stamps another kind of hash.
    """
    if len(content) > TOKEN_BYTES_MAX:
        raise TokenRefusedError
    try:
        return _read(content)
    except (PyAsn1Error, ValueError, TypeError, IndexError, RecursionError, OverflowError) as problem:
        raise TokenRefusedError from problem


def _read(content: bytes) -> TimeToken:
    signed, is_answer = _token_of(content)
    info = _stamp_of(signed)
    imprint = info["messageImprint"]
    hashed = bytes(imprint["hashedMessage"])
    if str(imprint["hashAlgorithm"]["algorithm"]) != _SHA256 or len(hashed) * 2 != len("0" * 64):
        raise TokenRefusedError
    at = info["genTime"].asDateTime
    if at.tzinfo is None:
        raise TokenRefusedError
    accuracy = _accuracy_s(info["accuracy"]) if info["accuracy"].isValue else None
    return TimeToken(
        hashed.hex(),
        at.astimezone(dt.UTC),
        accuracy,
        int(info["serialNumber"]),
        str(info["policy"]),
        bool(info["ordering"]),
        is_answer,
    )


def _token_of(content: bytes) -> tuple[Any, bool]:
    """Return the token in an answer, or the token that stands alone, and whether it stood in an answer."""
    try:
        answer, rest = decode(content, asn1Spec=rfc3161.TimeStampResp())
    except PyAsn1Error:
        token, rest = decode(content, asn1Spec=rfc5652.ContentInfo())
        is_answer = False
    else:
        if int(answer["status"]["status"]) not in _GRANTED:
            raise TokenRefusedError
        token, is_answer = answer["timeStampToken"], True
    if rest or str(token["contentType"]) != _SIGNED:
        raise TokenRefusedError
    return token, is_answer


def _stamp_of(token: Any) -> Any:  # noqa: ANN401 - types of the library
    signed, _ = decode(bytes(token["content"]), asn1Spec=rfc5652.SignedData())
    inner = signed["encapContentInfo"]
    if str(inner["eContentType"]) != _STAMP:
        raise TokenRefusedError
    info, rest = decode(bytes(inner["eContent"]), asn1Spec=rfc3161.TSTInfo())
    if rest:
        raise TokenRefusedError
    return info


def _accuracy_s(accuracy: Any) -> float | None:  # noqa: ANN401 - types of the library
    """Return how far a time may be off; None where the field stands there with nothing in it."""
    parts = (("seconds", 1.0), ("millis", _MILLI), ("micros", _MICRO))
    given = [int(accuracy[name]) * size for name, size in parts if accuracy[name].isValue]
    return sum(given) if given else None


def earlier(one: TimeToken, other: TimeToken) -> bool | None:
    """Return whether one token is earlier than another; None where their accuracies leave that open.

    Source: rfc_3161, section 2.4.2
    """
    if one.accuracy_s is None or other.accuracy_s is None:
        return None
    apart = (other.at - one.at).total_seconds()
    return None if abs(apart) <= one.accuracy_s + other.accuracy_s else apart > 0.0
