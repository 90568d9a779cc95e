"""Places for files: a folder, and a store that speaks S3 in this process."""

from __future__ import annotations

import logging
import secrets

import boto3
import pytest
from moto.server import ThreadedMotoServer

from tests.unit.store.conftest import empty_file, server, server_url, template, url  # noqa: F401 - fixtures of the room

KEYS = {"AWS_ACCESS_KEY_ID": "made up", "AWS_SECRET_ACCESS_KEY": "made up too", "AWS_REGION": "us-east-1"}


@pytest.fixture(scope="session")
def s3():
    """A server that speaks S3, on this machine and for the run only."""
    logging.getLogger("werkzeug").setLevel(logging.ERROR)
    running = ThreadedMotoServer(ip_address="127.0.0.1", port=0, verbose=False)
    running.start()
    host, port = running.get_host_and_port()
    yield f"http://{host}:{port}"
    running.stop()


@pytest.fixture
def bucket(s3, monkeypatch):
    """The address of an empty bucket, with what the environment has to hold for it."""
    for name, value in {**KEYS, "AWS_ENDPOINT_URL": s3}.items():
        monkeypatch.setenv(name, value)
    name = f"paving-{secrets.token_hex(4)}"
    boto3.client("s3").create_bucket(Bucket=name)
    return f"s3://{name}/firm/files"


@pytest.fixture(params=["folder", "s3"])
def where(request, tmp_path):
    """Where files are kept: once a folder, once a store that speaks S3."""
    return str(tmp_path / "files") if request.param == "folder" else request.getfixturevalue("bucket")
