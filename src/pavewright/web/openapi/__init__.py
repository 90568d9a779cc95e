"""What every route takes and answers, for other programs: one table, as OpenAPI 3.1 and as a page.

The table stands in a file of data beside this one. Who adds a route describes it there; a test holds it against the
routes that there are, and another asks a running server and looks whether it answers as it is described.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.web.openapi._document import openapi_document, path_of
    from pavewright.web.openapi._page import docs_page
    from pavewright.web.openapi._table import Described, described
else:
    __getattr__ = face(__name__)

__all__ = ["Described", "described", "docs_page", "openapi_document", "path_of"]
