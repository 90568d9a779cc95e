"""Signing in: by password and code, waits, links, devices."""

from __future__ import annotations

import re
import time

import pyotp
import pytest

from pavewright.store.accounts._tables import CODES, SIGN_INS
from pavewright.web.sign_in import _keys

PASSWORD = "wet gloves twice a day"
JSON = {"accept": "application/json"}


def sign_in(browser, name, password=PASSWORD, code="", **more):
    return browser.post(
        "/sign-in", data={"sign_in": name, "password": password, "code": code} | more, follow_redirects=False
    )


def test_while_nobody_was_entered_all_is_as_before(bare):
    assert bare.get("/api/jobs").status_code == 200
    assert bare.get("/api/you").json() == {"signed_in": False, "rights": None}
    assert bare.get("/sign-in", follow_redirects=False).status_code == 303


def test_the_first_owner_comes_in_by_a_link_once_and_then_everybody_signs_in(bare):
    link = bare.post("/api/people/first", json={"name": "Ada Flagg"}).json()["link"]
    assert bare.get("/api/jobs").status_code == 200  # a link that nobody used changes nothing
    assert "Ada Flagg" in bare.get(link).text
    form = {"name": "Ada Flagg", "sign_in": "ada", "password": "short"}
    refused = bare.post(link, data=form)
    assert refused.status_code == 422 and "at least 12" in refused.text and 'value="ada"' in refused.text
    joined = bare.post(link, data=form | {"password": PASSWORD}, follow_redirects=False)
    assert (joined.status_code, joined.headers["location"]) == (303, "/you")
    cookie = joined.headers["set-cookie"]
    assert "HttpOnly" in cookie and "SameSite=lax" in cookie and "Path=/" in cookie
    assert bare.get("/api/you").json()["role"] == "owner"
    assert bare.post(link, data=form | {"password": PASSWORD}).status_code == 404
    bare.cookies.clear()
    assert bare.get("/api/jobs").status_code == 401
    page = bare.get("/jobs/5f", headers={"accept": "text/html"}, follow_redirects=False)
    assert (page.status_code, page.headers["location"]) == (303, "/sign-in?to=/jobs/5f")
    assert bare.post("/api/people/first", json={"name": "Eve"}).status_code == 401
    assert sign_in(bare, "ADA ", to="/sums").headers["location"] == "/sums"
    assert bare.get("/api/jobs").status_code == 200


def test_what_is_wrong_reads_the_same_whether_the_name_exists_or_not(house):
    known, unknown = house.person("office").sign_in, "nobody of this name"
    with_code = house.person("office", name="coded")
    house.accounts.keep_totp(with_code.id, pyotp.random_base32())
    answers = [
        sign_in(house.client(), known, "another one entirely"),
        sign_in(house.client(), unknown, PASSWORD),
        sign_in(house.client(), with_code.sign_in, PASSWORD),
        sign_in(house.client(), with_code.sign_in, PASSWORD, code="000000"),
    ]
    assert {each.status_code for each in answers} == {401}
    assert len({re.sub(r'value="[^"]*"', "", each.text) for each in answers}) == 1
    assert not any("set-cookie" in each.headers for each in answers)


def test_a_password_is_compared_where_there_is_no_such_name_too(house, monkeypatch):
    compared = []
    passwords = house.app.state.guard.passwords
    real = passwords._same
    monkeypatch.setattr(passwords, "_same", lambda kept, typed: compared.append(kept) or real(kept, typed))
    sign_in(house.client(), "no such person at all")
    assert len(compared) == 1 and compared[0].startswith("$argon2id$")


def test_wrong_tries_make_the_name_wait_and_an_unknown_name_waits_alike(bare):
    house = bare.house
    house.accounts.join(house.accounts.add_person("ada", "Ada").id, house.first, "owner")
    said = []
    for name in ("ada", "nobody"):
        answers = [sign_in(bare, name, "wrong") for _ in range(6)]
        assert [each.status_code for each in answers] == [401] * 5 + [429]
        said.append(re.sub(r'value="[^"]*"', "", answers[-1].text))
        assert answers[-1].headers["retry-after"] == "15"
    assert said[0] == said[1]


