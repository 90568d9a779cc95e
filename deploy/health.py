# ruff: noqa: INP001 - a file that runs by itself in a container
"""End with 0 where the server on this machine answers that it can work, else with 1: its port is the one argument."""

from __future__ import annotations

import contextlib
import ssl
import sys
import urllib.request

_WAIT_S = 4.0


def is_ready(port: int) -> bool:
    """Return whether the server at a port of this machine can work, with a certificate or without one."""
    context = ssl.create_default_context()
    # nobody stands between this machine and itself, and the certificate is of the name by which others call it
    context.check_hostname, context.verify_mode = False, ssl.CERT_NONE
    for scheme in ("http", "https"):
        with contextlib.suppress(OSError):
            address = f"{scheme}://127.0.0.1:{port}/ready"
            with urllib.request.urlopen(address, timeout=_WAIT_S, context=context) as answered:  # noqa: S310 - this machine
                return bool(answered.status == 200)  # noqa: PLR2004 - the status of HTTP
    return False


if __name__ == "__main__":
    sys.exit(0 if is_ready(int(sys.argv[1])) else 1)
