"""Addresses by which other devices of the same network reach this machine."""

from __future__ import annotations

import ipaddress
import re
import socket
from contextlib import closing, suppress
from dataclasses import dataclass

_ELSEWHERE = ("192.0.2.1", 9)
"""An address that is kept for examples: nothing is sent there, but the system says from where it would be."""


LOOPBACK = frozenset({"127.0.0.1", "localhost", "[::1]"})
"""Names by which a browser on this machine reaches it."""


_LABEL = re.compile(r"[a-z0-9]([a-z0-9-]{0,61}[a-z0-9])?")
_NAME_MAX = 253
_PORTS = {"http": 80, "https": 443}


@dataclass(frozen=True, slots=True)
class HostName:
    """A name by which others call this server.

    Attributes:
        name: The name, in small letters.
        port: The port at which they call; None where it is the one at which this server listens.
    """

    name: str
    port: int | None = None

    def address(self, scheme: str, listens: int) -> str:
        """Return the address of the pages under this name.

        Args:
            scheme: ``http`` or ``https``.
            listens: The port at which this server listens.

        >>> HostName("office.example", 443).address("https", 8_321)
        'https://office.example'
        """
        port = listens if self.port is None else self.port
        return f"{scheme}://{self.name}" if port == _PORTS.get(scheme) else f"{scheme}://{self.name}:{port}"


def host_name_in(typed: str) -> HostName | None:
    """Return the name that somebody typed, with its port where it has one; None where it is no name of a machine.

    >>> host_name_in("Office.example:8443")
    HostName(name='office.example', port=8443)
    >>> host_name_in("https://office.example/"), host_name_in("192.0.2.1")
    (None, None)
    """
    name, colon, port = typed.strip().lower().partition(":")
    labels = name.split(".")
    known = len(name) <= _NAME_MAX and all(_LABEL.fullmatch(label) for label in labels) and not labels[-1].isdigit()
    if not known or (colon and not (port.isascii() and port.isdigit() and 0 < int(port) < _PORTS_END)):
        return None
    return HostName(name, int(port) if colon else None)


_PORTS_END = 65_536


def own_addresses() -> tuple[str, ...]:
    """Return the addresses of this machine in its networks, the one towards the outside first."""
    found: list[str] = []
    with suppress(OSError), closing(socket.socket(socket.AF_INET, socket.SOCK_DGRAM)) as outward:
        outward.connect(_ELSEWHERE)
        found.append(outward.getsockname()[0])
    with suppress(OSError):
        found += [str(each[4][0]) for each in socket.getaddrinfo(socket.gethostname(), None, socket.AF_INET)]
    return tuple(dict.fromkeys(address for address in found if not is_loopback(address)))


def own_names() -> frozenset[str]:
    """Return the names of this machine in its networks, in small letters."""
    name = socket.gethostname().lower()
    return frozenset({name, f"{name.partition('.')[0]}.local"}) if name else frozenset()


def is_loopback(address: str) -> bool:
    """Return whether an address leads back to this machine."""
    with suppress(ValueError):
        found = ipaddress.ip_address(address.strip("[]"))
        mapped = getattr(found, "ipv4_mapped", None)
        return (mapped or found).is_loopback
    return False