def test_a_code_of_the_phone_signs_in_once_and_one_on_paper_once(house):
    browser, who = house.client("crew", grants=("see_money",)), house.person("crew", grants=("see_money",))
    begun = browser.post("/api/you/codes/begun", json={"now": PASSWORD})
    secret = begun.json()["secret"]
    assert begun.json()["code"].startswith("data:image/svg+xml")
    assert browser.post("/api/you/codes", json={"code": "000000"}).status_code == 422
    assert house.accounts.totp_secret(who.id) is None
    code = pyotp.TOTP(secret).now()
    paper = browser.post("/api/you/codes", json={"code": code}).json()["codes"]
    assert len(set(paper)) == 10
    assert sign_in(house.client(), who.sign_in, code=code).status_code == 401  # it was used when it was set up
    assert sign_in(house.client(), who.sign_in).status_code == 401
    later = pyotp.TOTP(secret).at(int(time.time()) + 30)
    assert sign_in(house.client(), who.sign_in, code=later).status_code == 303
    assert sign_in(house.client(), who.sign_in, code=later).status_code == 401
    assert sign_in(house.client(), who.sign_in, code=paper[0].lower().replace("-", " ")).status_code == 303
    assert sign_in(house.client(), who.sign_in, code=paper[0]).status_code == 401
    assert browser.get("/api/you").json()["codes_left"] == 9


def test_a_new_password_by_a_link_ends_every_device_and_the_link_holds_once(house):
    owner, crew, who = house.client("owner"), house.client("crew"), house.person("crew")
    link = owner.post(f"/api/people/{who.id}/new-password").json()["link"]
    stranger = house.client()
    assert stranger.get(link).status_code == 200
    assert stranger.post(link, data={"password": "password1234"}).status_code == 422
    assert stranger.post(link, data={"password": "a lorry of sharp sand"}, follow_redirects=False).status_code == 303
    assert stranger.post(link, data={"password": "a lorry of sharp sand"}).status_code == 404
    assert crew.get("/api/you").status_code == 401
    assert sign_in(house.client(), who.sign_in).status_code == 401
    assert sign_in(house.client(), who.sign_in, "a lorry of sharp sand").status_code == 303
    house.accounts.keep_password(who.id, house.digest)


def test_devices_are_seen_and_ended_and_a_change_of_password_ends_the_others(house):
    who = house.person("office", name="devicer")
    browsers = [house.client() for _ in range(3)]
    for each in browsers:
        sign_in(each, who.sign_in)
    first, second, third = browsers
    told = first.get("/api/you").json()["devices"]
    assert len(told) == 3 and sum(each["this"] for each in told) == 1
    other = next(each["id"] for each in second.get("/api/you").json()["devices"] if each["this"])
    assert first.delete(f"/api/you/devices/{other}").status_code == 200
    assert second.get("/api/you").status_code == 401
    stranger = house.client("crew")
    mine = next(each["id"] for each in first.get("/api/you").json()["devices"] if each["this"])
    assert stranger.delete(f"/api/you/devices/{mine}").status_code == 404
    wrong = first.post("/api/you/password", json={"now": "not this one at all", "password": "another fine pass"})
    assert wrong.status_code == 403
    changed = first.post("/api/you/password", json={"now": PASSWORD, "password": "another fine pass"})
    assert changed.json() == {"ended": 1}
    assert (first.get("/api/you").status_code, third.get("/api/you").status_code) == (200, 401)


