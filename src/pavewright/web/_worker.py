"""A worker: takes requests one by one on its standard input, answers on its standard output."""

from __future__ import annotations

import contextlib
import gc
import json
import os
import sys
import threading
import time
import traceback
from typing import TYPE_CHECKING

from pavewright import children
from pavewright.web._frames import DONE, FAILED, LIMITS, OUTGREW, READY, REFUSED, TOLD, put, take

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from typing import BinaryIO

    Verbs = Mapping[str, Callable[[bytes, Callable[[str], None]], bytes]]

_LOOK_S = 1.0
"""How often a worker looks whether the server is still there, where the system does not end it. [s]"""


def work(source: BinaryIO, sink: BinaryIO, verbs: Verbs, refusals: tuple[type[Exception], ...] = ()) -> None:
    """Answer requests until the stream ends."""

    def report(words: str) -> None:
        put(sink, TOLD, words.encode())

    while (frame := take(source)) is not None:
        kind, content = frame
        if kind == LIMITS:
            _take_limits(**json.loads(content))
            continue
        verb, _, payload = content.partition(b"\n")
        try:
            put(sink, DONE, verbs[verb.decode()](payload, report))
        except refusals as refusal:
            put(sink, REFUSED, str(refusal).encode())
        except MemoryError:
            put(sink, OUTGREW, b"")
            os._exit(1)  # what is left of its memory is in no order
        except BrokenPipeError:
            os._exit(0)  # the server is gone, and nobody waits for the answer
        except Exception:  # noqa: BLE001 - a bug is reported to the server, which shows the user that there is one
            put(sink, FAILED, traceback.format_exc().encode())


def _take_limits(memory_bytes: int, nice: int) -> None:
    children.begin(memory_bytes=memory_bytes)
    with contextlib.suppress(AttributeError, OSError):
        os.nice(nice)


def own_output() -> BinaryIO:
    """Keep standard output for frames alone: what a library prints goes to standard error."""
    sink = os.fdopen(os.dup(sys.stdout.fileno()), "wb")
    os.dup2(sys.stderr.fileno(), sys.stdout.fileno())
    return sink


def end_with_server() -> None:
    """End when the server does, in the middle of work too."""
    children.begin()
    if sys.platform != "linux" and hasattr(os, "getppid"):
        threading.Thread(target=_watch, args=(os.getppid(),), daemon=True).start()


def keep_what_is_loaded() -> None:
    """Look for garbage among what a request makes alone, and seldom: a plan makes many things that all stay.

    Looking through all that is loaded again and again took half the time of a plan of 25 000 units.
    """
    gc.collect()
    gc.freeze()
    gc.set_threshold(*_SELDOM)


_SELDOM = (100_000, 20, 100)
"""New things after which Python looks for garbage among them, and how often among the older ones."""


def _watch(server: int) -> None:
    while os.getppid() == server:
        time.sleep(_LOOK_S)
    os._exit(0)


def main() -> None:
    """Load everything, say so, and work."""
    end_with_server()
    sink = own_output()
    from pavewright.desk import SCREEN_VERBS, ScreenRefusalError  # noqa: PLC0415 - loading takes its time

    SCREEN_VERBS["warm"](b"", lambda _: None)
    keep_what_is_loaded()
    put(sink, READY, b"")
    work(sys.stdin.buffer, sink, SCREEN_VERBS, (ScreenRefusalError,))


if __name__ == "__main__":
    main()
