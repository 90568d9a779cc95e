"""The order book of a store: lists, filters, what may be due and money, from kept lines."""

import datetime as dt
import json


from pavewright.order_book import DueKind, JobState, due_items
from pavewright.store import JobsAsked, Made, Shelf, SortedBy

TODAY = dt.date(2027, 5, 10)


def document(title, address=""):
    return json.dumps({"identity": {"title": title, "address": address, "job": title, "client": "A. Sample"}})


def summary(state="visit", **parts):
    book = {
        "state": state, "by_hand": False, "facts": {"measured": True}, "place": "Ashford Green", "people": ["Sam"],
        "holds_until": None, "owing_minor": 0, "total_minor": 1000, "currency": "GBP", "stage": 1, "stops": 0,
        "dues": [], "weeks": [], "gaps": [],
    }  # fmt: skip
    return book | parts


def due(kind, on, key="k", **parts):
    fact = {"kind": kind, "key": key, "on": on, "until": None, "what": "", "amount_minor": None, "count": 1}
    return fact | parts


def add(store, title, told=None, **document_parts):
    kept = store.add(document(title, **document_parts))
    if told is not None:
        store.keep_summary(kept.id, kept.rev, "{}", told)
    return kept.id


def test_a_list_is_filtered_counted_and_paged(store):
    for number in range(5):
        add(store, f"Patio {number}", summary("quoted", total_minor=number, holds_until="2027-05-12"))
    late = add(store, "Drive", summary("on_site", owing_minor=500, place="ZZ9", people=["Ines"]))
    unsaid = add(store, "Path")
    page = store.orders.page(JobsAsked(TODAY, limit=2, sort=SortedBy.PRICE, state=JobState.QUOTED))
    assert [one.row.title for one in page.jobs] == ["Patio 4", "Patio 3"]
    assert (page.total, page.states) == (5, {JobState.QUOTED: 5, JobState.ON_SITE: 1, None: 1})
    second = store.orders.page(JobsAsked(TODAY, limit=2, start=4, sort=SortedBy.PRICE, state=JobState.QUOTED))
    assert [one.row.title for one in second.jobs] == ["Patio 0"]
    for asked, ids in (
        (JobsAsked(TODAY, owing=True), [late]),
        (JobsAsked(TODAY, place="ZZ9"), [late]),
        (JobsAsked(TODAY, person="ines"), [late]),
        (JobsAsked(TODAY, words="drive"), [late]),
        (JobsAsked(TODAY, unsaid=True), [unsaid]),
        (JobsAsked(TODAY, shelf=Shelf.ARCHIVED), []),
    ):
        assert [one.row.id for one in store.orders.page(asked).jobs] == ids
    week = dt.timedelta(days=7)
    assert store.orders.page(JobsAsked(TODAY, lapsing_until=TODAY + week)).total == 5
    assert store.orders.page(JobsAsked(TODAY, lapsing_until=TODAY)).total == 0
    assert store.orders.places() == {"Ashford Green": 5, "ZZ9": 1}
    assert store.orders.stale(10) == ((unsaid, 1),)


def test_a_link_moves_a_measured_job_to_quoted_and_falls_silent(store):
    job = add(store, "Patio", summary("visit"))
    link, _ = store.quotations.make(Made(job, 1, dt.date(2099, 1, 1), "{}", b"pdf"), withdraw_others=True)
    page = store.orders.page(JobsAsked(TODAY))
    assert page.states == {JobState.QUOTED: 1}
    assert page.jobs[0].facts.link_out
    made = dt.date.fromisoformat(link.made[:10])
    said = due_items(store.orders.dues(made + dt.timedelta(days=8)), made + dt.timedelta(days=8))
    assert [(each.fact.kind, each.days) for each in said] == [(DueKind.SILENT, -1)]
    store.quotations.withdraw(job, link.id)
    assert store.orders.page(JobsAsked(TODAY)).states == {JobState.VISIT: 1}


