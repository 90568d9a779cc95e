"""A worker: takes requests one by one on its standard input, answers on its standard output."""

from __future__ import annotations

import os
import sys
import traceback
from typing import TYPE_CHECKING

from pavewright.desk import SCREEN_VERBS, ScreenRefusalError
from pavewright.web._frames import DONE, FAILED, REFUSED, TOLD, put, take

if TYPE_CHECKING:
    from typing import BinaryIO


def work(source: BinaryIO, sink: BinaryIO) -> None:
    """Answer requests until the stream ends."""

    def report(words: str) -> None:
        put(sink, TOLD, words.encode())

    while (frame := take(source)) is not None:
        verb, _, payload = frame[1].partition(b"\n")
        try:
            put(sink, DONE, SCREEN_VERBS[verb.decode()](payload, report))
        except ScreenRefusalError as refusal:
            put(sink, REFUSED, str(refusal).encode())
        except BrokenPipeError:
            os._exit(0)  # the server is gone, and nobody waits for the answer
        except Exception:  # noqa: BLE001 - a bug is told to the server, which tells the user that there is one
            put(sink, FAILED, traceback.format_exc().encode())


def main() -> None:
    """Keep standard output for frames alone: what a library prints goes to standard error."""
    sink = os.fdopen(os.dup(sys.stdout.fileno()), "wb")
    os.dup2(sys.stderr.fileno(), sys.stdout.fileno())
    work(sys.stdin.buffer, sink)


if __name__ == "__main__":
    main()
