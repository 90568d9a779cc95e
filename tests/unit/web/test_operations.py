"""Operations over the wire: merged, counted once, and clashes settled by a person."""

from __future__ import annotations

import json

import pytest

from pavewright.job.operations import between


@pytest.fixture
def send(client):
    def post(job, rev, operations, key, **more):
        body = {"key": key, "rev": rev, "operations": operations, "note": "a change", "from": key[:1]} | more
        return client.post(f"/api/jobs/{job}/operations", json=body)

    return post


def changed(document, act):
    after = json.loads(json.dumps(document))
    act(after)
    return between(document, after)


def set_client(name):
    return lambda document: document["identity"].update(client=name)


def test_a_reading_and_a_name_that_come_at_once_are_both_there(client, demo, document, send):
    tape = {"start": "A", "end": "C", "length_mm": 9001.0}
    client.post(f"/api/jobs/{demo}/deliveries", json={"id": f"t{demo}", "kind": "tapes", "entries": [tape]})
    done = send(demo, 1, changed(document, set_client("A. Sample")), "office")
    assert done.status_code == 200
    reported = done.json()
    assert reported["clashes"] == []
    assert reported["rev"] == 3
    assert reported["document"] == client.get(f"/api/jobs/{demo}").json()["document"]
    assert tape in reported["document"]["measurements"]["tape_plan"]["tapes"]
    assert reported["document"]["identity"]["client"] == "A. Sample"


def test_a_change_that_meets_no_other_is_answered_without_the_document(demo, document, send):
    done = send(demo, 1, changed(document, set_client("A")), "k1").json()
    assert done == {"rev": 2, "repeated": False, "clashes": []}


def test_a_batch_counts_once_and_its_key_stands_for_nothing_else(client, demo, document, send):
    made = changed(document, set_client("A"))
    assert send(demo, 1, made, "k1").json()["rev"] == 2
    again = send(demo, 1, made, "k1").json()
    assert (again["rev"], again["repeated"]) == (2, True)
    assert send(demo, 1, changed(document, set_client("B")), "k1").status_code == 422
    assert len(client.get(f"/api/jobs/{demo}/revisions").json()["revisions"]) == 2


def test_two_values_are_kept_until_a_person_picks(client, demo, document, send):
    send(demo, 1, changed(document, set_client("A")), "one")
    (clash,) = send(demo, 1, changed(document, set_client("B")), "two").json()["clashes"]
    assert (clash["kind"], clash["ours"], clash["theirs"], clash["note"]) == ("value", "A", "B", "a change")
    assert clash["ours_from"]["rev"] == 2
    kept = client.get(f"/api/jobs/{demo}").json()
    assert kept["document"]["identity"]["client"] == "A"
    assert kept["clashes"] == [clash]
    place = f"/api/jobs/{demo}/clashes/{clash['id']}"
    assert client.post(place, json={"pick": "mine"}).status_code == 400
    picked = client.post(place, json={"pick": "theirs"}).json()
    assert picked["document"]["identity"]["client"] == "B"
    assert picked["clashes"] == []
    # a second answer, as after one that was not heard, changes nothing
    assert client.post(place, json={"pick": "theirs"}).json()["rev"] == picked["rev"]


def test_what_stands_is_kept_where_a_person_says_so(client, demo, document, send):
    send(demo, 1, changed(document, set_client("A")), "one")
    (clash,) = send(demo, 1, changed(document, set_client("B")), "two").json()["clashes"]
    picked = client.post(f"/api/jobs/{demo}/clashes/{clash['id']}", json={"pick": "ours"}).json()
    assert (picked["document"]["identity"]["client"], picked["clashes"]) == ("A", [])


def test_what_is_gone_is_brought_back_with_what_was_read_on_it(client, demo, document, send):
    wall = document["site"]["walls"][0]

    def level(after):
        after["site"]["walls"][0]["dpc_level_mm"] = 12345.0

    send(demo, 1, changed(document, lambda after: after["site"]["walls"].pop(0)), "office")
    (clash,) = send(demo, 1, changed(document, level), "phone").json()["clashes"]
    assert clash["kind"] == "gone"
    picked = client.post(f"/api/jobs/{demo}/clashes/{clash['id']}", json={"pick": "theirs"}).json()
    (back,) = (each for each in picked["document"]["site"]["walls"] if each["name"] == wall["name"])
    assert back == wall | {"dpc_level_mm": 12345.0}


