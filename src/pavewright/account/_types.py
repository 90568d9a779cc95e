"""What the account room hands on."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright.account._tax import gross_of, net_of, tax_of

if TYPE_CHECKING:
    from pavewright.findings import Finding
    from pavewright.job.agreed import Bill, SumToSettle, TaxedSum, Variation
    from pavewright.sums import Working


class AgreedKind(StrEnum):
    """What a sum was agreed for."""

    QUOTATION = "quotation"
    OPTION = "option"
    SETTLED = "settled"
    VARIATION = "variation"


@dataclass(frozen=True, slots=True)
class AgreedLine:
    """A sum that was agreed, or is proposed.

    Attributes:
        kind: What for.
        number: Its number among those of its kind; 0 for the quotation.
        name: Its name in the words of the paper it came from; empty for the quotation.
        sums: The sum, by the way in which it is taxed.
        working: How it came about.
    """

    kind: AgreedKind
    number: int
    name: str
    sums: tuple[TaxedSum, ...]
    working: Working

    @property
    def net_minor(self) -> int:
        """Before tax. [minor units]."""
        return net_of(self.sums)

    @property
    def tax_minor(self) -> int:
        """Tax. [minor units]."""
        return tax_of(self.sums)

    @property
    def gross_minor(self) -> int:
        """With tax. [minor units]."""
        return gross_of(self.sums)


@dataclass(frozen=True, slots=True)
class BillStanding:
    """A bill or a credit note with the running account on its day.

    Attributes:
        bill: The bill.
        net_minor: What it bills before tax, less than zero for a credit note. [minor units]
        tax_minor: Tax of that. [minor units]
        gross_minor: With tax. [minor units]
        due_minor: What is to be paid for it: less what is held back, with what is freed. [minor units]
        billed_before_minor: What was billed before it, less credits. [minor units]
        due_before_minor: What was to be paid before it. [minor units]
        paid_minor: What had come in until its day, that day included. [minor units]
        owing_minor: What is owing with it. [minor units]
        held_minor: What is held back with it, all bills together. [minor units]
        agreed_minor: What was agreed on its day: what was approved or settled later changes no bill. [minor units]
        findings: What is wrong with it.
    """

    bill: Bill
    net_minor: int
    tax_minor: int
    gross_minor: int
    due_minor: int
    billed_before_minor: int
    due_before_minor: int
    paid_minor: int
    owing_minor: int
    held_minor: int
    agreed_minor: int
    findings: tuple[Finding, ...] = ()


@dataclass(frozen=True)
class Account:
    """The money of a job, all in whole minor units.

    Attributes:
        currency: Money of its sums.
        tax_name: What the tax is called.
        agreed: What was agreed: quotation, options, sums settled, approved variations.
        proposed: Variations that nobody has decided.
        unsettled: Sums of the quotation that are not settled: they stand as quoted.
        refused: Variations that were refused.
        agreed_tax: All that was agreed, by the way in which it is taxed.
        bills: Bills and credit notes with the running account.
        billed_tax: All that was billed, less credits, by the way in which it is taxed.
        to_bill: What is left to bill, by the way in which it is taxed; less than zero where too much was billed.
        held_minor: What is held back.
        due_minor: What was asked for: billed, less what is held back.
        paid_minor: What came in.
        workings: The sums behind it.
        findings: What was noticed of the account as a whole.
    """

    currency: str
    tax_name: str
    agreed: tuple[AgreedLine, ...]
    proposed: tuple[AgreedLine, ...]
    unsettled: tuple[SumToSettle, ...]
    refused: tuple[Variation, ...]
    agreed_tax: tuple[TaxedSum, ...]
    bills: tuple[BillStanding, ...]
    billed_tax: tuple[TaxedSum, ...]
    to_bill: tuple[TaxedSum, ...]
    held_minor: int
    due_minor: int
    paid_minor: int
    workings: tuple[Working, ...]
    findings: tuple[Finding, ...]

    def of_kind(self, kind: AgreedKind) -> int:
        """Return what was agreed of a kind, with tax. [minor units]."""
        return sum(line.gross_minor for line in self.agreed if line.kind is kind)

    @property
    def agreed_minor(self) -> int:
        """What was agreed in all, with tax: the sum of the final account. [minor units]."""
        return gross_of(self.agreed_tax)

    @property
    def billed_minor(self) -> int:
        """What was billed in all, with tax, less credits. [minor units]."""
        return gross_of(self.billed_tax)

    @property
    def to_bill_minor(self) -> int:
        """What is left to bill, with tax. [minor units]."""
        return gross_of(self.to_bill)

    @property
    def owing_minor(self) -> int:
        """What was asked for and has not come in. [minor units]."""
        return self.due_minor - self.paid_minor

    @property
    def is_final(self) -> bool:
        """Whether nothing can change it any more: all is decided, settled and billed."""
        return not (
            self.proposed or self.unsettled or any(part.gross_minor for part in self.to_bill) or not self.agreed
        )

    @property
    def all_findings(self) -> tuple[Finding, ...]:
        """What was noticed, bill by bill and of the whole."""
        return (*(each for bill in self.bills for each in bill.findings), *self.findings)
