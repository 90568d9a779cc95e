"""The child that reads a stranger's file: in come a line of JSON and the file, out comes what the file holds."""

from __future__ import annotations

import json
import sys
from typing import Any

from pavewright import children


def main() -> None:
    """Take the limits, read what comes in on the input and write what it holds to the output."""
    children.begin(memory_bytes=int(sys.argv[1]), cpu_s=int(sys.argv[2]))
    from pavewright.files._foreign import file_here  # noqa: PLC0415 - the limits come first
    from pavewright.files._read import FileRefusedError  # noqa: PLC0415

    asked, _, content = sys.stdin.buffer.read().partition(b"\n")
    try:
        reported: dict[str, Any] = {"found": file_here(content, json.loads(asked))}
    except FileRefusedError as refused:
        reported = {"refused": str(refused)}
    except (MemoryError, RecursionError):
        sys.exit(1)
    sys.stdout.write(json.dumps(reported))


if __name__ == "__main__":
    main()
