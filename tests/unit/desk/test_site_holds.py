"""What a phone takes along of hold points."""

from __future__ import annotations

import json

from pavewright import rulebook
from pavewright.desk import demo_document, make_plan_so_far
from pavewright.desk._site_holds import holds_on_site


def inverts_of(document):
    plan = make_plan_so_far(json.dumps(document))
    made = holds_on_site(plan, rulebook.load(plan.edition))
    assert made is not None
    return {hold.drain: [(end.name, end.level_mm) for end in hold.inverts] for hold in made.holds if hold.drain}


def test_a_drain_brings_the_inverts_that_the_job_has_also_where_nobody_took_the_place():
    document = json.loads(demo_document())
    soakaway = next(each for each in document["site"]["outfalls"] if each["name"] == "Soakaway")
    assert "x_mm" not in soakaway
    assert inverts_of(document)["Kitchen gully"] == [("Kitchen gully", 9450.0), ("Soakaway", 9100.0)]


def test_an_invert_that_nobody_took_is_not_a_number():
    document = json.loads(demo_document())
    for each in (*document["site"]["outfalls"], *document["site"]["gullies"]):
        each.pop("invert_level_mm", None)
    assert inverts_of(document)["Kitchen gully"] == [("Kitchen gully", None), ("Soakaway", None)]
