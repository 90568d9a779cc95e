"""A cluster whose machines know each other by certificates, made here for this machine and an hour."""

from __future__ import annotations

import datetime as dt
import ipaddress

import pytest

from pavewright.engine import Cluster, ClusterFiles, EngineLostError, Piece, run_pieces

pytest.importorskip("distributed")
x509 = pytest.importorskip("cryptography.x509")


def signed(folder, name, by=None):
    """Write a key and a certificate, signed by another one or by itself; return both."""
    from cryptography.hazmat.primitives import hashes, serialization  # noqa: PLC0415 - beside the others
    from cryptography.hazmat.primitives.asymmetric import ec  # noqa: PLC0415

    key = ec.generate_private_key(ec.SECP256R1())
    called = x509.Name([x509.NameAttribute(x509.NameOID.COMMON_NAME, name)])
    now = dt.datetime.now(dt.UTC)
    signer, issuer = by or (key, called)
    made = (
        x509.CertificateBuilder()
        .subject_name(called)
        .issuer_name(issuer)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(now - dt.timedelta(hours=1))
        .not_valid_after(now + dt.timedelta(hours=1))
        .add_extension(x509.BasicConstraints(ca=by is None, path_length=None), critical=True)
        .add_extension(x509.SubjectAlternativeName([x509.IPAddress(ipaddress.ip_address("127.0.0.1"))]), critical=False)
        .sign(signer, hashes.SHA256())
    )
    plain = (serialization.PrivateFormat.PKCS8, serialization.NoEncryption())
    (folder / f"{name}.key").write_bytes(key.private_bytes(serialization.Encoding.PEM, *plain))
    (folder / f"{name}.pem").write_bytes(made.public_bytes(serialization.Encoding.PEM))
    return key, called


def files(folder, authority, name):
    return ClusterFiles(folder / f"{authority}.pem", folder / f"{name}.pem", folder / f"{name}.key")


@pytest.fixture(scope="module")
def closed(tmp_path_factory, register, machines_with):
    """A scheduler and a worker that speak to nobody without a certificate of their authority."""
    folder = tmp_path_factory.mktemp("closed")
    signed(folder, "machine", signed(folder, "authority"))
    signed(folder, "stranger", signed(folder, "elsewhere"))
    own = files(folder, "authority", "machine")
    where = ("--tls-ca-file", str(own.authority), "--tls-cert", str(own.certificate), "--tls-key", str(own.key))
    found = machines_with(folder, where)
    found.begin()
    yield found
    found.end()


def test_pieces_are_done_by_machines_that_know_each_other(closed, register):
    assert closed.address.startswith("tls://")
    with Cluster(closed.address, files(closed.folder, "authority", "machine"), seconds=60) as engine:
        found = dict(run_pieces("double", [Piece("a", b"1"), Piece("b", b"2")], engine=engine, register=register))
    assert found == {"a": b"11", "b": b"22"}


def test_whoever_has_no_certificate_of_the_authority_is_refused(closed):
    with pytest.raises(EngineLostError):
        Cluster(closed.address, files(closed.folder, "elsewhere", "stranger"), seconds=2)
    with pytest.raises(EngineLostError):
        Cluster(closed.address.replace("tls://", "tcp://"), seconds=2)
