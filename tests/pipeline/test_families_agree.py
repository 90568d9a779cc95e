"""The same fact is the same in every family of papers: typed values against the rows and the words of each paper.

A fact is a function that gives, paper by paper, what that paper says; all of them have to be equal, and none may be
empty. Papers are read as blocks and as text twins: nothing is compiled.
"""

from __future__ import annotations

import csv
import functools
import io
import json
import re

import pytest

from pavewright import rulebook
from pavewright.account import AgreedKind, account
from pavewright.as_laid import reading_places
from pavewright.cash import cash
from pavewright.desk import make_plan
from pavewright.desk._cash import cash_told
from pavewright.desk._customer import customer
from pavewright.laying import PieceKind, saw_set_ups
from pavewright.papers import written_where
from pavewright.papers._input import PaperInput
from pavewright.papers._register import MAKERS
from pavewright.papers._tables import set_out_points
from pavewright.papers._text import to_text
from pavewright.papers._words import day, level, whole
from pavewright.papers._workbook import quantities_workbook
from pavewright.papers.handover._care import care_of
from pavewright.papers.look import as_data
from pavewright.papers.look._blocks import Table
from pavewright.papers.quotation import quotation_facts
from pavewright.pipeline import PlanSoFar, Room
from pavewright.programme import order_lists
from pavewright.units import minor_to_text
from tests.gone_through import quoted_document
from tests.pipeline.test_papers_agree import Book

EXAMPLES = ("circle_court", "curved_path", "front_drive", "gully_yard", "l_terrace", "mixed_patio")
THIN = "\u202f"
_MAKERS = {each.name: each for each in MAKERS}


def _flat(blocks):
    """Give blocks as data, those that hold others opened."""
    for block in blocks:
        yield as_data(block)
        held = getattr(block, "blocks", ())
        beside = () if isinstance(block, Table) else getattr(block, "columns", ())
        yield from _flat(held)
        for column in beside if isinstance(beside, tuple) else ():
            yield from _flat(column)


class Read:
    """The papers of a plan as documents, made when they are asked for."""

    def __init__(self, plan):
        self.plan, self.rules = plan, rulebook.load(plan.edition)
        self.given = PaperInput(plan, self.rules)
        rooms = {room.value: getattr(plan, room.value) for room in Room if room is not Room.LABOUR}
        self.so_far = PlanSoFar(
            plan.job, plan.edition, **rooms, labour=plan.cost.labour, findings=plan.findings, missing=(), faults=()
        )
        self.documents, self.texts = {}, {}

    def document(self, name):
        if name not in self.documents:
            with written_where(self.plan):
                self.documents[name] = _MAKERS[name].document(self.given)
        return self.documents[name]

    def text(self, name):
        if name not in self.texts:
            with written_where(self.plan):
                self.texts[name] = to_text(self.plan, self.document(name)).replace(THIN, "").replace("\u00a0", " ")
        return self.texts[name]

    def blocks(self, name, sheet=None):
        for each in self.document(name).sheets:
            if sheet is None or each.title == sheet:
                yield from _flat(each.blocks)

    def rows(self, name, *heads):
        """Return the rows of every table of a paper that has these heads, each as what stands under them."""
        found = []
        for block in self.blocks(name):
            if block["kind"] != "table":
                continue
            over = [column["head"] for column in block["columns"]]
            if set(heads) <= set(over):
                sets = over.count(heads[0])
                wide = len(over) // sets
                for part in range(sets):
                    places = [over.index(head) + part * wide for head in heads]
                    found += [
                        tuple(row[k].replace(THIN, "") for k in places) for row in block["rows"] if row[places[0]]
                    ]
        return found

    @functools.cached_property
    def told(self):
        return quotation_facts(self.plan, self.rules)

    @functools.cached_property
    def items(self):
        return {row[0]: row for row in Book(quantities_workbook(self.plan)).rows("Quantities")}

    @functools.cached_property
    def orders(self):
        plan = self.plan
        return order_lists(plan.job, plan.cost.orders, plan.quantities, plan.programme)

    def money(self, minor):
        return minor_to_text(minor, self.plan.job.identity.currency).replace(THIN, "")