def test_the_token_changes_at_each_sign_in_and_the_old_one_opens_nothing(house):
    who, browser = house.person("office"), house.client()
    sign_in(browser, who.sign_in)
    before = browser.cookies["pavewright-sign-in"]
    sign_in(browser, who.sign_in)
    assert browser.cookies["pavewright-sign-in"] != before
    old = house.client()
    old.cookies.set("pavewright-sign-in", before)
    assert old.get("/api/you").status_code == 401
    assert browser.post("/sign-out", follow_redirects=False).status_code == 303
    assert browser.get("/api/you").status_code == 401


def test_over_a_secure_connection_the_cookie_belongs_to_this_host_alone(house):
    answered = sign_in(house.client(base="https://localhost"), house.person("office").sign_in)
    assert "__Host-pavewright-sign-in=" in answered.headers["set-cookie"] and "Secure" in answered.headers["set-cookie"]


def test_a_device_that_was_idle_for_long_signs_in_anew(house):
    browser = house.client("office")
    assert browser.get("/api/you").status_code == 200
    with house.installation.first.writing() as connection:
        connection.execute(SIGN_INS.update().values(seen="2020-01-01T00:00:00.000+00:00"))
    assert browser.get("/api/you").status_code == 401


def test_a_page_from_elsewhere_signs_nobody_in_or_out(house):
    for path in ("/sign-in", "/sign-out"):
        assert house.client("office").post(path, headers={"origin": "http://elsewhere.example"}).status_code == 403


def test_strangers_are_held_back_and_who_is_signed_in_is_not(bare):
    house = bare.house
    house.accounts.join(house.accounts.add_person("ada", "Ada").id, house.first, "owner")
    answers = [bare.get("/api/jobs", headers=JSON).status_code for _ in range(242)]
    assert (answers[0], answers[-1]) == (401, 429)
    signed = house.client("office")
    assert signed.get("/api/you").status_code == 200
    assert bare.get("/static/style.css").status_code == 200


def test_a_program_with_a_token_has_no_more_than_its_scopes_and_its_person(house):
    who = house.person("crew")
    _, token = house.accounts.make_token(house.first, who.id, "watcher", ["read_jobs", "see_money", "people"])
    program = house.client()
    head = {"authorization": f"Bearer {token}"}
    assert program.get("/api/jobs", headers=head).status_code == 200
    assert program.get("/api/you", headers=head).json()["rights"] == ["read_jobs"]
    assert program.get("/api/firm", headers=head).status_code == 403
    assert program.post("/api/you/password", headers=head, json={}).status_code == 403
    assert program.get("/api/jobs", headers={"authorization": "Bearer wrong"}).status_code == 401
    # a browser that is signed in and sends a wrong token is no one: nothing falls back
    assert house.client("owner").get("/api/jobs", headers={"authorization": "Bearer wrong"}).status_code == 401


def test_roles_change_at_once_and_the_last_owner_stays(house):
    owner, office = house.client("owner"), house.client("office")
    me, them = house.person("owner"), house.person("office")
    assert owner.put(f"/api/people/{me.id}", json={"role": "crew"}).status_code == 409
    assert owner.delete(f"/api/people/{me.id}").status_code == 409
    assert office.get("/api/firm").status_code == 200
    assert owner.put(f"/api/people/{them.id}", json={"role": "crew", "grants": []}).status_code == 200
    assert office.get("/api/firm").status_code == 403
    assert owner.put(f"/api/people/{them.id}", json={"role": "office"}).status_code == 200
    assert owner.put(f"/api/people/{them.id}", json={"role": "crew", "grants": ["people"]}).status_code == 400


