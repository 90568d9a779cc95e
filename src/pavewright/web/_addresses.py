"""Addresses by which other devices of the same network reach this machine."""

from __future__ import annotations

import ipaddress
import socket
from contextlib import closing, suppress

_ELSEWHERE = ("192.0.2.1", 9)
"""An address that is kept for examples: nothing is sent there, but the system says from where it would be."""


LOOPBACK = frozenset({"127.0.0.1", "localhost", "[::1]"})
"""Names by which a browser on this machine reaches it."""


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
