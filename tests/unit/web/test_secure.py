"""A server with a certificate, asked over real connections: by today's TLS alone, and by nobody's tricks."""

from __future__ import annotations

import datetime as dt
import http.server
import json
import socket
import ssl
import subprocess
import sys
import threading
import time
import urllib.request

import pytest
from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import rsa
from cryptography.x509.oid import NameOID

from pavewright import __version__
from pavewright.store import Due
from pavewright.web import _hook_sender

NAME = "office.example"


def make_certificate(folder, *names):
    """Write a certificate of some names that vouches for itself, and its key."""
    key = rsa.generate_private_key(65_537, 2_048)
    subject = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, names[0])])
    now = dt.datetime.now(dt.UTC)
    made = (
        x509.CertificateBuilder()
        .subject_name(subject)
        .issuer_name(subject)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(now - dt.timedelta(minutes=5))
        .not_valid_after(now + dt.timedelta(days=1))
        .add_extension(x509.SubjectAlternativeName([x509.DNSName(name) for name in names]), critical=False)
        .add_extension(x509.BasicConstraints(ca=True, path_length=None), critical=True)
        .sign(key, hashes.SHA256())
    )
    certificate, private = folder / "certificate.pem", folder / "key.pem"
    certificate.write_bytes(made.public_bytes(serialization.Encoding.PEM))
    form = serialization.PrivateFormat.PKCS8
    private.write_bytes(key.private_bytes(serialization.Encoding.PEM, form, serialization.NoEncryption()))
    return certificate, private


@pytest.fixture(scope="module")
def files(tmp_path_factory):
    return make_certificate(tmp_path_factory.mktemp("certificate"), "localhost", NAME)


@pytest.fixture(scope="module")
def served(tmp_path_factory, files):
    """The port of a server that answers over a secure connection alone, and by one more name."""
    certificate, private = files
    words = ["serve", "--data", str(tmp_path_factory.mktemp("secure") / "jobs.sqlite"), "--port", "0", "--no-browser"]
    words += ["--certificate", str(certificate), "--private-key", str(private), "--host-name", NAME]
    process = subprocess.Popen([sys.executable, "-m", "pavewright.cli", *words], stdout=subprocess.PIPE, text=True)
    address = process.stdout.readline().split()[0]
    assert address.startswith("https://")
    port = int(address.rstrip("/").rsplit(":", 1)[1])
    for _ in range(1_200):
        try:
            told(port, files, "/health")
            break
        except OSError:
            time.sleep(0.05)
    yield port
    process.terminate()
    process.wait(timeout=30)
    process.stdout.close()


def trusting(files):
    return ssl.create_default_context(cafile=files[0])


def told(port, files, path, host=None):
    asked = urllib.request.Request(f"https://localhost:{port}{path}", headers={"Host": host} if host else {})
    with urllib.request.urlopen(asked, context=trusting(files), timeout=60) as answered:
        return answered.status, dict(answered.headers), answered.read()


def connected(port, context):
    return context.wrap_socket(socket.create_connection(("localhost", port), 60), server_hostname="localhost")


def spoken(port, files, content):
    """What a server answers to bytes, up to its end or a second of quiet."""
    with connected(port, trusting(files)) as line:
        line.sendall(content)
        line.settimeout(3)
        heard = b""
        try:
            while part := line.recv(65_536):
                heard += part
        except TimeoutError:
            pass
        return heard


def test_it_answers_over_a_secure_connection_and_holds_the_browser_to_it(served, files):
    status, heads, body = told(served, files, "/api/jobs")
    assert (status, json.loads(body)["jobs"]) == (200, [])
    assert heads["strict-transport-security"] == "max-age=31536000"
    assert "server" not in {name.lower() for name in heads}
    assert __version__ not in " ".join(heads.values())
    # nothing is answered without it: what comes plainly is no beginning of a secure connection
    with socket.create_connection(("localhost", served), 60) as plain:
        plain.sendall(b"GET /api/jobs HTTP/1.1\r\nHost: localhost\r\n\r\n")
        plain.settimeout(3)
        try:
            assert b"HTTP/1.1 200" not in plain.recv(4_096)
        except (TimeoutError, ConnectionError):
            pass