@pytest.fixture(scope="module")
def read(made_plan):
    def made(name):
        return Read(make_plan(json.dumps(quoted_document())) if name == "quoted" else made_plan(name))

    return functools.cache(made)


def _fact(read, name, before):
    """Return what stands after a label on a paper; empty where it is not there."""
    found = re.search(rf"^{re.escape(before)}: (.*)$", read.text(name), re.MULTILINE)
    return "" if found is None else found.group(1)


def price(read):
    cost, page = read.plan.cost, customer(read.so_far)
    want = (cost.net_minor, cost.total_minor - cost.net_minor, cost.total_minor)
    words = [read.money(each) for each in want]
    table = dict(read.rows("quotation.pdf", "Price", "amount"))
    labels = ("Before tax", page["tax"], "To pay")
    return {
        "plan": words,
        "quotation, typed": [
            read.money(each) for each in (read.told.net_minor, read.told.tax_minor, read.told.total_minor)
        ],
        "quotation": [table.get(label, "") for label in labels],
        "page of the customer": [read.money(page[key]) for key in ("before_tax_minor", "tax_minor", "to_pay_minor")],
        "job pack": [_fact(read, "job-pack.pdf", label) for label in labels],
    }


def payments(read):
    table = read.rows("quotation.pdf", "falls due when", "by the programme", "to pay")
    return {
        "quotation, typed": [(each.words, "" if each.on is None else day(each.on), read.money(each.due_minor)) for each in read.told.payments],
        "quotation": table[:-1],
        "job pack": read.rows("job-pack.pdf", "falls due when", "by the programme", "to pay")[:-1],
        "page of the customer": [(row[0], row[1], row[-1].replace(THIN, "")) for row in customer(read.so_far)["money"]["payments"]][:-1],
        "screen of the price": [(row[0], row[1], row[-1].replace(THIN, "")) for row in cash_told(read.so_far)["money"]["payments"]][:-1],
    }  # fmt: skip


def heads(read):
    """Who, where, when and which revision, on the head of every paper."""
    found, who = {}, read.plan.job.identity
    for name in (
        "quotation.pdf",
        "site-papers.pdf",
        "job-pack.pdf",
        "handover.pdf",
        "orders.pdf",
        "method.pdf",
        "pictures.pdf",
        "variations.pdf",
        "invoices.pdf",
        "final-account.pdf",
    ):
        if read.document(name) is not None:
            found[name] = read.text(name).splitlines()[1:4]
    return {"plan": [f"{who.job} {who.title}", f"{who.client}, {who.address}", f"{day(who.date)}, revision {who.revision}"], **found}  # fmt: skip


def delivery_address(read):
    who = read.plan.job.identity
    said = {line for line in read.text("orders.pdf").splitlines() if line.startswith("Deliver to: ")}
    return {"plan": {f"Deliver to: {who.client}, {who.address}"}, "orders": said}


