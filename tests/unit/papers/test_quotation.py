"""The quotation: what it says is what the plan, the screen and the cost sheet say, and it says nothing of the cost."""

from __future__ import annotations

import dataclasses
import datetime as dt
import json
import re
from pathlib import Path

import pytest

from pavewright import firm, rulebook, units
from pavewright.desk import make_plan
from pavewright.desk._customer import customer
from pavewright.desk._plain import plain
from pavewright.drawing import grid_of, layer_pictures, wall_sections
from pavewright.job import Agreement, AgreementPlace
from pavewright.job.agreed import Accepted, AcceptedMeans
from pavewright.papers import PaperKey
from pavewright.papers._input import PaperInput
from pavewright.papers._pack import cost_sheet
from pavewright.papers._register import MAKERS
from pavewright.papers._text import to_text
from pavewright.papers._writing import written_where
from pavewright.papers.cancelling import SAID as CANCELLING_SAID
from pavewright.papers.cancelling import WhyNoNotice, cancelling, no_notice_words
from pavewright.papers.quotation import cancellation, document, quotation_facts
from pavewright.papers.quotation._words import SAID
from pavewright.writing import Sentence
from tests.unit.papers.readability import readability, sentences_of, words_of

ROOT = Path(__file__).parents[3]
SUPPLIER = "Quagmire and Daughters"
EASY, EASY_SENTENCE = 6.0, 12.0
"""The whole is read with ease by a child of eleven or twelve, its hardest sentence by one who leaves school."""
LONGEST_WORDS = 32


def entered():
    """A drive with everything that a quotation may hold: options, goods to choose, provisional work, retention."""
    found = json.loads((ROOT / "examples" / "front_drive.json").read_text("utf-8"))
    for unit in found["units"]:
        unit["supplier"] = SUPPLIER
    found["terms"] |= {
        "provisional": [
            {
                "name": "Soft ground dug out",
                "unit": "m3",
                "rate_minor": 11_500,
                "amount": 2.0,
                "low_amount": 0.0,
                "high_amount": 5.0,
            }
        ],
        "prime_costs": [{"name": "Stone with the house number", "amount_minor": 9_700, "attendance_percent": 10.0}],
        "options": [
            {"name": "Dearer block", "changes": [{"path": "units.0.pack_price_minor", "number": 61_300}]},
            {"name": "No such thing", "changes": [{"path": "units.77.pack_price_minor", "number": 1}]},
            {"name": "One man alone", "changes": [{"path": "crew.people", "number": 1}]},
        ],
    }
    return found


@pytest.fixture(scope="module")
def plan():
    return make_plan(json.dumps(entered()).encode()).whole


@pytest.fixture(scope="module")
def rules(plan):
    return rulebook.load(plan.edition)


@pytest.fixture(scope="module")
def facts(plan, rules):
    return quotation_facts(plan, rules)


def text_of(plan, make):
    with written_where(plan):
        made = make(PaperInput(plan, rulebook.load(plan.edition)))
        return "" if made is None else to_text(plan, made)


def flat(text):
    return " ".join(text.split())


@pytest.fixture(scope="module")
def text(plan):
    return text_of(plan, document)


def agreed(plan, where=None, on=None):
    """The plan as if it were agreed so; nothing that is planned hangs on that."""
    of = Agreement(place=None if where is None else AgreementPlace(where), on=on)
    return dataclasses.replace(plan, job=plan.job.model_copy(update={"agreement": of}))


def in_place(plan, locality, where=None, on=None):
    return agreed(plan, where, on), rulebook.load(locality)


def test_nothing_of_the_cost_stands_in_it(plan, facts, text):
    told = json.dumps(plain(facts), ensure_ascii=False, default=str)
    for said in (text, told):
        for word in ("margin", "mark-up", "overhead", "prime cost", "wage", "profit", "supplier", SUPPLIER):
            assert word.lower() not in said.lower()
    # of goods that he chooses the customer reads what is counted for supplying them: he settles it
    open_to_all = {each.supply_minor for each in facts.goods}
    secret = [
        line.amount_minor for line in plan.cost.lines if line.amount_minor and line.amount_minor not in open_to_all
    ]
    secret += [plan.cost.prime_minor, plan.cost.overhead_minor, plan.cost.margin_minor]
    with written_where(plan):
        written = {units.minor_to_text(each, facts.who.currency) for each in secret}
    assert len(written) > 10
    assert not [each for each in written if flat(each) in flat(text)]
    shown = set(re.findall(r"_minor\": (-?\d+)", told))
    assert not shown & {str(each) for each in secret}
    # nor the codes by which the program calls what it noticed
    assert not [each.code for each in plan.findings if each.code in text]


