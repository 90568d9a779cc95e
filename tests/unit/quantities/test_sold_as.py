"""What is ordered is written in good English, for one and for several, on paper and on screens alike."""

from __future__ import annotations

import pytest

from pavewright.job import DisposalKind
from pavewright.papers import plan_parts, PlanPart
from pavewright.quantities import Holder, Measure, SoldAs
from pavewright.quantities._sold_as import by_measure, taken_away
from pavewright.writing import counted_text


@pytest.mark.parametrize(
    ("sold", "ordered", "words"),
    [
        (SoldAs(Holder.PACK, "850 kg"), 1.0, "1 pack of 850 kg"),
        (SoldAs(Holder.PACK, "850 kg"), 2.0, "2 packs of 850 kg"),
        (SoldAs(Holder.BAG, "25 kg"), 9.0, "9 bags of 25 kg"),
        (SoldAs(Holder.MIXED_PACK, "50"), 1.5, "1.50 mixed packs of 50"),
        (SoldAs(Holder.LOAD, "2 m³"), 3.0, "3 loads of 2 m³"),
        (SoldAs(Holder.PIECE), 1.0, "1 piece"),
        (SoldAs(Holder.PIECE), 21.0, "21 pieces"),
        (taken_away(DisposalKind.SKIP, 6.0), 2.0, "2 skips of 6 m³"),
        (taken_away(DisposalKind.GRAB, 8.0), 1.0, "1 grab of 8 m³"),
        (by_measure(Measure.EACH), 4.0, "4 pieces"),
        (by_measure(Measure.KG), 4.0, "4 kg"),
        (by_measure(Measure.M3), 1.0, "1 m³"),
        (by_measure(Measure.LITRE), 2.0, "2 litres"),
    ],
)
def test_one_and_several(sold, ordered, words):
    assert sold.counted(ordered).replace("\u202f", " ") == words


def test_one_of_a_unit_is_called_by_its_own_word():
    assert [counted_text(many, "days") for many in (1.0, 2.0, 0.5)] == ["1 day", "2 days", "0.50 days"]


def test_every_holder_has_words():
    for holder in Holder:
        assert SoldAs(holder).one
        assert SoldAs(holder).several


def test_screens_get_the_words_of_the_plan(made_pack):
    made, _ = made_pack("l_terrace")
    told = plan_parts(made, (PlanPart.QUANTITIES, PlanPart.COST, PlanPart.PROGRAMME))
    items = {each.key.text: each.ordered_words for each in made.quantities.items}
    assert {each["key"]: each["ordered_words"] for each in told["quantities"]["items"]} == items
    lines = [line for order in told["cost"]["orders"] for line in order["lines"]]
    lines += [line for each in told["programme"]["deliveries"] for line in each["items"]]
    assert lines
    assert all(line["ordered_words"] == items[line.get("item") or line["key"]] for line in lines)
    several = [each for each in made.quantities.items if each.sold_as.holder is Holder.PACK and each.ordered > 1.0]
    assert several
    assert all(f"{each.ordered:g} packs of" in each.ordered_words for each in several)
