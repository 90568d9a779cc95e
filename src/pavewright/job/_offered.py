"""Options for the customer: what of the document each changes."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

from pydantic import Field

from pavewright.job._base import Name, Part
from pavewright.job._faults import Fault

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator


class OfferedChange(Part):
    """A field of this document with the value that an option gives it: a number, a text, or yes or no."""

    path: Annotated[str, Field(min_length=1, max_length=200)] = Field(
        description="Where the field stands, parts joined by dots, lists counted from 0: areas.0.laying.pattern."
    )
    number: float | None = Field(None, description="What it becomes, where it holds a number. [unit of the field]")
    text: Name | None = Field(None, description="What it becomes, where it holds a text or a choice.")
    answer: bool | None = Field(None, description="What it becomes, where it holds yes or no.")

    @property
    def value(self) -> str | float | bool | None:
        """What the field becomes."""
        if self.number is not None:
            return int(self.number) if self.number.is_integer() else self.number
        return self.answer if self.text is None else self.text


class OfferedOption(Part):
    """An option for the customer: he reads what it costs more or less, and ticks it."""

    name: Name
    changes: tuple[OfferedChange, ...] = Field(
        (), max_length=20, description="What of this document it changes; the job is planned and priced with it."
    )


def option_faults(options: Iterable[OfferedOption]) -> Iterator[Fault]:
    """Give options that change nothing, and fields of which it is not said what they become."""
    for number, option in enumerate(options):
        if not option.changes:
            yield Fault(f"terms.options.{number}.changes", f"{option.name} changes nothing: say what it changes.")
        for place, each in enumerate(option.changes):
            if sum(given is not None for given in (each.number, each.text, each.answer)) != 1:
                words = "Say what this field becomes: a number, a text, or yes or no, one of them."
                yield Fault(f"terms.options.{number}.changes.{place}", words)
