"""Devices that may reach the jobs over the network."""

from __future__ import annotations


from pavewright.store import open_file


def test_a_token_names_its_device_and_no_other_does(store):
    mine, token = store.devices.pair("Crew phone")
    other, other_token = store.devices.pair("Office tablet")
    assert store.devices.of_token(token) == mine
    assert store.devices.of_token(other_token) == other
    assert token != other_token
    assert store.devices.of_token(token[:-1]) is None
    assert store.devices.of_token("") is None
    assert store.devices.of_token("\ud800") is None


def test_a_withdrawn_device_opens_nothing_and_is_not_listed(store):
    mine, token = store.devices.pair("Crew phone")
    kept, kept_token = store.devices.pair("Second phone")
    assert store.devices.withdraw(mine.id)
    assert store.devices.of_token(token) is None
    assert store.devices.of_token(kept_token) == kept
    assert [one.name for one in store.devices.all()] == ["Second phone"]
    assert not store.devices.withdraw(mine.id)


def test_two_devices_may_have_one_name(store):
    store.devices.pair("Phone")
    store.devices.pair("Phone")
    assert [one.name for one in store.devices.all()] == ["Phone", "Phone"]


def test_the_file_holds_no_token(store_file, tmp_path):
    store = store_file
    _, token = store.devices.pair("Crew phone")
    store.tidy()
    assert token.encode() not in (tmp_path / "jobs.sqlite").read_bytes()


def test_a_store_of_an_older_version_gets_the_table_and_keeps_its_jobs(version_1):
    store = open_file(version_1)
    try:
        assert store.jobs()
        device, token = store.devices.pair("Crew phone")
        assert store.devices.of_token(token) == device
    finally:
        store.close()
