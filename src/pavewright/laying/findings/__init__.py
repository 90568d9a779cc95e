"""Findings: what is noticed about a laying plan, with options that were tried before they are said."""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.laying.findings._findings import laying_findings
    from pavewright.laying.findings._size_findings import size_findings
    from pavewright.laying.findings._unlayable import filled_findings, narrow_findings
else:
    __getattr__ = face(__name__)

__all__ = [
    "filled_findings",
    "laying_findings",
    "narrow_findings",
    "size_findings",
]