def test_what_is_older_than_tls_1_2_is_refused(served, files):
    old = ssl.SSLContext(ssl.PROTOCOL_TLS_CLIENT)
    old.check_hostname, old.verify_mode = False, ssl.CERT_NONE
    old.set_ciphers("ALL:@SECLEVEL=0")
    with pytest.warns(DeprecationWarning):
        old.minimum_version, old.maximum_version = ssl.TLSVersion.TLSv1, ssl.TLSVersion.TLSv1_1
    with pytest.raises(ssl.SSLError, match="(?i)alert|protocol"):
        connected(served, old)
    with connected(served, trusting(files)) as today:
        assert today.version() == "TLSv1.3"


def test_only_ciphers_with_forward_secrecy_are_taken(served, files):
    context = trusting(files)
    context.maximum_version = ssl.TLSVersion.TLSv1_2
    with connected(served, context) as line:
        assert line.version() == "TLSv1.2"
        assert line.cipher()[0].startswith(("ECDHE-", "DHE-"))
    context.set_ciphers("AES128-GCM-SHA256:AES256-GCM-SHA384:AES128-SHA:@SECLEVEL=0")
    with pytest.raises(ssl.SSLError):
        connected(served, context)


def test_it_answers_to_its_name_and_to_no_other(served, files):
    assert told(served, files, "/api/jobs", f"{NAME}:{served}")[0] == 200
    with pytest.raises(urllib.error.HTTPError) as refused:
        told(served, files, "/api/jobs", "elsewhere.example")
    with refused.value as answered:
        assert answered.code == 421
        assert answered.headers["strict-transport-security"]


@pytest.mark.parametrize(
    "heads",
    [
        b"Content-Length: 5\r\nTransfer-Encoding: chunked\r\n",
        b"Content-Length: 5\r\nContent-Length: 6\r\n",
        b"Transfer-Encoding: xchunked\r\n",
        b"Content-Length: -1\r\n",
        b"Content-Length : 5\r\n",
        b"A: b\r\n" * 40_000,
    ],
    ids=["both lengths", "two lengths", "unknown coding", "below zero", "space", "endless heads"],
)
def test_no_request_is_hidden_in_another_one(served, files, heads):
    hidden = b"0\r\n\r\nGET /health HTTP/1.1\r\nHost: localhost\r\n\r\n"
    heard = spoken(served, files, b"POST /api/plan HTTP/1.1\r\nHost: localhost\r\n" + heads + b"\r\n" + hidden)
    assert b"HTTP/1.1 200" not in heard
    assert heard == b"" or heard.startswith(b"HTTP/1.1 4"), heard[:200]


def test_a_hook_is_not_told_where_the_certificate_is_not_of_its_name(tmp_path, files, monkeypatch):
    certificate, private = make_certificate(tmp_path, "elsewhere.example")
    heard = []

    class Hears(http.server.BaseHTTPRequestHandler):
        def do_POST(self):
            heard.append(self.path)
            self.send_response(204)
            self.end_headers()

        def log_message(self, *_words):
            pass

    class Quiet(http.server.HTTPServer):
        def handle_error(self, *_words):
            """Say nothing of who hangs up."""

    def tried(chain):
        context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
        context.load_cert_chain(*chain)
        server = Quiet(("127.0.0.1", 0), Hears)
        server.socket = context.wrap_socket(server.socket, server_side=True)
        running = threading.Thread(target=server.serve_forever, daemon=True)
        running.start()
        try:
            at = dt.datetime.now(dt.UTC).isoformat()
            address = f"https://localhost:{server.server_port}/hook"
            return _hook_sender.send(Due("m1", address, "{}", ("whsec_AAAA",), 0, at, at))
        finally:
            server.shutdown()
            running.join()
            server.server_close()

    monkeypatch.setenv(_hook_sender.PRIVATE_ALLOWED, "1")
    monkeypatch.setenv("SSL_CERT_FILE", str(certificate))
    refused = tried((certificate, private))
    assert (refused.delivered, heard) == (False, [])
    assert "SSLCertVerificationError" in refused.told
    monkeypatch.setenv("SSL_CERT_FILE", str(files[0]))
    assert tried(files).delivered
    assert heard == ["/hook"]