def test_a_rename_since_is_followed_in_what_a_phone_sends_one_after_the_other(client, demo, document, send):
    wall = document["site"]["walls"][0]["name"]

    def rename(after):
        after["site"]["walls"][0]["name"] = "North wall"

    send(demo, 1, changed(document, rename), "office")

    def first(after):
        after["site"]["walls"][0]["dpc_level_mm"] = 12345.0

    def second(after):
        after["site"]["walls"][0]["openings"] = [{"name": "Hatch", "along_mm": 100.0, "width_mm": 500.0}]
        after["areas"].append(after["areas"][0] | {"name": "Path", "fall": {"away_from": wall}})

    seen = json.loads(json.dumps(document))
    for number, act in enumerate((first, second)):
        made = changed(seen, act)
        act(seen)
        assert send(demo, 1, made, f"phone{number}").json()["clashes"] == []
    now = client.get(f"/api/jobs/{demo}").json()["document"]
    assert now["site"]["walls"][0]["dpc_level_mm"] == 12345.0
    assert now["site"]["walls"][0]["openings"][-1]["name"] == "Hatch"
    assert now["areas"][-1]["fall"]["away_from"] == "North wall"


def test_a_fresh_name_is_kept_in_mind_for_what_the_sender_says_later(client, demo, document, send):
    def wall(start, end):
        return lambda after: after["site"]["walls"].append({"name": "Wall 9", "start": start, "end": end})

    send(demo, 1, changed(document, wall("A", "B")), "office")
    seen = json.loads(json.dumps(document))
    wall("B", "C")(seen)
    send(demo, 1, between(document, seen), "phone1")
    level = json.loads(json.dumps(seen))
    level["site"]["walls"][-1]["dpc_level_mm"] = 9000.0
    assert send(demo, 1, between(seen, level), "phone2").json()["clashes"] == []
    walls = {each["name"]: each for each in client.get(f"/api/jobs/{demo}").json()["document"]["site"]["walls"]}
    assert "dpc_level_mm" not in walls["Wall 9"]
    assert (walls["Wall 9 2"]["start"], walls["Wall 9 2"]["dpc_level_mm"]) == ("B", 9000.0)


def test_a_store_that_was_brought_back_takes_what_was_made_on_a_later_revision(client, demo, document, send):
    assert send(demo, 70, changed(document, set_client("A")), "k").json()["rev"] == 2
    assert client.get(f"/api/jobs/{demo}").json()["document"]["identity"]["client"] == "A"


@pytest.mark.parametrize("operations", [None, {}, [{"op": "set"}], [{"op": "set", "at": ["a"], "to": 1}] * 5001])
def test_what_is_no_operation_is_refused_whole(client, demo, send, operations):
    assert send(demo, 1, operations, "k").status_code == 422
    assert client.get(f"/api/jobs/{demo}").json()["rev"] == 1


def test_a_job_and_a_clash_that_are_not_there(client, send, demo):
    assert send("none", 1, [{"op": "set", "at": ["a"], "to": 1}], "k").status_code == 404
    assert client.post(f"/api/jobs/{demo}/clashes/none", json={"pick": "ours"}).status_code == 404


def test_a_job_is_kept_as_it_is_under_a_name(client, demo, send):
    assert send(demo, 1, [], "k").json() == {"rev": 2, "repeated": False, "clashes": []}
    assert client.get(f"/api/jobs/{demo}/revisions").json()["revisions"][0]["note"] == "a change"


def test_who_knows_the_job_is_told_so_in_a_few_bytes(client, demo, document, send):
    asked = f"/api/jobs/{demo}?known=1&clashes=0"
    assert client.get(asked).json() == {"rev": 1, "same": True}
    send(demo, 1, changed(document, set_client("A")), "k")
    assert client.get(asked).json()["document"]["identity"]["client"] == "A"
