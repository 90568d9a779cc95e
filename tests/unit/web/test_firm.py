"""The firm's book over the web: kept with its revisions, price lists, the plan that goes by it."""

from __future__ import annotations

import base64
import io
import json

from PIL import Image

_BOOK = {"format": "pavewright.firm", "version": 1}
_LIST = b"Code,Description,Unit,Price\nC1,Cement,25 kg,7.20\nB,Bad,bag,3\n"


def _standing(client) -> dict:
    return client.get("/api/firm").json()


def _put(client, rev: int, document: dict):
    return client.put("/api/firm", json={"rev": rev, "document": document, "note": "changed"})


def _asked(**more) -> dict[str, str]:
    return {"asked": json.dumps({"supplier": "Quarry", "on": "2026-11-01"} | more)}


def test_the_book_begins_empty_and_keeps_what_is_written(client):
    begun = _standing(client)
    assert begun["document"]["format"] == "pavewright.firm"
    saved = _put(client, begun["rev"], begun["document"] | {"firm": {"name": "Stone & Son"}})
    assert saved.status_code == 200
    now = _standing(client)
    assert (now["rev"], now["document"]["firm"]["name"]) == (begun["rev"] + 1, "Stone & Son")
    assert client.get(f"/api/firm?known={now['rev']}").json()["same"] is True
    assert client.get("/api/firm/document.json").json() == now["document"]
    assert client.get("/api/firm/revisions").json()["revisions"][0]["rev"] == now["rev"]
    assert client.get(f"/api/firm/revisions/{now['rev']}").json()["document"] == now["document"]
    assert client.get("/api/firm/revisions/999").status_code == 404


def test_who_comes_second_is_told_what_the_first_wrote(client):
    rev = _standing(client)["rev"]
    assert _put(client, rev, _BOOK | {"firm": {"name": "One"}}).status_code == 200
    second = _put(client, rev, _BOOK | {"firm": {"name": "Two"}})
    assert second.status_code == 409
    assert second.json()["document"]["firm"]["name"] == "One"
    assert second.json()["rev"] == rev + 1
    assert _standing(client)["document"]["firm"]["name"] == "One"


def test_a_book_with_a_fault_is_not_kept(client):
    before = _standing(client)
    refused = _put(client, before["rev"], _BOOK | {"rates": {"tax_percent": "much"}})
    assert refused.status_code == 422
    assert refused.json()["faults"][0]["path"] == "rates.tax_percent"
    assert _standing(client) == before


def test_what_past_jobs_say_of_outputs_is_shown(client):
    past = [{"job": str(one), "kind": "point_h_per_m2", "amount": 10.0, "person_hours": 4.0} for one in range(5)]
    told = client.post("/api/firm/check", json={"document": _BOOK | {"past": past}}).json()
    (learnt,) = told["learnt"]
    assert (learnt["kind"], learnt["jobs"], learnt["said"]) == ("point_h_per_m2", 5, False)
    assert min(learnt["own_hours"], learnt["book_hours"]) < learnt["hours_each"]
    assert learnt["hours_each"] < max(learnt["own_hours"], learnt["book_hours"])
    own = [{"kind": "point_h_per_m2", "hours_each": 0.3}]
    told = client.post("/api/firm/check", json={"document": _BOOK | {"past": past, "outputs": own}}).json()
    assert told["learnt"][0]["said"]


def test_overhead_follows_from_yearly_costs(client):
    overhead = {"yearly": [{"name": "Van", "minor": 600_000}, {"name": "Yard", "minor": 300_000}], "hours_sold": 3000}
    told = client.post("/api/firm/check", json={"document": _BOOK | {"overhead": overhead}}).json()
    assert told["faults"] == []
    assert told["overhead"]["minor_per_hour"] == 300
    assert told["price_age_days"] == 90
    own = client.post("/api/firm/check", json={"document": _BOOK | {"rates": {"price_age_days": 30}}}).json()
    assert own["price_age_days"] == 30


def test_a_price_list_is_shown_before_it_is_taken(client):
    before = _standing(client)
    shown = client.post("/api/firm/prices", params=_asked(), content=_LIST).json()
    assert [each["name"] for each in shown["lines"]] == ["Cement"]
    assert [each["row"] for each in shown["bad"]] == [3]
    assert _standing(client) == before
    params = _asked(rev=before["rev"], uses=shown["suggested"])
    taken = client.post("/api/firm/prices/take", params=params, content=_LIST)
    assert taken.status_code == 200
    assert taken.json()["document"]["rates"]["materials"][0]["pack_price_minor"] == 720
    again = client.post("/api/firm/prices/take", params=params, content=_LIST)
    assert again.status_code == 409
    changed = client.post("/api/firm/prices", params=_asked(), content=_LIST.replace(b"7.20", b"8.00")).json()
    assert [(each["kind"], each["was_minor"], each["now_minor"]) for each in changed["changes"]] == [
        ("price", 720, 800)
    ]


