"""Telling other programs: signed, to addresses that may be told, without following where they point.

Headers and signature are those of the open standard of hooks: ``webhook-id``, ``webhook-timestamp`` and
``webhook-signature``, ``v1,`` and the HMAC-SHA256 of id, time and body, one for each secret.
"""

from __future__ import annotations

import base64
import hashlib
import hmac
import http.client
import ipaddress
import os
import socket
import ssl
import time
from dataclasses import dataclass
from typing import TYPE_CHECKING
from urllib.parse import urlsplit

from pavewright.web import _hook_words as words

if TYPE_CHECKING:
    from pavewright.store import Due

PRIVATE_ALLOWED = "PAVEWRIGHT_HOOKS_PRIVATE"
"""Set to 1, addresses of private networks and plain connections to this machine are told too."""
_WAIT_S = 10.0
_ANSWER_BYTES = 4_096
_GOOD = range(200, 300)
_PORTS = {"http": 80, "https": 443}
_ADDRESS_MAX = 500


class AddressRefusedError(Exception):
    """An address may not be told; the message says why in a sentence."""


@dataclass(frozen=True, slots=True)
class Sent:
    """What came of a try.

    Attributes:
        delivered: Whether the other side took it.
        told: What it answered, or why nothing was sent.
    """

    delivered: bool
    told: str


def is_private_allowed() -> bool:
    """Return whether addresses of private networks may be told."""
    return os.environ.get(PRIVATE_ALLOWED) == "1"


def checked_address(address: str) -> tuple[str, str, int]:
    """Return scheme, host and port of an address.

    Raises:
        AddressRefusedError: it is none that may be told, whatever it leads to.
    """
    try:
        found = urlsplit(address)
        port = found.port
    except ValueError:
        raise AddressRefusedError(words.NO_ADDRESS) from None
    host = found.hostname or ""
    odd = len(address) > _ADDRESS_MAX or any(not each.isprintable() or each.isspace() for each in address)
    if found.scheme not in _PORTS or not host or found.username is not None or found.fragment or odd:
        raise AddressRefusedError(words.NO_ADDRESS)
    if found.scheme == "http" and not (is_private_allowed() and _is_loopback_name(host)):
        raise AddressRefusedError(words.NOT_SECURE)
    return found.scheme, host, port or _PORTS[found.scheme]


def _is_loopback_name(host: str) -> bool:
    return host in {"localhost", "127.0.0.1", "::1"}


def place_of(host: str, port: int) -> str:
    """Return the number of the machine that is told: looked up once, so that what was checked is what is told.

    Raises:
        AddressRefusedError: it is not found, or stands in a network that is not told.
    """
    try:
        found = socket.getaddrinfo(host, port, type=socket.SOCK_STREAM)
    except (OSError, UnicodeError):
        raise AddressRefusedError(words.NOT_FOUND) from None
    numbers = [str(each[4][0]) for each in found]
    if not is_private_allowed() and not all(_is_open(number) for number in numbers):
        raise AddressRefusedError(words.PRIVATE)
    return numbers[0]


def _is_open(number: str) -> bool:
    """Return whether a number is one of the open network: none of this machine, this house or a cloud's inside."""
    ip = ipaddress.ip_address(number.partition("%")[0])
    inner = getattr(ip, "ipv4_mapped", None) or getattr(ip, "sixtofour", None)
    teredo = getattr(ip, "teredo", None)
    return ip.is_global and not ip.is_multicast and teredo is None and (inner is None or _is_open(str(inner)))


def signatures(secrets: tuple[str, ...], message_id: str, at: int, body: bytes) -> str:
    """Return what signs a message: one signature for each secret.

    Args:
        secrets: As they were shown.
        message_id: The name of the message.
        at: When it is sent, since 1970. [s]
        body: What is sent.
    """
    signed = f"{message_id}.{at}.".encode() + body
    keys = [base64.b64decode(each.removeprefix("whsec_")) for each in secrets]
    made = [base64.b64encode(hmac.digest(key, signed, hashlib.sha256)).decode() for key in keys]
    return " ".join(f"v1,{each}" for each in made)


def send(due: Due) -> Sent:
    """Tell one message; what the other side answers is read up to a few thousand bytes, and no redirect is followed."""
    try:
        scheme, host, port = checked_address(due.address)
        place = place_of(host, port)
        status = _posted(scheme, host, port, place, due)
    except AddressRefusedError as refusal:
        return Sent(delivered=False, told=str(refusal))
    except (OSError, http.client.HTTPException) as problem:
        return Sent(delivered=False, told=words.no_answer(problem.__class__.__name__))
    return Sent(status in _GOOD, words.answered(status))


def _posted(scheme: str, host: str, port: int, place: str, due: Due) -> int:
    at, body = int(time.time()), due.body.encode()
    headers = {
        "Content-Type": "application/json",
        "User-Agent": "pavewright",
        "webhook-id": due.id,
        "webhook-timestamp": str(at),
        "webhook-signature": signatures(due.secrets, due.id, at, body),
    }
    connection = _Secure(host, port, place) if scheme == "https" else _Plain(host, port, place)
    parts = urlsplit(due.address)
    try:
        connection.request("POST", f"{parts.path or '/'}{'?' + parts.query if parts.query else ''}", body, headers)
        answered = connection.getresponse()
        answered.read(_ANSWER_BYTES)
        return answered.status
    finally:
        connection.close()


class _Plain(http.client.HTTPConnection):
    """A connection to the machine that was looked at, whatever its name leads to by now."""

    def __init__(self, host: str, port: int, place: str) -> None:
        super().__init__(host, port, timeout=_WAIT_S)
        self._place = place

    def connect(self) -> None:
        self.sock = socket.create_connection((self._place, self.port), self.timeout)


class _Secure(http.client.HTTPSConnection):
    """The same over a secure connection; the certificate has to be that of the name."""

    def __init__(self, host: str, port: int, place: str) -> None:
        self._context_here = ssl.create_default_context()
        super().__init__(host, port, timeout=_WAIT_S, context=self._context_here)
        self._place = place

    def connect(self) -> None:
        plain = socket.create_connection((self._place, self.port), self.timeout)
        self.sock = self._context_here.wrap_socket(plain, server_hostname=self.host)
