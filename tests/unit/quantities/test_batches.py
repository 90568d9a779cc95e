"""Mix cards: the cement of all batches is what is ordered, and unknown damp is no number."""

from __future__ import annotations

import pytest

from pavewright import rulebook
from pavewright.job import MaterialKind, Mixes
from pavewright.quantities import BatchOf, mix_cards, mix_gear, of_material

RULES = rulebook.load("england")


@pytest.mark.parametrize("name", ["l_terrace", "front_drive", "curved_path"])
def test_the_cement_of_all_mixes_is_the_cement_of_the_order_list(made_plan, name):
    plan = made_plan(name)
    cards = mix_cards(plan.quantities, plan.job.mixes, RULES)
    ordered = plan.quantities.item(of_material(MaterialKind.CEMENT))
    assert sum(card.cement_kg for card in cards) == pytest.approx(ordered.gross)


def test_a_batch_of_a_whole_bag_holds_a_bag_and_a_mixer_its_drum(made_plan):
    plan = made_plan("l_terrace")
    gear = mix_gear(plan.quantities, RULES)
    for card in mix_cards(plan.quantities, plan.job.mixes, RULES):
        by = {batch.of: batch for batch in card.batches}
        assert by[BatchOf.BAG].cement_kg == pytest.approx(gear.bag_kg)
        assert by[BatchOf.MIXER].wet_l == gear.mixer.value
        assert by[BatchOf.MIXER].dry_l / by[BatchOf.MIXER].cement_l == pytest.approx(card.parts)
        assert (card.mixers - 1) * gear.mixer.value < card.wet_m3 * 1000.0 <= card.mixers * gear.mixer.value


def test_damp_sand_is_unknown_until_somebody_says_how_much_it_bulks(made_plan):
    plan = made_plan("l_terrace")
    unknown = mix_cards(plan.quantities, Mixes(), RULES)
    known = mix_cards(plan.quantities, Mixes(sand_bulking_percent=25.0), RULES)
    assert all(batch.damp_l is None for card in unknown for batch in card.batches)
    assert known[0].batches[0].damp_l == pytest.approx(1.25 * known[0].batches[0].dry_l)
    assert all(batch.damp_l is None for card in known if card.ballast for batch in card.batches)