def test_money_is_the_same_on_paper_on_the_screen_and_on_the_cost_sheet(plan, facts, text):
    inside, page = flat(text_of(plan, cost_sheet)), customer(plan)
    with written_where(plan):
        coin = lambda minor: flat(units.minor_to_text(minor, facts.who.currency))  # noqa: E731
        said = flat(text)
        for minor in (facts.net_minor, facts.total_minor, *(each.due_minor for each in facts.payments)):
            assert coin(minor) in said
            assert coin(minor) in inside
        for each in facts.options:
            assert f"{coin(abs(each.extra_minor))}" in said
    assert (page["before_tax_minor"], page["to_pay_minor"]) == (facts.net_minor, facts.total_minor)
    assert page["tax_minor"] == facts.tax_minor == plan.cost.tax_minor
    assert facts.net_minor + facts.tax_minor == facts.total_minor == sum(each.due_minor for each in facts.payments)
    assert [list(row) for row in page["money"]["options"]] == [list(row) for row in facts.money.options]
    assert page["scope"] == list(facts.included)
    assert page["not_included"] == list(facts.not_included)
    assert page["cautions"] == list(facts.cautions)
    assert all(each in said for each in facts.cautions)
    for sentence in (*facts.included, *facts.not_included, *facts.assumed, *facts.tolerances, *facts.changes):
        assert flat(sentence) in said


def test_options_are_differences_and_keep_their_place_among_those_of_the_job(plan, facts, text):
    dear, man = facts.options
    assert (dear.id, dear.name, man.id) == ("option-1", "Dearer block", "option-3")
    assert dear.extra_minor > 0
    assert man.extra_days > 0
    assert facts.total_with((dear.id,)) == facts.total_minor + dear.extra_minor
    assert facts.total_with(()) == facts.total_minor
    assert facts.total_with((dear.id, man.id)) is None
    with pytest.raises(LookupError):
        facts.option("option-2")
    assert "No such thing" not in text
    signed = text[text.rindex("Acceptance") :]
    assert "Dearer block" in signed
    assert SAID.accept_options in signed


def test_provisional_work_and_goods_stand_with_what_settles_them(facts, text):
    share = facts.provisional
    (rate,) = share.rates
    assert (rate.amount, rate.unit) == (2.0, "m³")
    assert share.low_minor < share.likely_minor < share.high_minor
    (goods,) = facts.goods
    assert goods.supply_minor == 9_700
    assert "Soft ground dug out" in text
    assert "Stone with the house number" in text


def test_the_limit_is_promised_and_never_what_is_planned(plan, facts):
    said = " ".join(facts.tolerances)
    met = [each for area in plan.levels.areas for each in area.clearances]
    assert met
    for each in met:
        planned = f"{each.min_mm:.0f}"
        assert planned == "150" or planned not in re.findall(r"\d+", said)
    assert "150 mm below the damp-proof course" in said


def test_what_is_not_stated_says_so(plan, rules, facts):
    silent = plan.job.terms.model_copy(update={"warranty_months": None, "complaint_to": "", "complaint_days": None})
    bare = dataclasses.replace(plan, job=plan.job.model_copy(update={"terms": silent}))
    told = quotation_facts(bare, rules)
    assert told.warranty[0] == SAID.warranty_open
    assert told.complaints[:2] == (SAID.complain_open, SAID.complain_days_open)
    assert facts.warranty_months == 24
    assert "24 months" in facts.warranty[0]
    assert "10 days" in facts.complaints[1]
    nothing = silent.model_copy(update={"warranty_months": 0})
    none = dataclasses.replace(plan, job=plan.job.model_copy(update={"terms": nothing}))
    assert quotation_facts(none, rules).warranty[0] == SAID.warranty_none


def test_what_nobody_could_see_is_open(plan, facts, text):
    asked = [each for each in plan.job.site.walk_round if each.answer.value == "could_not_see"]
    assert asked
    for each in asked:
        assert any(each.question in said for said in facts.assumed)
    assert text.index("What we could not see") < text.index(asked[0].question)


