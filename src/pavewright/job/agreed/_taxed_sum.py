"""A sum that was agreed, with the way in which it is taxed: it is kept as it was said and never worked out anew."""

from __future__ import annotations

from pydantic import Field

from pavewright.job._base import Part, Percent, SignedMinor
from pavewright.job._rates import TaxRegime


class TaxedSum(Part):
    """What of an agreed sum is taxed in one way."""

    regime: TaxRegime = Field(description="Under which regime.")
    percent: Percent | None = Field(
        None, description="Rate that holds; under a reverse charge the customer accounts for it. [%]"
    )
    net_minor: SignedMinor = Field(description="Before tax. [minor units]")
    tax_minor: SignedMinor = Field(0, description="Tax charged on it. [minor units]")

    @property
    def gross_minor(self) -> int:
        """With tax. [minor units]."""
        return self.net_minor + self.tax_minor