def heights_of_pegs(read):
    """The levels of each layer at each peg: setting out, site papers, the file of points."""
    points = list(csv.DictReader(io.StringIO(set_out_points(read.plan).decode("utf-8"))))
    pegs = {str(peg.number): {h.layer.value: h for h in peg.heights} for peg in read.plan.setting_out.pegs}
    held = read.rows("site-papers.pdf", "peg", "down, mm", "level")
    assert held
    by_peg = {}
    for peg, down, at in held:
        by_peg.setdefault(peg, set()).add((down, at))
    named = {str(peg.number): peg.name for peg in read.plan.setting_out.pegs}
    filed = {row["peg"]: row for row in points}
    # the finished surface has a list of its own
    kept = {n: [h for key, h in pegs[n].items() if key != "finished"] for n in by_peg}
    exact = {n: {(f"{h.down_from_string_mm:.1f}", f"{h.level_mm:.1f}") for h in pegs[n].values()} for n in by_peg}
    keys = {h: h.replace(" ", "_").replace("-", "_") for each in pegs.values() for h in each}
    return [
        {"plan": {n: {(whole(h.down_from_string_mm), level(h.level_mm)) for h in kept[n]} for n in by_peg}, "hold points": by_peg},
        {
            "plan": exact,
            "file of points": {
                n: {(filed[named[n]][f"{keys[h]}_down_mm"], filed[named[n]][f"{keys[h]}_level_mm"]) for h in pegs[n]} for n in by_peg
            },
        },
    ]  # fmt: skip


def finished_levels(read):
    """The finished level where it is read: hold points, and the plan that readings are held to at the handover."""
    places = reading_places(read.plan.survey, read.plan.levels, read.rules)
    found = [{
        "plan": sorted((each.label, level(each.planned_mm)) for each in places),
        "hold points": sorted(read.rows("site-papers.pdf", "place", "level")),
    }]  # fmt: skip
    if read.plan.as_laid is not None:
        readings = [one for area in read.plan.as_laid.areas for one in area.readings]
        held = {each.at: level(each.planned_mm) for each in places}
        planned = {one.label: held.get(one.at, level(one.planned_mm)) for one in readings}
        handover, pack = (dict(read.rows(name, "reading", "planned")) for name in ("handover.pdf", "job-pack.pdf"))
        found.append({"plan": planned, "handover": handover, "job pack": pack})
    return found


def clearances(read):
    """What is promised under the damp-proof course, and the step down at each door."""
    doors = {door.opening: whole(door.middle_mm) for area in read.plan.levels.areas for door in area.doors}
    checked = re.findall(
        r"^\[ \] Step down at (.*), middle; planned: (\d+) mm", read.text("site-papers.pdf"), re.MULTILINE
    )
    return {
        "plan": doors,
        "hold points": dict(checked),
        "quotation": {
            name: found.group(1)
            for name, words in ((name.rsplit(", ", 1)[0], words) for name, words in read.rows("quotation.pdf", "door", "step down"))
            if (found := re.search(r"(\d+) mm in the middle", words))
        },
        "job pack": dict(read.rows("job-pack.pdf", "door", "in the middle")),
    }  # fmt: skip


def clearance_of_walls(read):
    """The least height under the damp-proof course at each wall, and what of it is promised."""
    met = {}
    for area in read.plan.levels.areas:
        for each in area.clearances:
            met[each.wall] = min(met.get(each.wall, each.min_mm), each.min_mm)
    checked = re.findall(
        r"^\[ \] Below the damp-proof course, wall (.*); planned: (\d+) mm; within: at least (\d+) mm",
        read.text("site-papers.pdf"),
        re.MULTILINE,
    )
    promised = re.findall(
        r"Paving at wall (.*) at least (\d+) mm below the damp-proof course", read.text("quotation.pdf")
    )
    found = {
        "plan": {wall: whole(mm) for wall, mm in met.items()},
        "hold points": {wall: mm for wall, mm, _ in checked},
    }
    limits = {"hold points, limit": {wall: mm for wall, _, mm in checked}, "quotation, promised": dict(promised)}
    if read.plan.as_laid is not None:
        limits["handover, promised"] = dict(read.rows("handover.pdf", "wall", "at least"))
    return [found, limits]


def falls(read):
    return {
        "plan": [each.falls_text for each in read.plan.levels.areas],
        "quotation, typed": [each.falls for each in read.told.areas],
        "quotation": [
            next(iter(re.findall(rf"^- {re.escape(each.area)}: .*; falls (.*)\.$", read.text("quotation.pdf"), re.MULTILINE)), "")
            for each in read.plan.levels.areas
        ],
    }  # fmt: skip


