"""The finished work as a file for another program: what the screens ask for."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from pavewright.desk._book_verbs import ScreenRefusalError
from pavewright.exchange import Earth, ExchangeKind, ExchangeRefusedError, finished_work

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.pipeline import PlanSoFar

    Report = Callable[[str], None]


def exchange_verb(planned: Callable[[bytes, Report], PlanSoFar]) -> Callable[[bytes, Report], bytes]:
    """Return the verb that answers ``{"kind", "earth", "local"}``, a line feed and a document with the file.

    Args:
        planned: Makes the plan of a document.
    """

    def verb(payload: bytes, report: Report) -> bytes:
        head, _, document = payload.partition(b"\n")
        asked = json.loads(head)
        earth = asked.get("earth")
        try:
            return finished_work(
                planned(document, report),
                ExchangeKind(asked["kind"]),
                None if earth is None else Earth(earth["latitude_deg"], earth["longitude_deg"], earth.get("point", "")),
                local=bool(asked.get("local")),
            )
        except ExchangeRefusedError as refusal:
            raise ScreenRefusalError(str(refusal)) from refusal

    return verb
