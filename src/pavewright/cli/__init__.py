"""Command line: a thin door. It reads words and files, asks one thing of the rooms below, and prints the answer.

Exit codes: 0 clean, 1 a finding says stop or a case does not hold, 2 the input makes no sense, 3 the program has a
fault.
"""

from pavewright.cli import _points, _serve, _sums  # noqa: F401 - they add their commands
from pavewright.cli._commands import main

__all__ = ["main"]
