"""A worker of this machine: takes pieces one by one on its standard input, answers on its standard output."""

from __future__ import annotations

import os
import sys

from pavewright import children
from pavewright.engine._frames import put_answer, take_ask
from pavewright.engine._types import OtherProgramError, Trouble
from pavewright.engine._work import do_errand


def main() -> None:
    """Answer until the stream ends, or the process that asks does."""
    children.begin()
    sink = os.fdopen(os.dup(sys.stdout.fileno()), "wb")
    os.dup2(sys.stderr.fileno(), sys.stdout.fileno())  # what a library prints is no answer
    held: dict[str, bytes] = {}
    while (asked := take_ask(sys.stdin.buffer, held)) is not None:
        commons = () if asked.common is None else (held[asked.common],)
        piece = (asked.payload, 0 if commons else None)
        try:
            (answer,) = do_errand(asked.register, asked.verb, asked.digest, (piece,), commons)
        except OtherProgramError:
            put_answer(sink, Trouble.OTHER_PROGRAM)
        else:
            put_answer(sink, answer)


if __name__ == "__main__":
    main()
