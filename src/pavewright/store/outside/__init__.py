"""Outside: photos and papers in a folder, or in a store that speaks S3, beside the database.

Each is kept once in its firm, under the SHA-256 of its bytes; the row that names it stands in the database. It is
written through before that row, held against its hash each time it is read, and deleted a day after no row names it any
more at the earliest. Where no place is set, photos and papers stand in the database itself.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.store.outside._checking import Checked, check_files
    from pavewright.store.outside._choosing import open_place
    from pavewright.store.outside._moving import Moved, move_files
    from pavewright.store.outside._of_firm import Outside
    from pavewright.store.outside._place import Held, Place
    from pavewright.store.outside._sweeping import Swept, sweep_files
else:
    __getattr__ = face(__name__)

__all__ = [
    "Checked",
    "Held",
    "Moved",
    "Outside",
    "Place",
    "Swept",
    "check_files",
    "move_files",
    "open_place",
    "sweep_files",
]
