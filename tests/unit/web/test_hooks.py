"""Other programs are told: signed as the standard has it, at least once, and never into a private network."""

from __future__ import annotations

import dataclasses
import datetime as dt
import http.server
import json
import socket
import threading

import pytest
import standardwebhooks

from pavewright.desk import demo_document
from pavewright.store import Event, MessageState, StaleRevision
from pavewright.web import _hook_sender
from pavewright.web._hook_routes import told_once


@pytest.fixture
def listener(monkeypatch):
    """Another program on this machine: it keeps what it is told, and answers what it is set to."""
    monkeypatch.setenv(_hook_sender.PRIVATE_ALLOWED, "1")
    heard = []

    class Hears(http.server.BaseHTTPRequestHandler):
        answers = 204

        def do_POST(self):
            body = self.rfile.read(int(self.headers["Content-Length"]))
            heard.append((self.path, {key.lower(): value for key, value in self.headers.items()}, body))
            self.send_response(Hears.answers)
            if Hears.answers == 302:
                self.send_header("Location", "/elsewhere")
            self.end_headers()

        def log_message(self, *_words):
            pass

    server = http.server.HTTPServer(("127.0.0.1", 0), Hears)
    running = threading.Thread(target=server.serve_forever, daemon=True)
    running.start()
    server.heard, server.hears = heard, Hears
    yield server
    server.shutdown()
    running.join()
    server.server_close()


@pytest.fixture
def hook(store, listener):
    address = f"http://127.0.0.1:{listener.server_port}/hook?of=us"
    made, secret = store.hooks.add("Office", address, [Event.JOB_CHANGED, Event.PAID])
    yield made, secret
    store.hooks.remove(made.id)


def test_a_change_is_told_once_with_a_signature_that_the_standard_takes(store, listener, hook):
    kept = store.add(demo_document().decode())
    store.save(kept.id, 1, demo_document().decode() + "\n")
    assert told_once(store) == 2
    assert told_once(store) == 0
    for path, headers, body in listener.heard:
        assert path == "/hook?of=us"
        told = standardwebhooks.Webhook(hook[1]).verify(body.decode(), headers)
        assert (told["type"], told["data"]["job"]) == ("job.changed", kept.id)
    assert {json.loads(body)["data"]["rev"] for _, _, body in listener.heard} == {1, 2}
    assert all(each.state is MessageState.DELIVERED for each in store.hooks.messages(hook[0].id))
    with pytest.raises(standardwebhooks.WebhookVerificationError):
        standardwebhooks.Webhook("whsec_" + "A" * 44).verify(listener.heard[0][2].decode(), listener.heard[0][1])


def test_two_servers_that_look_at_once_tell_a_message_once(store, listener, hook):
    store.add(demo_document().decode())
    (seen_by_both,) = store.hooks.due()
    assert store.hooks.claim(seen_by_both)
    assert not store.hooks.claim(seen_by_both)
    assert told_once(store) == 0
    assert listener.heard == []
    # the server that claimed it was killed: when its time is over another one tells it
    store.hooks.again(hook[0].id, seen_by_both.id)
    assert told_once(store) == 1
    assert [headers["webhook-id"] for _, headers, _ in listener.heard] == [seen_by_both.id]


def test_money_that_came_in_is_told_and_no_sum_of_it(store, listener, hook):
    document = json.loads(demo_document())
    kept = store.add(json.dumps(document))
    document["received"] = [{"number": 1, "amount_minor": 123456}]
    store.save(kept.id, 1, json.dumps(document))
    told_once(store)
    told = [json.loads(body) for _, _, body in listener.heard]
    assert [each["type"] for each in told].count("job.paid") == 1
    assert b"123456" not in b"".join(body for _, _, body in listener.heard)


def test_a_change_that_is_not_kept_is_not_told(store, hook):
    kept = store.add(demo_document().decode())
    with pytest.raises(StaleRevision):
        store.save(kept.id, 7, demo_document().decode())
    assert len(store.hooks.messages(hook[0].id)) == 1


def test_what_is_not_taken_comes_again_later_and_by_hand_at_once(store, listener, hook):
    listener.hears.answers = 500
    store.add(demo_document().decode())
    assert told_once(store) == 1 and told_once(store) == 0
    message = store.hooks.messages(hook[0].id)[0]
    assert (message.state, message.tries, message.told) == (MessageState.WAITING, 1, "answered 500")
    assert message.due > message.made
    listener.hears.answers = 302
    store.hooks.again(hook[0].id, message.id)
    told_once(store)
    assert [path for path, _, _ in listener.heard] == ["/hook?of=us"] * 2
    listener.hears.answers = 200
    store.hooks.again(hook[0].id, message.id)
    told_once(store)
    assert store.hooks.messages(hook[0].id)[0].state is MessageState.DELIVERED
    assert len({headers["webhook-id"] for _, headers, _ in listener.heard}) == 1


