"""Cancelling: the notice of the customer's right to cancel, the form for it, and the request to begin early.

They are a paper of their own, made only where it is known where the work is agreed and the rulebook of the place has a
rule for that. Their words are not those of the law: each sheet says where these stand, and that they are to be
confirmed there.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.papers.cancelling._facts import Cancelling, CancellingRule, WhyNoNotice, cancelling
    from pavewright.papers.cancelling._words import SAID, date_words, no_notice_words, right_words, rule_words
else:
    __getattr__ = face(__name__)

__all__ = [
    "SAID",
    "Cancelling",
    "CancellingRule",
    "WhyNoNotice",
    "cancelling",
    "date_words",
    "no_notice_words",
    "right_words",
    "rule_words",
]
