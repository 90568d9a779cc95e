"""The list of what is done and the list of what is priced are one."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from pavewright import rulebook
from pavewright.cost import HireKey
from pavewright.desk import make_plan
from pavewright.papers import customer_words

EXAMPLES = {
    path.stem: json.loads(path.read_text("utf-8")) for path in Path(__file__).parents[3].glob("examples/*.json")
}


@pytest.mark.parametrize("example", sorted(EXAMPLES))
def test_every_priced_line_is_for_something_on_the_list_and_everything_on_it_is_priced(made_plan, example):
    made = made_plan(example)
    priced = {line.key for line in made.cost.lines if not isinstance(line.key, HireKey)}
    listed = {key for line in made.cost.scope for key in line.lines}
    assert priced == listed
    assert all(line.lines or line.gaps for line in made.cost.scope)
    assert len({line.key for line in made.cost.scope}) == len(made.cost.scope)
    words = customer_words(made, rulebook.load(made.edition))
    assert len(words.scope) == sum(bool(line.lines) for line in made.cost.scope)


def test_kerbs_edging_and_frames_stand_under_what_is_done(made_plan):
    said = {
        name: " ".join(customer_words(made_plan(name), rulebook.load("england")).scope)
        for name in ("front_drive", "curved_path", "gully_yard")
    }
    assert "m of kerb set in concrete" in said["front_drive"]
    assert "Meter lid: frame reset" in said["front_drive"]
    assert "m of edging set in concrete" in said["curved_path"]
    assert "Yard gully: grating reset" in said["gully_yard"]


@pytest.mark.parametrize("example", sorted(EXAMPLES))
def test_without_any_price_everything_bought_is_told_to_the_customer(example):
    document = EXAMPLES[example] | {"rates": EXAMPLES[example]["rates"] | {"materials": [], "disposal": None}}
    made = make_plan(json.dumps(document))
    priced = {line.key for line in made.cost.lines}
    missing = {item.key for item in made.quantities.items if item.key.bought and item.key not in priced}
    assert missing == {gap.item for gap in made.cost.gaps if gap.item is not None}
    assert len(missing) >= 4
    words = customer_words(made, rulebook.load(made.edition))
    assert all(f"{gap.words}." in words.not_included for gap in made.cost.gaps if not gap.ours)
    ours = [gap for gap in made.cost.gaps if gap.ours]
    assert not any(f"{gap.words}." in words.not_included for gap in ours), "no customer buys blades"
    assert not any("spoil taken away" in said for said in words.scope)