def test_what_was_set_by_hand_is_not_moved_by_a_link(store):
    job = add(store, "Patio", summary("lost", by_hand=True, facts={"by_hand": "lost"}))
    store.quotations.make(Made(job, 1, dt.date(2099, 1, 1), "{}", b"pdf"), withdraw_others=True)
    assert store.orders.page(JobsAsked(TODAY)).states == {JobState.LOST: 1}


def test_due_days_are_read_near_a_day_and_go_with_their_job(store):
    dues = [
        due("order_by", "2027-05-11"),
        due("order_by", "2027-09-01", "far"),
        due("cure_ended", "2027-05-01", until="2027-05-04"),
        due("bill_owing", "2027-05-02", amount_minor=700),
    ]
    job = add(store, "Patio", summary("on_site", dues=dues))
    found = due_items(store.orders.dues(TODAY), TODAY)
    assert [(each.fact.kind, each.fact.on.day) for each in found] == [(DueKind.BILL_OWING, 2), (DueKind.ORDER_BY, 11)]
    assert [each.fact.kind for each in due_items(store.orders.dues(TODAY), TODAY, money=False)] == [DueKind.ORDER_BY]
    store.put_away(job, archived=True)
    assert store.orders.dues(TODAY) == ()


def test_money_is_summed_within_one_currency_and_what_is_not_known_is_named(store):
    week = {"week": "2027-05-10", "owing_minor": 100, "expected_minor": 200, "out_minor": 50}
    add(store, "One", summary("on_site", weeks=[week]))
    add(store, "Two", summary("planned", weeks=[week], gaps=["price_gaps"]))
    add(store, "Euro", summary("planned", weeks=[week], currency="EUR"))
    add(store, "Not sure", summary("quoted", weeks=[week | {"owing_minor": 0}], gaps=["no_dates"]))
    found = store.orders.money(TODAY)
    assert [(one.currency, one.owing_minor, one.expected_minor, one.out_minor) for one in found.weeks] == [
        ("EUR", 100, 200, 50),
        ("GBP", 200, 400, 100),
    ]
    assert [(title, gaps) for _, title, gaps in found.unknown] == [("Two", ("price_gaps",))]
    later = store.orders.money(TODAY + dt.timedelta(days=7)).weeks
    assert [(one.owing_minor, one.expected_minor, one.out_minor) for one in later] == [(100, 0, 0), (200, 0, 0)]


def test_a_summary_without_its_order_book_leaves_no_line(store):
    job = add(store, "Patio", summary("on_site", dues=[due("visit", "2027-05-10")]))
    store.keep_summary(job, 1, '{"stage":"measure"}')
    assert store.orders.page(JobsAsked(TODAY)).states == {None: 1}
    assert store.orders.dues(TODAY) == ()


def test_a_job_that_is_removed_leaves_nothing_of_it(store):
    job = add(store, "Patio", summary("on_site", dues=[due("visit", "2027-05-10")]))
    store.deleted.put(job)
    assert store.orders.page(JobsAsked(TODAY, shelf=Shelf.DELETED)).total == 1
    store.deleted.remove(job)
    assert store.orders.page(JobsAsked(TODAY, shelf=Shelf.DELETED)).total == 0


def test_views_and_templates_are_kept_by_name(store):
    first = store.views.keep("Owing", {"owing": "1"})
    second = store.views.keep("Owing", {"owing": "1", "place": "ZZ9"})
    assert [view.body for view in store.views.all()] == [{"owing": "1", "place": "ZZ9"}]
    assert not store.views.remove(first.id)
    assert store.views.remove(second.id)
    made = store.views.keep_template("Our patio", document("Our patio"))
    assert [one.name for one in store.views.templates()] == ["Our patio"]
    assert json.loads(store.views.template(made.id).document)["identity"]["title"] == "Our patio"
    assert store.views.remove_template(made.id)
    assert store.views.templates() == ()