def test_an_invitation_is_withdrawn_and_one_more_firm_is_joined_by_a_touch(house):
    owner = house.client("owner")
    link = owner.post("/api/people/invitations", json={"role": "crew", "name": "Bo"}).json()["link"]
    told = owner.get("/api/people").json()["invitations"]
    assert owner.delete(f"/api/people/invitations/{told[0]['id']}").status_code == 200
    assert house.client().get(link).status_code == 404
    second = house.client("owner", firm=house.second)
    assert second.get("/api/people").json()["firm"] == "Second firm"
    link = second.post("/api/people/invitations", json={"role": "auditor"}).json()["link"]
    office = house.client("office")
    assert office.post(link, data={"do": "join"}, follow_redirects=False).headers["location"] == "/"
    you = office.get("/api/you").json()
    assert (you["role"], len(you["firms"])) == ("auditor", 2)
    assert office.post("/api/you/firm", json={"firm": house.first}).status_code == 200
    assert office.get("/api/you").json()["role"] == "office"
    assert house.client("crew").post("/api/you/firm", json={"firm": house.second}).status_code == 404
    # an owner of one firm makes no key for somebody who belongs to another one too
    assert owner.post(f"/api/people/{house.person('office').id}/new-password").status_code == 409
    second.delete(f"/api/people/{house.person('office').id}")


def test_who_did_what_is_kept_and_told_to_owner_and_auditor(house):
    codes = [each["code"] for each in house.client("auditor").get("/api/audit").json()["entries"]]
    assert {
        "role changed",
        "invited",
        "invitation withdrawn",
        "password changed",
        "sign-in failed",
        "signed_in",
    } <= set(codes)
    assert house.client("office").get("/api/audit").status_code == 403
    everything = house.client("owner").get("/api/audit").text
    assert PASSWORD not in everything and "$argon2" not in everything


@pytest.mark.parametrize("where", ["https://elsewhere.example", "//elsewhere.example", "/\\elsewhere.example"])
def test_after_signing_in_nobody_is_sent_elsewhere(house, where):
    assert sign_in(house.client(), house.person("office").sign_in, to=where).headers["location"] == "/"


def test_how_soon_a_password_is_guessed_is_answered_and_nothing_of_it_is_kept(house, caplog):
    asked = {"password": "wet gloves on a Monday", "sign_in": "ada"}
    answered = house.client().post("/api/password-strength", json=asked)
    assert answered.json() == {"strength": "strong", "said": "Strong."}
    assert answered.headers["cache-control"] == "no-store"
    weak = house.client("office").post("/api/password-strength", json={"password": "liverpool 24"}).json()
    assert weak["strength"] == "weak" and "tried first" in weak["said"]
    assert "wet gloves on a Monday" not in caplog.text


def test_fields_of_passwords_are_named_for_managers_and_take_what_is_pasted(house):
    owner, who = house.client("owner"), house.person("crew", name="paster")
    invitation = owner.post("/api/people/invitations", json={"role": "crew"}).json()["link"]
    link = owner.post(f"/api/people/{who.id}/new-password").json()["link"]
    for address, kind in (("/sign-in", "current-password"), (invitation, "new-password"), (link, "new-password")):
        page = house.client().get(address).text
        (field,) = re.findall(r'<input name="password"[^>]*>', page)
        assert f'autocomplete="{kind}"' in field
        # one that is cut by its field would be kept cut
        assert "maxlength" not in field and "onpaste" not in page and "readonly" not in field
        assert 'autocomplete="username"' in page


def test_tokens_of_sign_ins_are_long_and_never_alike(house):
    who = house.person("office")
    tokens = {house.accounts.begin_sign_in(who.id, house.first, "test", 1)[1] for _ in range(20)}
    assert len(tokens) == 20
    # 43 letters of base64: 256 bits
    assert {len(each) for each in tokens} == {43}
    assert all(re.fullmatch(r"[A-Za-z0-9_-]{43}", each) for each in tokens)


def test_of_codes_on_paper_digests_alone_are_kept(house):
    who, paper = house.person("office", name="papered"), _keys.codes_on_paper()
    house.accounts.keep_codes(who.id, _keys.RECOVERY, [_keys.digest_of_code(each) for each in paper])
    with house.installation.first.reading() as connection:
        rows = connection.execute(CODES.select().where(CODES.c.person_id == who.id)).all()
    assert len(rows) == len(set(paper)) == 10
    kept = " ".join(str(each) for each in rows)
    assert not [each for each in paper if each in kept or each.replace("-", "") in kept]


