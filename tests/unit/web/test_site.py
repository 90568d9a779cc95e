"""What the phone asks: readings that arrive once, photos without a place in them, the plan to take along, the sheet."""

from __future__ import annotations

import base64
import hashlib
import html
import io
import json
import re
import time
import zipfile
from concurrent.futures import ThreadPoolExecutor

import pytest
from PIL import Image

from pavewright.job.operations import between

TAPE = {"start": "A", "end": "C", "length_mm": 9574.0}


def delivery(name, **entry):
    return {"id": name, "kind": "tapes", "entries": [TAPE | entry], "date": "2027-06-01"}


def tapes(client, job):
    return client.get(f"/api/jobs/{job}").json()["document"]["measurements"]["tape_plan"]["tapes"]


def test_a_reading_arrives_once_however_often_it_is_sent(client, demo):
    before = len(tapes(client, demo))
    first = client.post(f"/api/jobs/{demo}/deliveries", json=delivery("d1"))
    again = client.post(f"/api/jobs/{demo}/deliveries", json=delivery("d1"))
    assert (first.status_code, first.json()["state"], first.json()["rev"]) == (200, "kept", 2)
    assert (again.status_code, again.json()["state"], again.json()["rev"]) == (200, "repeated", 2)
    assert len(tapes(client, demo)) == before + 1


def test_the_same_reading_from_many_at_once_counts_once(client, demo):
    before = len(tapes(client, demo))

    def send(_):
        return client.post(f"/api/jobs/{demo}/deliveries", json=delivery("many")).json()["state"]

    with ThreadPoolExecutor(8) as crowd:
        reported = list(crowd.map(send, range(8)))
    assert sorted(reported) == ["kept"] + ["repeated"] * 7
    assert len(tapes(client, demo)) == before + 1


def test_a_refused_reading_leaves_nothing_and_may_be_mended_under_its_name(client, demo):
    refused = client.post(f"/api/jobs/{demo}/deliveries", json=delivery("r1", length_mm=-5.0))
    assert refused.status_code == 422
    assert "Read it again" in refused.json()["message"]
    assert client.get(f"/api/jobs/{demo}").json()["rev"] == 1
    mended = client.post(f"/api/jobs/{demo}/deliveries", json=delivery("r1"))
    assert mended.json()["state"] == "kept"


@pytest.mark.parametrize("wrong", [{"id": "a b"}, {"id": ""}, {"id": 7}, {"kind": None}, {"entries": {}}])
def test_what_is_no_delivery_is_refused(client, demo, wrong):
    answer = client.post(f"/api/jobs/{demo}/deliveries", json=delivery("w1") | wrong)
    assert answer.status_code == 422
    assert answer.json()["message"]


def test_a_sheet_brought_in_twice_gives_one_set(client, demo):
    before = len(tapes(client, demo))
    listed = [delivery("s1"), delivery("s2", end="E", length_mm=8731.0), delivery("s3", length_mm=0.0), "what"]
    sent = {"job": demo, "deliveries": listed}
    first = client.post(f"/api/jobs/{demo}/deliveries", json=sent).json()["results"]
    again = client.post(f"/api/jobs/{demo}/deliveries", json=sent).json()["results"]
    assert [one["state"] for one in first] == ["kept", "kept", "refused", "refused"]
    assert [one["state"] for one in again] == ["repeated", "repeated", "refused", "refused"]
    assert len(tapes(client, demo)) == before + 2


def test_a_sheet_of_another_job_is_not_brought_in(client, demo):
    answer = client.post(f"/api/jobs/{demo}/deliveries", json={"job": "other", "deliveries": [delivery("o1")]})
    assert answer.status_code == 409
    assert "another job" in answer.json()["message"]


def test_readings_for_no_job_are_not_swallowed(client):
    assert client.post("/api/jobs/nothing/deliveries", json=delivery("n1")).status_code == 404


def test_the_plan_to_take_along_has_heights_places_and_limits(client, demo):
    reported = client.get(f"/api/jobs/{demo}/site-plan").json()
    view = reported["view"]
    assert (reported["id"], reported["rev"], reported["faults"]) == (demo, 1, [])
    assert reported["document"]["identity"]["title"]
    assert view["level_limit"]["value"] == 6.0
    assert view["misclosure_per_setup"]["value"] == 5.0
    assert {"label", "area", "at", "planned_mm"} == set(view["grid"][0])
    assert view["setting_out"]["pegs"][0]["heights"]
    # no two places of the grid in a row lie farther apart than the rulebook's area for one reading asks
    first_row = [one["at"][0] for one in view["grid"] if one["at"][1] == view["grid"][0]["at"][1]]
    assert max(b - a for a, b in zip(first_row, first_row[1:], strict=False)) <= 2000.0