def test_what_is_built_without_a_price_is_not_ready_and_not_to_be_signed(plan, facts, text):
    assert facts.not_ready == ""
    assert SAID.not_to_sign not in text
    found = entered()
    found["units"][0]["pack_price_minor"] = None
    del found["terms"]["options"]
    found["rates"].pop("catalogue", None)
    made = make_plan(json.dumps(found).encode()).whole
    said = text_of(made, document)
    assert "Not ready to be sent" in said
    assert SAID.not_to_sign in said


def test_the_notice_is_made_only_where_it_is_known_where_the_job_is_agreed(plan):
    row = next(each for each in MAKERS if each.key is PaperKey.CANCELLATION)
    for where, place, why, known in (
        (None, "england", WhyNoNotice.PLACE_NOT_KNOWN, False),
        ("premises", "england", WhyNoNotice.AT_PREMISES, True),
        ("home", "elsewhere", WhyNoNotice.NO_RULE, False),
        ("distance", "usa", WhyNoNotice.NO_RULE, False),
    ):
        made, rules = in_place(plan, place, where)
        given = PaperInput(made, rules)
        assert cancelling(made, rules).why_not is why
        assert cancellation(given) is None
        assert row.no_paper(given).is_known is known
        assert row.no_paper(given).words == no_notice_words(why)
        right = quotation_facts(made, rules).right_to_cancel
        assert len(right) == 1
        assert CANCELLING_SAID.separate not in right


def test_the_days_are_those_of_the_place(plan):
    on = dt.date(2027, 5, 7)  # a Friday
    for place in ("england", "wales", "scotland", "ireland"):
        made, rules = in_place(plan, place, "home", on)
        right = cancelling(made, rules)
        assert right.agreed_is_known
        goods = max(each.on for each in plan.programme.deliveries)
        # the later of both: fourteen days after it is agreed, or after the last goods came
        assert right.last_day(on) == max(on, goods) + dt.timedelta(days=14)
        bare = dataclasses.replace(right, last_goods_on=None)
        assert bare.last_day(on) == dt.date(2027, 5, 21)
    made, rules = in_place(plan, "usa", "home", on)
    # Saturday counts, Sunday does not
    assert cancelling(made, rules).last_day(on) == dt.date(2027, 5, 11)


def test_the_sheets_on_cancelling_have_their_days_and_say_that_their_words_are_to_be_confirmed(plan, rules):
    made = agreed(plan, "home", dt.date(2027, 5, 7))
    with written_where(made):
        papers = cancellation(PaperInput(made, rules))
        titles = [sheet.title for sheet in papers.sheets]
    said = flat(text_of(made, cancellation))
    assert titles == ["Your right to cancel", "Form to cancel", "Request to begin early"]
    assert said.count("To be confirmed") == len(titles)
    assert "Regulations 2013, Schedule 3" in said
    assert CANCELLING_SAID.confirm_place in said
    last = cancelling(made, rules).last_day(dt.date(2027, 5, 7))
    for words in ("Fri 7 May 2027", f"{last:%a} {last.day} {last:%b %Y}", made.job.identity.client):
        assert words in said
    assert said.count(made.job.identity.address) >= 3
    assert CANCELLING_SAID.separate in flat(text_of(made, document))


def test_what_was_accepted_says_where_and_when_it_is_agreed(plan, rules):
    """Through the private link a job is agreed at a distance, where nobody said otherwise; on paper that is not known."""
    at = dt.datetime(2027, 5, 8, 23, 15, tzinfo=dt.UTC)  # past midnight of the summer clock on the site
    for means, where, why in (
        (AcceptedMeans.LINK, None, None),
        (AcceptedMeans.LINK, "premises", WhyNoNotice.AT_PREMISES),
        (AcceptedMeans.PAPER, None, WhyNoNotice.PLACE_NOT_KNOWN),
    ):
        made = agreed(plan, where)
        accepted = Accepted.model_construct(by="J. P.", at=at, means=means)
        job = made.job.model_copy(update={"accepted": accepted})
        right = cancelling(dataclasses.replace(made, job=job), rules)
        assert (right.why_not, right.agreed_on, right.agreed_is_known) == (why, dt.date(2027, 5, 9), True)


def test_no_request_to_begin_early_where_the_work_begins_later(plan):
    made, rules = in_place(plan, "usa", "home", dt.date(2027, 3, 1))
    with written_where(made):
        assert [sheet.title for sheet in cancellation(PaperInput(made, rules)).sheets] == [
            "Your right to cancel",
            "Form to cancel",
        ]
    assert "No request to begin early is needed" in flat(text_of_in(made, rules))