def test_a_price_list_without_supplier_or_day_is_refused(client):
    for asked in ("{}", '{"supplier": "A"}', '{"supplier": "A", "on": "never"}'):
        assert client.post("/api/firm/prices", params={"asked": asked}, content=_LIST).status_code == 422
    assert client.post("/api/firm/prices", params={"asked": "no"}, content=_LIST).status_code == 400
    assert client.post("/api/firm/prices", params=_asked(), content=b"PK\x03\x04no").status_code == 422


def test_a_logo_is_made_of_its_pixels_alone(client):
    out = io.BytesIO()
    Image.new("RGB", (2000, 900), "navy").save(out, "PNG", pnginfo=None)
    logo = client.post("/api/firm/logo", content=out.getvalue()).json()
    kept = Image.open(io.BytesIO(base64.b64decode(logo["base64"])))
    assert (logo["kind"], max(kept.size)) == ("png", 800)
    for wrong, status in ((b"", 422), (b"<svg/>", 415), (out.getvalue()[:40], 422), (b"GIF89a", 415)):
        assert client.post("/api/firm/logo", content=wrong).status_code == status


def _without_prices(document: dict) -> dict:
    rates = {**document["rates"]}
    materials = [
        {name: value for name, value in each.items() if name != "pack_price_minor"} for each in rates["materials"]
    ]
    return document | {"rates": rates | {"materials": materials}}


def test_a_change_of_the_book_changes_the_plan(client, document):
    job = _without_prices(document)
    priced = [each for each in document["rates"]["materials"] if each.get("pack_price_minor")]

    def planned() -> dict:
        return client.post("/api/plan", params={"parts": "cost"}, json=job).json()["plan"]["cost"]

    def keep(times: int) -> None:
        materials = [each | {"pack_price_minor": times * each["pack_price_minor"]} for each in priced]
        book = _BOOK | {"currency": document["identity"].get("currency", "GBP"), "rates": {"materials": materials}}
        assert _put(client, _standing(client)["rev"], book).status_code == 200

    keep(1)
    one = planned()
    keep(2)
    two = planned()
    assert two["prime_minor"] > one["prime_minor"]
    assert _put(client, _standing(client)["rev"], _BOOK).status_code == 200
    assert len(planned()["gaps"]) > len(two["gaps"])


def test_a_long_catalogue_does_not_go_out_with_every_plan(client, document):
    items = [
        {"key": f"thing_{number}", "name": f"Thing {number}", "pack_amount": 1.0, "pack_unit": "each"}
        for number in range(2000)
    ]
    own = [{"key": "own", "name": "Own", "pack_amount": 1.0, "pack_unit": "each", "pack_price_minor": 5}]
    assert _put(client, _standing(client)["rev"], _BOOK | {"rates": {"catalogue": items}}).status_code == 200
    document["rates"]["catalogue"] = own
    told = client.post("/api/plan", params={"parts": "job"}, json=document).json()["plan"]["job"]
    assert [each["key"] for each in told["rates"]["catalogue"]] == ["own"]
    assert _put(client, _standing(client)["rev"], _BOOK).status_code == 200


def test_jobs_are_written_as_the_firm_writes(client):
    rev = _standing(client)["rev"]
    begun = client.post("/api/jobs", json={"title": "Before the book"}).json()["id"]
    assert client.get(f"/api/jobs/{begun}").json()["writing"] == {}
    book = _BOOK | {"currency": "EUR", "locality": "elsewhere", "region": "DE", "measure": "metric"}
    assert _put(client, rev, book).status_code == 200
    for path in (f"/api/jobs/{begun}", f"/api/jobs/{begun}/site-plan"):
        assert client.get(path).json()["writing"] == {"region": "DE", "measure": "metric"}
    new = client.post("/api/jobs", json={"title": "After it"}).json()["id"]
    who = client.get(f"/api/jobs/{new}").json()["document"]["identity"]
    assert (who["currency"], who["locality"], who["region"]) == ("EUR", "elsewhere", "DE")


def test_the_paving_units_of_the_book_go_out_by_themselves(client):
    assert client.get("/api/firm/units").json()["units"] == []
    flag = {"name": "F", "length_mm": 600, "width_mm": 600, "thickness_mm": 40, "kg_each": 33, "per_pack": 20}
    assert (
        _put(client, _standing(client)["rev"], _BOOK | {"units": [flag], "rates": {"tax_percent": 20}}).status_code
        == 200
    )
    told = client.get("/api/firm/units").json()
    assert [each["name"] for each in told["units"]] == ["F"]
    assert told.keys() == {"rev", "currency", "units"}