def test_a_code_of_the_phone_ends(house, monkeypatch):
    who, secret = house.person("office", name="timed"), pyotp.random_base32()
    for steps, fits in ((0, True), (1, True), (2, False), (9, False)):
        house.accounts.keep_totp(who.id, secret)
        code = pyotp.TOTP(secret).at(1_000_000_000)
        monkeypatch.setattr(_keys.time, "time", lambda late=30 * steps: 1_000_000_000 + late)
        assert _keys.code_fits(house.accounts, who.id, secret, code) is fits
    monkeypatch.undo()


def test_codes_are_those_that_the_standard_prints(house, monkeypatch):
    # RFC 6238, appendix B: the secret is these twenty letters, the codes have eight figures of which ours are the last six
    who, secret = house.person("office", name="printed"), "GEZDGNBVGY3TQOJQGEZDGNBVGY3TQOJQ"
    for at, printed in ((59, "94287082"), (1_111_111_109, "07081804"), (2_000_000_000, "69279037")):
        house.accounts.keep_totp(who.id, secret)
        monkeypatch.setattr(_keys.time, "time", lambda at=at: at)
        assert _keys.code_fits(house.accounts, who.id, secret, printed[-6:])
    monkeypatch.undo()


def test_a_link_of_an_owner_ends_the_codes_of_a_lost_phone(house):
    who = house.person("crew", name="phoneless")
    lost = house.client()
    sign_in(lost, who.sign_in)
    house.accounts.keep_totp(who.id, pyotp.random_base32())
    assert sign_in(house.client(), who.sign_in).status_code == 401
    link = house.client("owner").post(f"/api/people/{who.id}/new-password").json()["link"]
    chosen = "a lorry of sharp sand"
    assert house.client().post(link, data={"password": chosen}, follow_redirects=False).status_code == 303
    assert lost.get("/api/you").status_code == 401
    assert house.accounts.totp_secret(who.id) is None
    assert sign_in(house.client(), who.sign_in, chosen).status_code == 303


def test_who_is_not_let_in_is_noted_whatever_the_way_and_nobody_fills_the_list(bare):
    house = bare.house
    house.accounts.join(house.accounts.add_person("ada", "Ada").id, house.first, "owner")

    def noted():
        return [each.facts for each in house.accounts.audit_entries(None, None, 1_000) if each.code == "sign-in failed"]

    for _ in range(30):
        assert bare.get("/api/jobs", headers={"authorization": "Bearer wrong", **JSON}).status_code == 401
    assert noted() == [{"way": "token"}]
    for _ in range(5):
        assert bare.post("/api/sign-in/passkey", json={"credential": {}}).status_code in {409, 422}
    assert noted().count({"way": "passkey"}) == 1
    for _ in range(8):
        sign_in(bare, "nobody", "wrong")
    assert noted().count({"way": "password", "why": "had to wait"}) == 1
    assert "wrong" not in str(noted())


def test_that_a_code_was_used_before_is_noted_and_not_answered(house):
    who, secret = house.person("office", name="twice"), pyotp.random_base32()
    house.accounts.keep_totp(who.id, secret)
    code = pyotp.TOTP(secret).now()
    assert sign_in(house.client(), who.sign_in, code=code).status_code == 303
    used, wrong = (sign_in(house.client(), who.sign_in, code=each) for each in (code, "000000"))
    assert used.status_code == wrong.status_code == 401
    assert used.text == wrong.text
    entries = house.accounts.audit_entries(house.first, None, 50)
    found = [each.facts for each in entries if (each.code, each.person_id) == ("sign-in failed", who.id)]
    # the last one first
    assert found == [{"way": "password", "why": "code"}, {"way": "password", "why": "code used before"}]
    assert code not in str(found)
