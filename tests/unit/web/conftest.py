"""The application over a store of its own, with real workers, for the tests of this room."""

from __future__ import annotations

import json

import pytest
from starlette.testclient import TestClient

from pavewright.desk import demo_document
from pavewright.store import open_store
from pavewright.web import make_app


@pytest.fixture(scope="module")
def store(tmp_path_factory):
    opened = open_store(f"sqlite:///{tmp_path_factory.mktemp('web') / 'jobs.sqlite'}")
    yield opened
    opened.close()


@pytest.fixture(scope="module")
def client(store):
    with TestClient(make_app(store), base_url="http://127.0.0.1", raise_server_exceptions=False) as opened:
        yield opened


@pytest.fixture
def demo(store):
    return store.add(demo_document().decode()).id


@pytest.fixture
def document():
    return json.loads(demo_document())
