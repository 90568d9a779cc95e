"""Two documents of one job, and what changed between them as a drawing."""

from __future__ import annotations

import copy
import json
from pathlib import Path

import pytest

from pavewright.desk import SCREEN_VERBS, ScreenRefusalError

DOCUMENT = json.loads((Path(__file__).parents[3] / "examples" / "mixed_patio.json").read_text("utf-8"))


def asked(before, after):
    payload = json.dumps({"before": before, "after": after}).encode()
    return SCREEN_VERBS["changes"](payload, lambda _: None).decode()


def test_what_changed_is_drawn_and_listed():
    after = copy.deepcopy(DOCUMENT)
    for wall in after["site"]["walls"]:
        wall["dpc_level_mm"] -= 15.0
    svg = asked(DOCUMENT, after)
    assert "Changes since revision 1" in svg and "damp-proof course changed" in svg


def test_nothing_is_answered_where_nothing_changed():
    assert asked(DOCUMENT, DOCUMENT) == ""


def test_a_job_that_is_only_begun_can_be_compared():
    bare = copy.deepcopy(DOCUMENT)
    bare["areas"] = []
    assert "outline new" in asked(bare, DOCUMENT)


def test_one_document_is_refused():
    with pytest.raises(ScreenRefusalError, match="before and after"):
        SCREEN_VERBS["changes"](b'{"before": {}}', lambda _: None)
