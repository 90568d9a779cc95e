"""A child that reads many files one after the other under the limits of a child that reads one: a line for each answer."""

from __future__ import annotations

import json
import pickle
import subprocess
import sys
import time
from typing import Any

from pavewright import children

MEMORY_BYTES, CPU_S = 1_500_000_000, 120


def answers_of(files: list[tuple[bytes, dict[str, Any]]]) -> list[dict[str, Any]]:
    """Return what one child says of each file; where it dies, the answers up to the file that it died of."""
    words = (sys.executable, __file__)
    payload = pickle.dumps(files)
    done = subprocess.run(
        words, input=payload, capture_output=True, env=children.surroundings(), timeout=4 * CPU_S, check=False
    )
    found = [json.loads(line) for line in done.stdout.splitlines()]
    if len(found) < len(files):
        found.append({"died": done.stderr.decode("utf-8", "replace")[-600:] or f"code {done.returncode}"})
    return found + [{"died": "not reached"}] * (len(files) - len(found))


def main() -> None:
    """Read what comes in and write one line for each."""
    children.begin(memory_bytes=MEMORY_BYTES, cpu_s=CPU_S)
    from pavewright.files._foreign import file_here  # noqa: PLC0415 - the limits come first
    from pavewright.files._read import FileRefusedError  # noqa: PLC0415

    for content, asked in pickle.load(sys.stdin.buffer):
        started = time.process_time()
        try:
            found = file_here(content, asked)
            json.dumps(found, ensure_ascii=False, allow_nan=False).encode()
            reported: dict[str, Any] = {"taken": bool(found["points"] or found.get("layers"))}
        except FileRefusedError as refused:
            reported = {"refused": str(refused)}
        sys.stdout.write(json.dumps({**reported, "seconds": time.process_time() - started}) + "\n")
        sys.stdout.flush()


if __name__ == "__main__":
    main()