def pieces(read):
    """Whole and cut pieces: laying, job pack, cut list by set-up."""
    laid = read.plan.laying.areas
    front = [_fact(read, "job-pack.pdf", each.area) for each in laid]
    return {
        "plan": [(str(each.whole), str(each.cut)) for each in laid],
        "job pack": [next(iter(re.findall(r"(\d+) whole and (\d+) cut", words)), ()) for words in front],
        "pieces": [
            (
                str(sum(piece.kind is PieceKind.WHOLE for piece in each.pieces)),
                str(sum(piece.kind is not PieceKind.WHOLE for piece in each.pieces)),
            )
            for each in laid
        ],
    }


def area_laid(read):
    """How much is laid in each area: laying, job pack, the last row of its bags or barrows, quotation."""
    laid = [f"{each.paved_m2 + each.joint_m2:.2f}" for each in read.plan.laying.areas]
    so_far = [float(each) for _, each in read.rows("site-papers.pdf", "laid up to", "m² so far")]
    ends = [here for here, after in zip(so_far, [*so_far[1:], 0.0], strict=True) if after <= here]
    fronts = [_fact(read, "job-pack.pdf", each.area).split(" m²")[0] for each in read.plan.laying.areas]
    return {"laying": laid, "job pack": fronts, "bags against area laid": [f"{each:.2f}" for each in ends]}


def set_ups(read):
    """The set-ups of the saw with the pieces that come of each: laying, site papers."""
    want = [(str(up.number), tuple(sorted(n for cut in up.cuts for n in cut.pieces))) for laid in read.plan.laying.areas if laid.sawn for up in saw_set_ups(laid)]  # fmt: skip
    said = read.rows("site-papers.pdf", "set-up", "cuts in order: unit/cut → pieces")
    return {
        "laying": want,
        "cut list by set-up": [(number, tuple(sorted(int(n) for part in words.split("; ") for n in re.findall(r"\d+", re.split("→|between|piece", part)[-1])))) for number, words in said],
    }  # fmt: skip


def ordered(read):
    """How much of what: cost, order lists, delivery check, workbook."""
    lines = {line.line.description: line.line for order in read.orders for line in order.lines}
    come = {item.key for each in read.plan.programme.deliveries for item in each.items}
    names = {each.description: each.ordered_words.replace(THIN, "") for each in lines.values()}
    listed = dict(read.rows("orders.pdf", "what", "order"))
    checked = dict(read.rows("site-papers.pdf", "what should come", "ordered"))
    checked = {next((name for name in names if what.startswith(name)), what): words for what, words in checked.items()}
    brought = {each.description for each in lines.values() if each.item in come}
    return [
        {"orders of the cost": names, "order lists": {what: words for what, words in listed.items() if what in names}},
        {
            "orders of the cost": {name: words for name, words in names.items() if name in brought},
            "delivery check": {name: words for name, words in checked.items() if name in brought},
        },
        {
            "orders of the cost": {name: float(line.ordered) for name, line in lines.items()},
            "workbook": {name: float(read.items[name][5]) if name in read.items else None for name in lines},
        },
    ]


def masses(read):
    """What each delivery weighs: order lists, delivery check."""
    listed = {row[0]: row[1] for row in read.rows("orders.pdf", "what", "kg of all")}
    checked = {what: kg for what, kg in read.rows("site-papers.pdf", "what should come", "kg") if what in listed}
    listed = {what: kg for what, kg in listed.items() if what in checked}
    return {
        "order lists": {what: None if kg == "ask" else kg for what, kg in listed.items()},
        "delivery check": {what: None if kg == "unknown" else kg for what, kg in checked.items()},
    }


