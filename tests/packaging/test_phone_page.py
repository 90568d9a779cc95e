"""The commands on the page about phones make a certificate that a device trusts, and the server uses it."""

from __future__ import annotations

import re
import shutil
import ssl
import subprocess
import sys
import urllib.error
import urllib.request
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]


def _has_openssl_3():
    openssl = shutil.which("openssl")
    if openssl is None:
        return False
    told = subprocess.run([openssl, "version"], capture_output=True, text=True, check=False).stdout
    return told.startswith("OpenSSL 3")


@pytest.mark.skipif(not _has_openssl_3(), reason="OpenSSL 3 makes the certificate")
def test_the_commands_of_the_page_make_what_the_server_and_a_device_need(tmp_path):
    for command in re.findall(r"```sh\n(.*?)\n```", (ROOT / "docs" / "phone.md").read_text("utf-8"), re.DOTALL):
        subprocess.run(command, shell=True, cwd=tmp_path, check=True, capture_output=True)  # noqa: S602 - our own page
    command = [sys.executable, "-m", "pavewright.cli", "serve", "--on-network", "--port", "0", "--no-browser"]
    command += ["--certificate", "office.pem", "--private-key", "office-key.pem", "--data", "jobs.sqlite"]
    server = subprocess.Popen(command, cwd=tmp_path, stdout=subprocess.PIPE, text=True)
    try:
        address = server.stdout.readline().split()[0]
        assert address.startswith("https://127.0.0.1:")
        trusting = ssl.create_default_context(cafile=str(tmp_path / "own-authority.pem"))
        with urllib.request.urlopen(address + "api/devices", context=trusting, timeout=30) as answered:  # noqa: S310
            assert answered.status == 200
        with pytest.raises(urllib.error.URLError, match="CERTIFICATE_VERIFY_FAILED"):
            urllib.request.urlopen(address, context=ssl.create_default_context(), timeout=30)  # noqa: S310
    finally:
        server.terminate()
        server.wait(20)
        server.stdout.close()


def test_a_certificate_that_is_none_is_refused_in_words(tmp_path):
    (tmp_path / "office.pem").write_text("no certificate", "utf-8")
    command = [sys.executable, "-m", "pavewright.cli", "serve", "--certificate", "office.pem", "--no-browser"]
    alone = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True, check=False)
    assert alone.returncode == 2
    assert "go together" in alone.stderr
    both = subprocess.run(
        [*command, "--private-key", "office.pem"], cwd=tmp_path, capture_output=True, text=True, check=False
    )
    assert both.returncode == 2
    assert "no certificate with its key" in both.stderr
    assert "Traceback" not in both.stderr
