"""Changes and money: variation slips with their register, bills and credit notes, and the final account.

Every sum on these papers comes from the account of the job; none is worked out on a sheet. What cannot be sent is said
in its place and is no bill.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.papers.changes._document import account_document, bills_document, variations_document
else:
    __getattr__ = face(__name__)

__all__ = ["account_document", "bills_document", "variations_document"]