def dates(read):
    """When the work begins and ends, and when it may be walked on."""
    programme = read.plan.programme
    span = f"{day(programme.start)} to {day(programme.finish)}"
    said = re.search(r"^- (.*); weather may move it\.$", read.text("quotation.pdf"), re.MULTILINE)
    found = {
        "programme": span,
        "quotation, typed": f"{day(read.told.window.start)} to {day(read.told.window.finish)}",
        "quotation": "" if said is None else said.group(1),
        "job pack": _fact(read, "job-pack.pdf", "On site").rsplit(", ", 1)[0],
    }
    ready = {
        "programme": programme.foot_ready,
        "quotation, typed": read.told.window.foot_ready,
    }
    walk = {"programme": day(programme.foot_ready), "job pack": _fact(read, "job-pack.pdf", "Walk on it from")}
    care = care_of(read.plan, read.rules)
    if not care.completed:
        latest = max((each.first for each in care.dates[: len(read.plan.job.areas)] if each.first), default=None)
        walk["handover"] = "" if latest is None else day(latest)
    return [found, ready, walk]


def days_of_orders(read):
    """When each delivery is to be there: programme, order lists, delivery check."""
    come = {day(each.on) for each in read.plan.programme.deliveries if each.items}
    drops = {day(drop.on) for order in read.orders for drop in order.drops}
    heads = re.findall(r"^\d+ .*, there on (.*):$", read.text("site-papers.pdf"), re.MULTILINE)
    return {"programme": come, "order lists": drops, "delivery check": set(heads)}


def warranty(read):
    months = read.plan.job.terms.warranty_months
    said = r"within (\d+) months from the day on which it is complete"
    return {
        "terms": [str(months)],
        "quotation": re.findall(said, read.text("quotation.pdf")),
        "handover": re.findall(said, read.text("handover.pdf")),
    }


def validity(read):
    until = f"holds until {day(read.told.holds_until)}"
    return {"terms": True, "quotation": until in read.text("quotation.pdf"), "page of the customer": until in json.dumps(customer(read.so_far)["money"], ensure_ascii=False), "job pack": until in read.text("job-pack.pdf")}  # fmt: skip


BEFORE = (price, payments, validity, dates, clearances, clearance_of_walls, falls, warranty)
"""What a quotation says too: of a job that is accepted there is none any more."""
ALWAYS = (
    heads,
    delivery_address,
    heights_of_pegs,
    finished_levels,
    area_laid,
    pieces,
    set_ups,
    ordered,
    masses,
    days_of_orders,
)


def disagree(found):
    """Return what differs from the first paper, paper by paper; of a table only the rows that differ."""
    (_, want), *others = found.items()
    return {name: _apart(want, said) for name, said in others if said != want}


def _apart(want, said):
    if isinstance(want, dict) and isinstance(said, dict):
        return {key: (want.get(key), said.get(key)) for key in [*want, *said] if want.get(key) != said.get(key)}
    if isinstance(want, list) and isinstance(said, list) and len(want) == len(said):
        return [pair for pair in zip(want, said, strict=True) if pair[0] != pair[1]]
    return (want, said)


def check(fact, one):
    with written_where(one.plan):
        made = fact(one)
    for found in made if isinstance(made, list) else [made]:
        assert disagree(found) == {}


@pytest.mark.parametrize("fact", [*BEFORE, *ALWAYS], ids=lambda fact: fact.__name__)
@pytest.mark.parametrize("name", [*EXAMPLES, "quoted"])
def test_every_family_says_the_same(read, name, fact):
    check(fact, read(name))


@pytest.mark.parametrize("fact", ALWAYS, ids=lambda fact: fact.__name__)
def test_every_family_says_the_same_at_the_end_of_a_job(read, fact):
    check(fact, read("gone_through"))


