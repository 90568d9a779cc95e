"""Rules: what a figure of the trade is, where it comes from and how far to trust it.

No numbers live here. A rulebook is a set of figures and tables, each with unit, source, place in the source and status:
read in the source (S), from memory (M) or common practice (C). Rooms ask for a figure by its key and pass it on, so
that whatever is printed can name what decided it.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.rules._assembled import Assembled
    from pavewright.rules._editions import FigureChange, ReadLog, changes, watched
    from pavewright.rules._figures import Figure, Status, Table, TableRow
    from pavewright.rules._read import read_figures
    from pavewright.rules._rulebook import Rulebook, UnknownFigureError
    from pavewright.rules._sources import Source, read_source
else:
    __getattr__ = face(__name__)

__all__ = [
    "Assembled",
    "Figure",
    "FigureChange",
    "ReadLog",
    "Rulebook",
    "Source",
    "Status",
    "Table",
    "TableRow",
    "UnknownFigureError",
    "changes",
    "read_figures",
    "read_source",
    "watched",
]
