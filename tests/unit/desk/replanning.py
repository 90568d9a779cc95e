"""Small jobs without prices of their own, and a book, for the tests of re-planning."""

import copy
import json
from pathlib import Path

from pavewright.engine import Engine
from pavewright.engine._work import do_errand

EXAMPLES = Path(__file__).parents[3] / "examples"
BOOK = json.loads((EXAMPLES / "firm" / "book.json").read_text(encoding="utf-8"))


def patio(number=0, **more):
    """A patio of which each has a width of its own, priced by the book."""
    job = json.loads((EXAMPLES / "mixed_patio.json").read_text(encoding="utf-8"))
    job["identity"] |= {"title": f"Patio {number}", "revision": 1}
    job |= {"rates": {}, "crew": {}} | more
    return json.dumps(job)


def changed(book, path, value):
    """A book with one value changed."""
    book = copy.deepcopy(book)
    place = book
    for each in path[:-1]:
        place = place[each]
    place[path[-1]] = value
    return book


class Here(Engine):
    """The same work in this process, for tests that need no worker."""

    workers = 1

    def batch(self, count):
        return 1

    def send(self, errand, tell):
        commons = [each.common.content for each in errand.pieces if each.common]
        pieces = [(each.payload, 0 if each.common else None) for each in errand.pieces]
        tell(errand, do_errand(errand.register, errand.verb, errand.digest, pieces, commons))

    def drop(self, errands):
        pass

    def close(self):
        pass