def test_what_was_accepted_is_what_was_quoted_and_adds_up_with_the_change_on_every_paper(read):
    quoted, done = read("quoted"), read("gone_through")
    found = account(done.plan.job)
    (option,) = quoted.told.options
    (variation,) = done.plan.job.variations
    assert found.of_kind(AgreedKind.QUOTATION) == quoted.told.total_minor
    assert found.of_kind(AgreedKind.OPTION) == option.extra_minor
    changed = sum(part.net_minor + part.tax_minor for part in variation.sums)
    assert found.agreed_minor == quoted.told.total_with((option.id,)) + changed == done.plan.cost.total_minor
    assert not variation.gaps
    for name in ("variations.pdf", "invoices.pdf", "final-account.pdf"):
        assert done.money(found.agreed_minor) in done.text(name), name
    assert f"+{done.money(changed)}" in done.text("variations.pdf")
    agreed = {row[0]: row[1] for row in done.rows("final-account.pdf", "what", "with tax")}
    assert done.money(changed) in agreed.values()


def test_bills_credit_and_payment_stand_in_the_account_as_on_their_papers(read):
    done = read("gone_through")
    found = account(done.plan.job)
    assert [standing.bill.kind.value for standing in found.bills] == ["stage", "credit"]
    billed = {row[0]: row[1:] for row in done.rows("final-account.pdf", "No.", "with tax", "to pay")}
    for standing in found.bills:
        assert done.money(abs(standing.gross_minor)) in done.text("invoices.pdf")
        assert done.money(abs(standing.due_minor)) in done.text("invoices.pdf")
    assert [row[0] for row in billed.values()][:2] == [
        done.money(each.gross_minor).replace("−", "-") for each in found.bills
    ]
    assert found.owing_minor == found.due_minor - done.plan.job.received[0].amount_minor
    assert f"Owing: {done.money(found.owing_minor)}" in done.text("final-account.pdf")


def test_payments_of_an_accepted_job_are_those_that_are_billed(read):
    """Stages are parts of what was accepted; what the price has come to since is paid with the last of them."""
    done = read("gone_through").plan
    found = cash(done.job, done.cost, done.programme, rulebook.load(done.edition))
    bill = next(each for each in done.job.bills if each.kind.value == "stage")
    assert found.payments[bill.stage - 1].gross_minor == sum(each.gross_minor for each in bill.sums)
    assert sum(each.due_minor for each in found.payments) == done.cost.total_minor
    assert done.cost.total_minor != account(done.job).of_kind(AgreedKind.QUOTATION)


def test_a_job_that_is_accepted_is_not_quoted_again(read):
    done = read("gone_through")
    assert done.document("quotation.pdf") is None
    assert done.plan.offered == ()
    pack = done.text("job-pack.pdf")
    assert "The price holds until" not in pack
    assert f"Accepted on {day(done.plan.job.accepted.at.date())}" in pack
    assert done.document("final-account.pdf") is not None


def test_the_deeper_dig_stands_on_every_paper(read):
    quoted, done = read("quoted"), read("gone_through")
    before, after = (each.plan.build_ups.areas[0].total_mm for each in (quoted, done))
    assert after - before == 80.0
    measure = next(each for each in done.plan.job.variations[0].measures if each.kind.value == "dig_depth")
    assert (measure.before, measure.after) == (before, after)
    (string,) = {
        peg.string_level_mm - h.level_mm
        for peg in done.plan.setting_out.pegs
        for h in peg.heights
        if h.layer.value == "formation" and peg.role.value != "base"
    } or {0.0}
    assert string == pytest.approx(after + done.plan.setting_out.string_height_mm)


@pytest.mark.parametrize(
    ("fact", "paper"),
    [
        (heights_of_pegs, "site-papers.pdf"),
        (ordered, "orders.pdf"),
        (set_ups, "site-papers.pdf"),
        (pieces, "job-pack.pdf"),
    ],
    ids=lambda each: each if isinstance(each, str) else each.__name__,
)
def test_a_paper_of_the_job_before_it_changed_is_noticed(read, fact, paper):
    mixed = Read(read("gone_through").plan)
    mixed.documents[paper] = read("quoted").document(paper)
    with pytest.raises(AssertionError):
        check(fact, mixed)
