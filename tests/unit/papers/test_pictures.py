"""The picture sheets: no word on them, the same facts as the sheets in words, nothing told by colour."""

from __future__ import annotations

import io
import json
import re
from pathlib import Path

import pypdf
import pytest

from pavewright import rulebook
from pavewright.desk import make_plan
from pavewright.drawing import to_svg
from pavewright.drawing._scene import Words
from pavewright.drawing._type import width_of
from pavewright.drawing.pictures import (
    Title,
    cut_pictures,
    key_picture,
    laying_pictures,
    mix_pictures,
    setting_out_pictures,
    title_sign,
)
from pavewright.laying import saw_set_ups
from pavewright.method import method_figures
from pavewright.papers import PaperKey, pack
from pavewright.papers._writing import written_where
from pavewright.quantities import BatchOf, mix_cards, mix_gear
from pavewright.writing import number_text

ROOT = Path(__file__).parents[3]
NUMBER = re.compile(
    r"[\d.,\u202f\xa0 ×+−\-:?]*\d[\d.,\u202f\xa0 ×]*(mm|kg|l|m|°|ft|in|lb|gal|[½¼¾⅛⅜⅝⅞/ \"'])*|[+:?]|mm"
)
"""A number, alone or with its unit; a plus or a colon between two pictures; a question mark for what nobody knows."""


@pytest.fixture(scope="module", params=["l_terrace", "circle_court"])
def made(request):
    plan = make_plan((ROOT / "examples" / f"{request.param}.json").read_text("utf-8"))
    return plan, rulebook.load(plan.edition)


@pytest.fixture(scope="module")
def scenes(made):
    plan, rules = made
    with written_where(plan):
        cards, bucket = mix_cards(plan.quantities, plan.job.mixes, rules), mix_gear(plan.quantities, rules).bucket
        return {
            Title.SETTING_OUT: setting_out_pictures(plan),
            Title.LAYING: laying_pictures(plan, method_figures(rules)),
            Title.CUTS: cut_pictures(plan),
            Title.MIXES: mix_pictures(cards, bucket.value),
            Title.KEY: key_picture(),
        }


def written(found):
    return [each for scene in found for each in scene.elements if isinstance(each, Words)]


def test_nothing_is_written_but_numbers_with_their_units(scenes):
    for title, found in scenes.items():
        texts = {each.text for each in written(found)}
        assert not {text for text in texts if not NUMBER.fullmatch(text)}, title


def test_every_picture_says_what_it_shows_to_who_cannot_see_it(scenes):
    for title, found in scenes.items():
        assert title_sign(title).about
        assert all(len(scene.about.split()) > 5 for scene in found)


def test_no_picture_is_told_by_colour_and_none_is_written_too_small(scenes):
    for found in scenes.values():
        for scene in found:
            assert set(re.findall('"(#[0-9a-f]+)"', to_svg(scene))) <= {"#000", "#fff", "#d9d9d9"}
            wide, high = scene.paper_mm
            assert wide <= 186.0
            assert high <= 240.0
    assert all(each.height_mm >= 2.85 for found in scenes.values() for each in written(found))


def test_heights_are_those_of_the_pegs(made, scenes):
    plan, _ = made
    texts = [each.text for each in written(scenes[Title.SETTING_OUT][1:])]
    for peg in plan.setting_out.pegs:
        if peg.heights and peg.role != "base":
            assert str(peg.number) in texts
            for height in peg.heights:
                assert f"{height.down_from_string_mm:.0f}" in texts


def test_every_set_up_of_the_saw_is_there_with_its_pieces(made, scenes):
    plan, _ = made
    found = written(scenes[Title.CUTS])
    texts = {each.text for each in found}
    numbers = {word for text in texts for word in text.split()}
    for laid in plan.laying.areas:
        for set_up in saw_set_ups(laid):
            if set_up.fence_mm is not None:
                assert f"{set_up.fence_mm:.0f} mm" in texts
            assert {str(piece) for cut in set_up.cuts for piece in cut.pieces} <= numbers
    assert sum(int(each.text[2:]) for each in found if each.text.startswith("× ")) == sum(
        len(set_up.cuts) for laid in plan.laying.areas for set_up in saw_set_ups(laid)
    )


def test_mixes_are_those_of_the_mix_cards(made, scenes):
    plan, rules = made
    texts = {each.text for each in written(scenes[Title.MIXES])}
    with written_where(plan):
        for card in mix_cards(plan.quantities, plan.job.mixes, rules):
            batch = next(each for each in card.batches if each.of is BatchOf.MIXER)
            assert f"{number_text(batch.cement_kg, 1)} kg" in texts
            assert f"× {card.mixers}" in texts


def test_the_paper_has_no_word_in_head_and_foot(made):
    plan, rules = made
    (paper,) = pack(plan, rules, only=frozenset({PaperKey.PICTURES}))
    reader = pypdf.PdfReader(io.BytesIO(paper.content))
    allowed = {plan.job.identity.job, "INVENTED", "EXAMPLE", "N"}
    for page in reader.pages:
        words = set(page.extract_text().split()) - allowed
        assert not {word for word in words if re.search("[A-Za-z]{3,}", word)}
        assert plan.job.identity.job in page.extract_text()
    assert reader.trailer["/Root"]["/MarkInfo"]["/Marked"]


def test_in_feet_no_picture_says_millimetres_and_nothing_runs_off_the_sheet():
    document = json.loads((ROOT / "examples" / "l_terrace.json").read_text("utf-8"))
    document["identity"].update(locality="usa", currency="USD", region="US")
    plan = make_plan(json.dumps(document))
    rules = rulebook.load(plan.edition)
    with written_where(plan):
        cards, bucket = mix_cards(plan.quantities, plan.job.mixes, rules), mix_gear(plan.quantities, rules).bucket
        found = [
            *setting_out_pictures(plan),
            *laying_pictures(plan, method_figures(rules)),
            *cut_pictures(plan),
            *mix_pictures(cards, bucket.value),
        ]
    for scene in found:
        left, _, right, _ = scene.bounds_mm
        for each in written([scene]):
            assert "mm" not in each.text
            assert "kg" not in each.text
            wide = width_of(each.text, each.height_mm, bold=each.bold) * scene.scale
            start = each.at[0] - {"start": 0.0, "middle": wide / 2.0, "end": wide}[each.anchor]
            if not each.turn_deg:
                assert left <= start
                assert start + wide <= right + 0.5