def test_after_days_without_an_answer_it_is_given_up(store, hook, monkeypatch):
    store.add(demo_document().decode())
    due = store.hooks.due()[0]
    old = dataclasses.replace(due, tries=8, made="2027-01-01T00:00:00.000+00:00")
    monkeypatch.setattr("pavewright.store.hooks._hooks._GIVE_UP", dt.timedelta(days=-9999))
    store.hooks.tried(old, "no answer", delivered=False)
    assert store.hooks.messages(hook[0].id)[0].state is MessageState.GIVEN_UP
    assert store.hooks.due() == ()


def test_two_secrets_sign_while_one_takes_the_place_of_the_other(store, listener, hook):
    fresh = store.hooks.rotate(hook[0].id)
    store.add(demo_document().decode())
    told_once(store)
    _, headers, body = listener.heard[0]
    for secret in (hook[1], fresh):
        standardwebhooks.Webhook(secret).verify(body.decode(), headers)
    store.hooks.end_rotation(hook[0].id)
    store.add(demo_document().decode())
    told_once(store)
    _, headers, body = listener.heard[1]
    standardwebhooks.Webhook(fresh).verify(body.decode(), headers)
    with pytest.raises(standardwebhooks.WebhookVerificationError):
        standardwebhooks.Webhook(hook[1]).verify(body.decode(), headers)


@pytest.mark.parametrize(
    "number",
    [
        "127.0.0.1",
        "10.1.2.3",
        "192.168.1.9",
        "172.16.0.1",
        "169.254.169.254",
        "100.64.0.1",
        "0.0.0.0",
        "::1",
        "fe80::1",
        "fd00::1",
        "::ffff:10.0.0.1",
        "224.0.0.1",
        "2002:7f00:1::",
    ],
)
def test_private_networks_are_not_told(monkeypatch, number):
    monkeypatch.delenv(_hook_sender.PRIVATE_ALLOWED, raising=False)
    monkeypatch.setattr(socket, "getaddrinfo", lambda *_a, **_k: [(2, 1, 6, "", (number, 443))])
    with pytest.raises(_hook_sender.AddressRefusedError, match="private network"):
        _hook_sender.place_of("inside.example", 443)


def test_one_private_number_among_open_ones_is_enough_to_refuse(monkeypatch):
    monkeypatch.delenv(_hook_sender.PRIVATE_ALLOWED, raising=False)
    both = [(2, 1, 6, "", ("93.184.216.34", 443)), (2, 1, 6, "", ("10.0.0.1", 443))]
    monkeypatch.setattr(socket, "getaddrinfo", lambda *_a, **_k: both)
    with pytest.raises(_hook_sender.AddressRefusedError):
        _hook_sender.place_of("both.example", 443)
    monkeypatch.setattr(socket, "getaddrinfo", lambda *_a, **_k: both[:1])
    assert _hook_sender.place_of("open.example", 443) == "93.184.216.34"


@pytest.mark.parametrize(
    "address",
    [
        "http://office.example/",
        "ftp://office.example/",
        "https://",
        "https://u:p@office.example/",
        "javascript:1",
        "https://office.example/#x",
        "https://office.example:99999/",
        "https://office.example/a b",
        "http://127.0.0.1/",
    ],
)
def test_odd_addresses_are_refused_when_they_are_entered(client, address, monkeypatch):
    monkeypatch.delenv(_hook_sender.PRIVATE_ALLOWED, raising=False)
    refused = client.post("/api/hooks", json={"name": "Odd", "address": address, "events": ["job.changed"]})
    assert refused.status_code == 422 and len(refused.json()["message"].split()) > 3


def test_addresses_are_entered_seen_and_deleted_over_the_server(client):
    asked = {"name": "Office", "address": "https://office.example/hook", "events": ["run.finished"]}
    made = client.post("/api/hooks", json=asked)
    assert made.status_code == 201 and made.json()["secret"].startswith("whsec_")
    place = f"/api/hooks/{made.json()['hook']['id']}"
    assert "secret" not in client.get("/api/hooks").text
    assert client.post(f"{place}/secret", json={}).json()["secret"] != made.json()["secret"]
    assert client.get("/api/hooks").json()["hooks"][0]["rotating"] is True
    assert client.delete(f"{place}/secret/before").status_code == 200
    assert client.get(f"{place}/messages").json() == {"messages": []}
    assert client.post(f"{place}/messages/none/again", json={}).status_code == 404
    assert client.delete(place).status_code == 200 and client.delete(place).status_code == 404
    assert client.post("/api/hooks", json=asked | {"events": ["rain"]}).status_code == 400


def test_a_token_needs_somebody_whose_it_is(client):
    assert client.get("/api/tokens").json() == {"tokens": [], "scopes": []}
    assert client.post("/api/tokens", json={"name": "Office", "scopes": ["read_jobs"]}).status_code == 409
    assert client.delete("/api/tokens/none").status_code == 404
