"""Passkeys, by a device that is made here: a true proof is taken once, a forged one never."""

from __future__ import annotations

import hashlib
import json
import secrets
from types import SimpleNamespace

import cbor2
import pytest
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import ec
from starlette.requests import Request
from webauthn.helpers import bytes_to_base64url

from pavewright.web._answers import AskedWrongError
from pavewright.web.sign_in._passkeys import Passkeys

REQUEST = Request(
    {
        "type": "http",
        "method": "POST",
        "scheme": "https",
        "path": "/",
        "query_string": b"",
        "server": ("office.example", 443),
        "headers": [(b"host", b"office.example")],
    }
)
PRESENT_AND_VERIFIED = 0x05


class Device:
    """A device with one passkey."""

    def __init__(self):
        self.key, self.credential, self.count = ec.generate_private_key(ec.SECP256R1()), secrets.token_bytes(16), 0

    def kept(self):
        numbers = self.key.public_key().public_numbers()
        cose = {1: 2, 3: -7, -1: 1, -2: numbers.x.to_bytes(32, "big"), -3: numbers.y.to_bytes(32, "big")}
        return SimpleNamespace(credential=self.credential, public_key=cbor2.dumps(cose), count=self.count)

    def answer(self, asked, *, key=None, origin="https://office.example", flags=PRESENT_AND_VERIFIED):
        head = hashlib.sha256(b"office.example").digest() + bytes([flags]) + (self.count + 1).to_bytes(4, "big")
        told = {"type": "webauthn.get", "challenge": asked["challenge"], "origin": origin}
        client = json.dumps(told).encode()
        signed = (key or self.key).sign(head + hashlib.sha256(client).digest(), ec.ECDSA(hashes.SHA256()))
        return {
            "id": bytes_to_base64url(self.credential),
            "rawId": bytes_to_base64url(self.credential),
            "type": "public-key",
            "clientExtensionResults": {},
            "response": {
                "clientDataJSON": bytes_to_base64url(client),
                "authenticatorData": bytes_to_base64url(head),
                "signature": bytes_to_base64url(signed),
            },
        }


def proved(passkeys, device, answered):
    return passkeys.proved(REQUEST, answered, lambda _credential: device.kept())


def test_a_forged_proof_is_refused_and_a_true_one_is_taken():
    passkeys, device = Passkeys(), Device()
    kept, count = proved(passkeys, device, device.answer(passkeys.to_sign_in(REQUEST)))
    assert (kept.credential, count) == (device.credential, 1)
    forged = (
        {"key": ec.generate_private_key(ec.SECP256R1())},
        {"origin": "https://elsewhere.example"},
        {"flags": 0x01},  # somebody touched it, and nobody knows who
    )
    for each in forged:
        with pytest.raises(AskedWrongError):
            proved(passkeys, device, device.answer(passkeys.to_sign_in(REQUEST), **each))


def test_a_question_is_answered_once_and_soon():
    now = [0.0]
    passkeys, device = Passkeys(lambda: now[0]), Device()
    asked = passkeys.to_sign_in(REQUEST)
    assert len(asked["challenge"]) == 43  # 256 bits
    answered = device.answer(asked)
    proved(passkeys, device, answered)
    with pytest.raises(AskedWrongError):
        proved(passkeys, device, answered)
    late = passkeys.to_sign_in(REQUEST)
    now[0] = 301.0
    with pytest.raises(AskedWrongError):
        proved(passkeys, device, device.answer(late))
    never_asked = {"challenge": bytes_to_base64url(secrets.token_bytes(32))}
    with pytest.raises(AskedWrongError):
        proved(passkeys, device, device.answer(never_asked))
