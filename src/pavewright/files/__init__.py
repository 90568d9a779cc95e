"""Files in: points that another instrument or program has written, taken over only as far as they say what they are.

The order of columns and the unit are asked or given, never guessed. What cannot be read is refused with the line and
what to do; nothing is taken over in part.
"""

from pavewright.files._csv_points import (
    ORDERS,
    TO_MM,
    FileRefusedError,
    ReadPoint,
    first_lines,
    read_csv_points,
    write_csv_points,
)

__all__ = [
    "ORDERS",
    "TO_MM",
    "FileRefusedError",
    "ReadPoint",
    "first_lines",
    "read_csv_points",
    "write_csv_points",
]
