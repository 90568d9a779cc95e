"""What an owner takes away on the pages, of a person and of the firm; and a person erased by a name typed again."""

from __future__ import annotations

import csv
import io
import json
import zipfile

import pytest

from pavewright.store import Who, acting_as

SECRET_TITLE = "Terrace of the second firm"


@pytest.fixture
def bo(house):
    made = house.accounts.add_person("bo", "Bo Kerb")
    house.accounts.keep_password(made.id, house.digest)
    house.accounts.join(made.id, house.first, "crew")
    yield made
    if house.accounts.person(made.id).name:
        house.accounts.erase_person(made.id)


def parts(answered):
    assert answered.status_code == 200, answered.text
    assert answered.headers["content-type"] == "application/zip" and answered.headers["cache-control"] == "no-store"
    with zipfile.ZipFile(io.BytesIO(answered.content)) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def noted(house, code):
    return [each.facts for each in house.accounts.audit_entries(house.first) if each.code == code]


def test_an_owner_takes_a_person_away_and_it_is_noted(house, bo):
    before = len(noted(house, "person taken away"))
    found = parts(house.client("owner").get(f"/api/people/{bo.id}/copy.zip"))
    assert b"Bo Kerb" in b"".join(found.values()) and house.digest.encode() not in b"".join(found.values())
    assert noted(house, "person taken away")[: -before or None] == [{"person": bo.id}]
    assert house.client("office").get(f"/api/people/{bo.id}/copy.zip").status_code == 403
    assert house.client("owner", house.second).get(f"/api/people/{bo.id}/copy.zip").status_code == 404
    elsewhere = {"sec-fetch-site": "cross-site"}
    assert house.client("owner").get(f"/api/people/{bo.id}/copy.zip", headers=elsewhere).status_code == 403


def test_an_owner_takes_his_own_firm_away_and_no_other(house):
    for firm, title in ((house.first, "Patio of the first firm"), (house.second, SECRET_TITLE)):
        house.installation.store_of(firm).add(json.dumps({"identity": {"title": title}}))
    first = b"".join(parts(house.client("owner").get("/api/firm/copy.zip")).values())
    second = b"".join(parts(house.client("owner", house.second).get("/api/firm/copy.zip")).values())
    assert b"Patio of the first firm" in first and SECRET_TITLE.encode() not in first
    assert SECRET_TITLE.encode() in second and b"Patio of the first firm" not in second
    assert noted(house, "firm taken away") == [{}]
    assert house.client("office").get("/api/firm/copy.zip").status_code == 403


def test_a_person_is_erased_only_when_the_name_is_typed_again(house, bo):
    owner, phone = house.client("owner"), house.client()
    _, token = house.accounts.begin_sign_in(bo.id, house.first, "phone", 1)
    phone.cookies.set("pavewright-sign-in", token)
    job = house.installation.first.add(json.dumps({"identity": {"title": "Seen by Bo Kerb"}})).id
    for typed in ("", "bo kerb", "Bo"):
        refused = owner.post(f"/api/people/{bo.id}/erased", json={"typed": typed})
        assert refused.status_code == 422 and "Bo Kerb" in refused.json()["message"]
    assert phone.get("/api/jobs").status_code == 200
    told = owner.post(f"/api/people/{bo.id}/erased", json={"typed": " Bo Kerb "}).json()
    assert told["erased"] and {"table": "job", "rows": 1} in told["left"]
    assert phone.get("/api/jobs").status_code == 401
    assert "Bo Kerb" not in owner.get("/api/people").text
    assert house.accounts.person_called("bo") is None
    assert "Bo Kerb" in house.installation.first.job(job).document  # free text stays as it was written
    assert {"person": bo.id} in noted(house, "person erased")


def test_neither_the_last_owner_nor_somebody_of_two_firms_is_erased_there(house, bo):
    owner = house.client("owner")
    own = house.person("owner")
    last = owner.post(f"/api/people/{own.id}/erased", json={"typed": own.name})
    assert last.status_code == 409 and house.accounts.person(own.id).name
    house.accounts.join(bo.id, house.second, "crew")
    for answered in (
        owner.post(f"/api/people/{bo.id}/erased", json={"typed": "Bo Kerb"}),
        owner.get(f"/api/people/{bo.id}/copy.zip"),
    ):
        assert answered.status_code == 409 and "several firms" in answered.json()["message"]
    assert house.accounts.person(bo.id).name == "Bo Kerb"
    assert noted(house, "person erased") == [each for each in noted(house, "person erased") if each["person"] != bo.id]


def test_revisions_of_an_erased_person_keep_his_number(house, bo):
    store = house.installation.first
    with acting_as(Who(bo.id, bo.name)):
        job = store.add(json.dumps({"identity": {"title": "Path"}})).id
    owner = house.client("owner")
    named = owner.get(f"/api/jobs/{job}/revisions").json()["revisions"][0]["who"]
    assert owner.post(f"/api/people/{bo.id}/erased", json={"typed": "Bo Kerb"}).status_code == 200
    after = owner.get(f"/api/jobs/{job}/revisions").json()["revisions"][0]["who"]
    assert (named, after) == ("Bo Kerb", "")
    assert store.revisions(job)[0].who == bo.id
    table = next(body for name, body in parts(owner.get("/api/firm/copy.zip")).items() if name.endswith("people.csv"))
    assert all("Bo Kerb" not in ",".join(row) for row in csv.reader(io.StringIO(table.decode())))
