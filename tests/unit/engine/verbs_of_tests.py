"""Verbs that fail in every way in which a piece can."""

import os
import signal
import time
from pathlib import Path


def _double(payload):
    return payload * 2


def _refuse_odd(payload):
    if int(payload) % 2:
        raise ValueError(f"{int(payload)} is odd")
    return payload


def _die_at_seven(payload):
    if payload == b"7":
        os.kill(os.getpid(), signal.SIGKILL)
    return payload * 2


def _die_once(payload):
    """Die in the first worker that begins with a piece whose marker lies there, live in the next one."""
    marker = Path(payload.decode())
    if marker.exists():
        marker.unlink()
        os.kill(os.getpid(), signal.SIGKILL)
    return marker.name.encode() * 2


def _slow(payload):
    time.sleep(float(payload))
    return payload


def _who(payload):
    return str(os.getpid()).encode()


def _joined(payload, common):
    return payload + common


ENGINE_VERBS = {
    "joined": _joined,
    "double": _double,
    "refuse_odd": _refuse_odd,
    "die_at_seven": _die_at_seven,
    "die_once": _die_once,
    "slow": _slow,
    "who": _who,
}