def test_a_job_that_makes_no_plan_says_so(client):
    made = client.post("/api/jobs", json={"document": {"identity": {"title": "Half a job"}}}).json()
    reported = client.get(f"/api/jobs/{made['id']}/site-plan").json()
    assert reported["view"] is None
    assert reported["faults"]
    sheet = client.get(f"/jobs/{made['id']}/site-sheet.html")
    assert sheet.status_code == 200, "readings are taken all the same"
    assert "Half a job" in sheet.text
    assert f"Next: {reported['faults'][0]['message']}" in html.unescape(sheet.text)


def test_a_job_that_knows_nothing_has_a_site_plan_and_a_sheet_that_say_what_comes_next(client):
    made = client.post("/api/jobs", json={"title": "First visit"}).json()
    view = client.get(f"/api/jobs/{made['id']}/site-plan").json()["view"]
    assert view["levels"] is view["setting_out"] is None
    assert view["missing"][0]["code"] == "shape"
    sheet = client.get(f"/jobs/{made['id']}/site-sheet.html")
    assert sheet.status_code == 200
    assert "Next: Nothing is measured yet" in sheet.text


# ---- photos


def picture(size=(40, 20), kind="JPEG", **more):
    made = Image.new("RGB", size, "red")
    made.paste("blue", (0, 0, size[0] // 2, size[1]))
    out = io.BytesIO()
    made.save(out, kind, **more)
    return out.getvalue()


def put(client, job, content, **query):
    return client.post(
        f"/api/jobs/{job}/photos", params={"id": "p1"} | query, content=content, headers={"Content-Type": "image/jpeg"}
    )


def kept(client, job, name="p1"):
    return client.get(f"/api/jobs/{job}/photos/{name}")


def test_a_photo_loses_where_it_was_taken_and_stands_upright(client, demo):
    exif = Image.Exif()
    exif[0x0112] = 6  # turned a quarter
    exif[0x010F] = "A camera"
    exif.get_ifd(0x8825)[2] = (51.0, 30.0, 0.0)
    sent = picture(exif=exif, comment=b"a secret", icc_profile=b"\x00" * 200)
    assert put(client, demo, sent, note="Trial hole", x_mm="1200", y_mm="-50.5").status_code == 201
    answer = kept(client, demo)
    back = Image.open(io.BytesIO(answer.content))
    assert answer.headers["content-type"] == "image/jpeg"
    assert back.size == (20, 40)
    assert back.getpixel((10, 5))[2] > 200  # its left half is up now
    assert dict(back.getexif()) == {}
    assert {"exif", "comment", "icc_profile"} & set(back.info) == set()
    for word in (b"camera", b"secret", b"GPS", b"Exif"):
        assert word not in answer.content
    (reported,) = client.get(f"/api/jobs/{demo}/photos").json()["photos"]
    assert (reported["note"], reported["place"]) == ("Trial hole", [1200.0, -50.5])


def test_a_photo_arrives_once_and_is_taken_away(client, demo):
    name = {"id": "once"}
    assert put(client, demo, picture(), **name).status_code == 201
    assert put(client, demo, picture(), **name).json() == {"id": "once", "repeated": True}
    assert client.delete(f"/api/jobs/{demo}/photos/once").status_code == 200
    assert kept(client, demo, "once").status_code == 404


def test_a_large_photo_is_made_small(client, demo):
    put(client, demo, picture((3000, 1500)), id="large")
    assert Image.open(io.BytesIO(kept(client, demo, "large").content)).size == (1600, 800)


@pytest.mark.parametrize("kind", ["PNG", "WEBP"])
def test_other_kinds_become_jpeg(client, demo, kind):
    assert put(client, demo, picture(kind=kind), id=f"kind-{kind}").status_code == 201
    assert kept(client, demo, f"kind-{kind}").content[:2] == b"\xff\xd8"


def test_what_is_clear_becomes_paper(client, demo):
    made = io.BytesIO()
    Image.new("RGBA", (10, 10), (0, 0, 0, 0)).save(made, "PNG")
    put(client, demo, made.getvalue(), id="clear")
    assert Image.open(io.BytesIO(kept(client, demo, "clear").content)).getpixel((5, 5)) == (255, 255, 255)


@pytest.mark.parametrize(
    ("content", "status"),
    [
        (b"", 422),
        (b"not a picture", 415),
        (b"<svg xmlns='http://www.w3.org/2000/svg'/>", 415),
        (picture()[:60], 422),
        (picture(kind="PNG")[:70], 422),
        (picture(kind="GIF"), 415),
        (b"\xff\xd8\xff\xe0" + b"\x00" * 500, 422),
    ],
)
def test_what_is_no_photo_is_refused_with_a_sentence(client, demo, content, status):
    answer = put(client, demo, content, id="bad")
    assert answer.status_code == status
    assert "not a photo" in answer.json()["message"]
    assert kept(client, demo, "bad").status_code == 404


def test_a_picture_that_would_fill_the_memory_is_refused_before_it_is_opened(client, demo):
    made = io.BytesIO()
    Image.new("1", (20000, 20000)).save(made, "PNG")
    assert len(made.getvalue()) < 200_000
    answer = put(client, demo, made.getvalue(), id="bomb")
    assert answer.status_code == 422
    assert put(client, demo, picture(), id="after").status_code == 201


@pytest.mark.parametrize(
    "query", [{"id": "a/b"}, {"x_mm": "1"}, {"x_mm": "nan", "y_mm": "1"}, {"x_mm": "one", "y_mm": "1"}]
)
def test_a_pin_or_a_name_that_is_none_is_refused(client, demo, query):
    assert put(client, demo, picture(), **query).status_code in {400, 404}


def test_more_than_a_photo_is_refused(client, demo):
    assert put(client, demo, b"\x00" * 15_000_001).status_code == 413


# ---- the site sheet


def test_the_site_sheet_is_one_file_whose_own_parts_alone_may_run(client, demo):
    page = client.get(f"/jobs/{demo}/site-sheet.html").text
    policy = re.search(r'Content-Security-Policy" content="([^"]+)"', page)[1].replace("&#39;", "'")
    (script,) = re.findall(r"<script>(.*?)</script>", page, re.DOTALL)
    (style,) = re.findall(r"<style>(.*?)</style>", page, re.DOTALL)
    for part, kind in ((script, "script-src"), (style, "style-src")):
        digest = base64.b64encode(hashlib.sha256(part.encode()).digest()).decode()
        assert f"{kind} 'sha256-{digest}'" in policy
    assert "connect-src" not in policy
    assert "default-src 'none'" in policy
    outside = re.findall(r'(?:src|href)="([^"]+)"', page)
    assert [one for one in outside if not one.startswith(("#", "data:"))] == []
    assert page == client.get(f"/jobs/{demo}/site-sheet.html").text


def test_nothing_of_a_job_runs_in_its_sheet(client, document):
    document["identity"]["title"] = "</title><script>alert(1)</script>"
    document["measurements"]["datum"] = "</script><script>alert(2)</script><!--"
    job = client.post("/api/jobs", json={"document": document}).json()["id"]
    page = client.get(f"/jobs/{job}/site-sheet.html").text
    assert "<script>alert" not in page
    data = re.search(r'<script type="application/json" id="job">(.*?)</script>', page, re.DOTALL)[1]
    assert json.loads(data)["document"]["measurements"]["datum"].startswith("</script>")


def changed_by(document, act):
    after = json.loads(json.dumps(document))
    act(after)
    return between(document, after)


def deliver(client, job, delivery_id, kind, entries, **more):
    body = {"id": delivery_id, "kind": kind, "entries": entries, "date": "2027-05-01"} | more
    return client.post(f"/api/jobs/{job}/deliveries", json=body)


def test_operations_of_a_phone_are_kept_once_whatever_the_office_did_meanwhile(client, demo, document):
    wall = document["site"]["walls"][0]["name"]

    def rename(after):
        after["site"]["walls"][0]["name"] = "Back wall"

    office = {"key": "o1", "rev": 1, "operations": changed_by(document, rename), "note": "renamed"}
    assert client.post(f"/api/jobs/{demo}/operations", json=office).status_code == 200
    read = [{"op": "set", "at": ["site", "walls", {"name": wall}, "dpc_level_mm"], "to": 10148.0}]
    read[0]["was"] = document["site"]["walls"][0]["dpc_level_mm"]
    told = deliver(client, demo, "p1", "operations", read, rev=1, note="DPC read", **{"from": "phone"}).json()
    assert (told["state"], told["rev"]) == ("kept", 3)
    assert deliver(client, demo, "p1", "operations", read, rev=1, **{"from": "phone"}).json()["state"] == "repeated"
    now = client.get(f"/api/jobs/{demo}").json()
    assert now["document"]["site"]["walls"][0] == document["site"]["walls"][0] | {
        "name": "Back wall",
        "dpc_level_mm": 10148.0,
    }
    assert client.get(f"/api/jobs/{demo}/revisions").json()["revisions"][0]["note"] == "DPC read"


def test_a_delivery_that_is_no_operation_is_refused(client, demo):
    told = deliver(client, demo, "p1", "operations", [{"op": "set"}], rev=1)
    assert (told.status_code, told.json()["state"]) == (422, "refused")


def test_a_reading_on_an_area_that_is_gone_is_kept_for_a_person_to_settle(client, demo, document):
    area = document["areas"][0]["name"]
    reading = {"area": area, "x_mm": 500.0, "y_mm": 500.0, "level_mm": 10000.0, "label": "1"}

    def drop(after):
        after["areas"] = [{**each, "name": f"Other {each['name']}"} for each in after["areas"]]
        after["areas"].reverse()
        after["steps"] = []
        after["as_laid"] = None

    after = json.loads(json.dumps(document))
    drop(after)
    client.put(f"/api/jobs/{demo}", json={"rev": 1, "document": after})
    gone = next(each for each in after["areas"] if each["name"] == f"Other {area}")
    last = {"key": "o2", "rev": 2, "operations": [{"op": "remove", "at": ["areas"], "item": gone}], "note": "no patio"}
    client.post(f"/api/jobs/{demo}/operations", json=last)
    told = deliver(client, demo, "r1", "as_laid", [reading], rev=1).json()
    assert told["state"] == "kept"
    assert deliver(client, demo, "r1", "as_laid", [reading], rev=1).json()["state"] == "repeated"
    (clash,) = client.get(f"/api/jobs/{demo}").json()["clashes"]
    assert clash["kind"] == "delivery"
    assert clash["delivery"]["entries"][0]["level_mm"] == 10000.0
    assert "There is no area" in clash["message"]
    place = f"/api/jobs/{demo}/clashes/{clash['id']}"
    still = client.post(place, json={"pick": "theirs"})
    assert still.status_code == 422
    assert "There is no area" in still.json()["message"]
    # once the area is there again, the reading is put in
    back = {"key": "o3", "rev": 4, "operations": [{"op": "add", "at": ["areas"], "item": gone}], "note": "back"}
    client.post(f"/api/jobs/{demo}/operations", json=back)
    settled = client.post(place, json={"pick": "theirs"}).json()
    assert settled["clashes"] == []
    assert settled["document"]["as_laid"]["readings"][-1]["level_mm"] == 10000.0


def test_what_no_job_ever_took_is_refused_as_before(client, demo):
    told = deliver(client, demo, "t1", "tapes", [{"start": "A", "end": "A", "length_mm": 1.0}], rev=1)
    assert told.status_code == 422
    assert client.get(f"/api/jobs/{demo}").json()["clashes"] == []


def handed_over(client, kept_job, **more):
    """The handover of a kept job as the screen of papers asks for it."""
    document = client.get(f"/api/jobs/{kept_job}").json()["document"]
    asked = {"verb": "paper", "paper": "handover", "document": document} | more
    name = client.post("/api/long-tasks", json=asked).json()["long_task"]
    for _ in range(1200):
        state = client.get(f"/api/long-tasks/{name}").json()
        if state["state"] not in {"waiting", "working"}:
            break
        time.sleep(0.1)
    assert state["state"] == "done", state
    content = client.get(f"/api/long-tasks/{name}/papers/handover.zip").content
    with zipfile.ZipFile(io.BytesIO(content)) as held:
        return {each: held.read(each) for each in held.namelist()}


def test_photos_of_the_kept_job_go_into_its_handover(client, demo):
    put(client, demo, picture(), note="Pipe before it was covered")
    sent = kept(client, demo).content
    found = handed_over(client, demo, job=demo)
    assert found["photos/01.jpg"] == sent
    assert "1. Pipe before it was covered" in found["index.txt"].decode()
    assert not any(name.startswith("photos/") for name in handed_over(client, demo))
    asked = {"verb": "paper", "paper": "handover", "document": "{}", "job": "../x"}
    assert client.post("/api/long-tasks", json=asked).status_code in {400, 404}


def test_standing_water_comes_by_itself_and_the_plan_on_site_does_not_wait_for_it(client, demo):
    laid = client.get(f"/api/jobs/{demo}/site-plan").json()["view"]["parts"]["laid"]
    assert laid["water"] is None
    asked = client.get(f"/api/jobs/{demo}/site-water").json()
    assert asked["rev"] == client.get(f"/api/jobs/{demo}/site-plan").json()["rev"]
    assert laid["is_read"] is bool(asked["water"] and asked["water"]["standing"])
    document = client.get(f"/api/jobs/{demo}/document.json").content
    assert client.post("/api/site-water", content=document).json()["water"] == asked["water"]
    assert client.post("/api/site-water", json={}).json()["water"] is None