def text_of_in(plan, rules):
    with written_where(plan):
        return to_text(plan, cancellation(PaperInput(plan, rules)))


def test_the_index_of_readability_is_the_published_formula():
    # 4 words of 4, 3, 4 and 3 letters in one sentence: 4.71 × 14 / 4 + 0.5 × 4 − 21.43
    assert readability("Rain ran down out.") == pytest.approx(4.71 * 14 / 4 + 2.0 - 21.43)
    legal = (
        "Notwithstanding anything hereinbefore contained, the contractor reserves unilateral discretion regarding "
        "remuneration adjustments necessitated by unforeseeable subterranean circumstances encountered subsequently."
    )
    assert readability(legal) > EASY_SENTENCE > EASY


@pytest.mark.parametrize("said", [SAID, CANCELLING_SAID], ids=["quotation", "cancelling"])
def test_every_fixed_sentence_is_plain(said):
    fixed = [getattr(said, field.name) for field in dataclasses.fields(said)]
    fixed = [each.pattern if isinstance(each, Sentence) else each for each in fixed]
    fixed = [each for each in fixed if each.endswith(".")]  # heads and labels are no sentences
    assert len(fixed) > 15
    assert readability(" ".join(fixed)) < EASY
    for sentence in (each for words in fixed for each in sentences_of(words)):
        assert len(words_of(sentence)) <= LONGEST_WORDS, sentence
    assert {words: readability(words) for words in fixed if readability(words) > EASY_SENTENCE} == {}


def test_a_made_quotation_is_plain(facts):
    money = facts.money
    parts = {
        "included": facts.included,
        "not included": facts.not_included,
        "assumed": facts.assumed,
        "money": (*money.statements, *money.paying, *money.settling, *money.choosing, money.holds),
        "time": facts.when,
        "tolerances": facts.tolerances,
        "after": (*facts.warranty, *facts.care, *facts.changes, *facts.complaints),
        "signing": (*facts.right_to_cancel, *facts.accepting),
    }
    index = {name: readability(" ".join(said)) for name, said in parts.items()}
    assert {name: found for name, found in index.items() if found > EASY + 3.0} == {}
    assert readability(" ".join(each for said in parts.values() for each in said)) < EASY


def test_a_side_named_by_its_corners_is_found_on_the_drawing(made_plan):
    terrace = made_plan("demo").whole
    told = quotation_facts(terrace, rulebook.load(terrace.edition))
    (bank,) = [edge for edge in terrace.build_ups.open_edges if edge.at_mm is not None]
    square = grid_of(terrace).square_at(bank.at_mm)
    assert f"Side {bank.side} of {bank.area} is at square {square} of the drawing." in told.not_included


def test_the_firm_s_own_words_stand_where_they_belong_and_nothing_beside_them_says_that_it_is_not_stated(plan, rules):
    words = {
        "guarantee": "Five years on all we lay.",
        "validity": "Good for a fortnight.",
        "payment": "Half now, half after.",
    }
    book = firm.read(
        {
            "format": "pavewright.firm",
            "version": 1,
            "texts": [{"key": key, "words": said} for key, said in words.items()],
        }
    )
    terms = plan.job.terms.model_copy(update={"warranty_months": None, "valid_days": None, "stages": ()})
    bare = dataclasses.replace(plan, job=plan.job.model_copy(update={"terms": terms}))
    texts = {}
    for name, given in (("own", PaperInput(bare, rules, book)), ("none", PaperInput(bare, rules))):
        with written_where(bare):
            texts[name] = flat(to_text(bare, document(given)))
    for said in words.values():
        assert said in texts["own"]
        assert said not in texts["none"]
    for said in (SAID.warranty_open, "How long this price holds is not stated", "How this is paid is not stated"):
        assert said in texts["none"]
        assert said not in texts["own"]


def test_a_section_stands_for_every_door_and_a_picture_for_every_build_up(made_plan):
    terrace = made_plan("demo").whole
    said = text_of(terrace, document)
    doors = [door for area in terrace.levels.areas for door in area.doors]
    assert len(doors) >= 1
    assert said.count("Figure: Section") == len(wall_sections(terrace)) >= len(doors)
    assert said.count("What we build, from the top down") == len(layer_pictures(terrace)) >= 1
    assert SAID.accept_doors in said
