"""Whole: every firm, its people, photos and papers in one file in an open format, locked where that is asked for.

It is made from one look at the database while people work, brought back on a file or on a server, and a drill brings it
back into an empty place to see that all of it is there.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.store.whole._drill import Drilled, drill
    from pavewright.store.whole._manifest import Part
    from pavewright.store.whole._mending import mend_files
    from pavewright.store.whole._reading import is_whole_copy, needs_passphrase
    from pavewright.store.whole._restoring import restore_whole
    from pavewright.store.whole._writing import back_up_whole
else:
    __getattr__ = face(__name__)

__all__ = [
    "Drilled",
    "Part",
    "back_up_whole",
    "drill",
    "is_whole_copy",
    "mend_files",
    "needs_passphrase",
    "restore_whole",
]
