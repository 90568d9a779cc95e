"""Passkeys: the questions that are out, and what a device answers to them; the proof itself is the library's."""

from __future__ import annotations

import ipaddress
import json
import secrets
import time
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from webauthn import (
    base64url_to_bytes,
    generate_authentication_options,
    generate_registration_options,
    options_to_json,
    verify_authentication_response,
    verify_registration_response,
)
from webauthn.helpers import parse_authentication_credential_json, parse_registration_credential_json
from webauthn.helpers.exceptions import WebAuthnException
from webauthn.helpers.structs import (
    AuthenticatorSelectionCriteria,
    PublicKeyCredentialDescriptor,
    ResidentKeyRequirement,
    UserVerificationRequirement,
)

from pavewright.web._answers import AskedWrongError

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from starlette.requests import Request

    from pavewright.store import Passkey

_HOLDS_S = 300.0
_OUT_MAX = 2_000
_WRONG = "This passkey was not taken. Try again, or use another way."


@dataclass(frozen=True, slots=True)
class MadePasskey:
    """A passkey that a device made.

    Attributes:
        credential: Its name, as the device gave it.
        public_key: Its public key.
        count: How often it was used, as the device counts.
    """

    credential: bytes
    public_key: bytes
    count: int


class Passkeys:
    """The questions that are out; each is answered once, by whom it was put to."""

    def __init__(self, clock: Callable[[], float] = time.monotonic) -> None:
        """Keep the clock; none is out."""
        self._clock = clock
        self._out: dict[bytes, tuple[float, str]] = {}

    def to_make(self, request: Request, subject: str, person: tuple[str, str], known: Iterable[Passkey]) -> Any:  # noqa: ANN401 - JSON
        """Return what a device is asked so that it makes a passkey.

        Args:
            request: The request: its host is whom the passkey is for.
            subject: For whom the answer counts.
            person: Sign-in and name, as the device shows them.
            known: Passkeys that the person has.
        """
        host = _host_of(request)
        asked = generate_registration_options(
            rp_id=host,
            rp_name="pavewright",
            user_name=person[0],
            user_display_name=person[1],
            user_id=secrets.token_bytes(32),
            challenge=self._new(subject),
            exclude_credentials=[PublicKeyCredentialDescriptor(id=each.credential) for each in known],
            authenticator_selection=AuthenticatorSelectionCriteria(
                resident_key=ResidentKeyRequirement.REQUIRED, user_verification=UserVerificationRequirement.REQUIRED
            ),
        )
        return json.loads(options_to_json(asked))

    def made(self, request: Request, subject: str, answered: object) -> MadePasskey:
        """Return the passkey that a device made.

        Raises:
            AskedWrongError: it proves nothing.
        """
        try:
            credential = parse_registration_credential_json(json.dumps(answered))
            found = verify_registration_response(
                credential=credential,
                expected_challenge=self._used(subject, credential.response.client_data_json),
                expected_rp_id=_host_of(request),
                expected_origin=_origin_of(request),
                require_user_verification=True,
            )
        except (WebAuthnException, ValueError, KeyError, TypeError) as problem:
            raise AskedWrongError(422, _WRONG) from problem
        return MadePasskey(found.credential_id, found.credential_public_key, found.sign_count)

    def to_sign_in(self, request: Request) -> Any:  # noqa: ANN401 - JSON
        """Return what a device is asked so that it proves who uses it; it chooses the passkey."""
        asked = generate_authentication_options(
            rp_id=_host_of(request),
            challenge=self._new(""),
            user_verification=UserVerificationRequirement.REQUIRED,
        )
        return json.loads(options_to_json(asked))

    def proved(
        self, request: Request, answered: object, find: Callable[[bytes], Passkey | None]
    ) -> tuple[Passkey, int]:
        """Return the passkey by which somebody proved himself, and how often it was used as its device counts.

        Raises:
            AskedWrongError: it proves nothing.
        """
        try:
            credential = parse_authentication_credential_json(json.dumps(answered))
            challenge = self._used("", credential.response.client_data_json)
            kept = find(credential.raw_id)
            if kept is None:
                raise AskedWrongError(422, _WRONG)
            found = verify_authentication_response(
                credential=credential,
                expected_challenge=challenge,
                expected_rp_id=_host_of(request),
                expected_origin=_origin_of(request),
                credential_public_key=kept.public_key,
                credential_current_sign_count=kept.count,
                require_user_verification=True,
            )
        except (WebAuthnException, ValueError, KeyError, TypeError) as problem:
            raise AskedWrongError(422, _WRONG) from problem
        return kept, found.new_sign_count

    def _new(self, subject: str) -> bytes:
        now = self._clock()
        self._out = {challenge: out for challenge, out in self._out.items() if out[0] > now}
        while len(self._out) >= _OUT_MAX:
            del self._out[next(iter(self._out))]
        challenge = secrets.token_bytes(32)
        self._out[challenge] = (now + _HOLDS_S, subject)
        return challenge

    def _used(self, subject: str, client_data: bytes) -> bytes:
        """Return the question that an answer names, which is out no more."""
        challenge = base64url_to_bytes(str(json.loads(client_data)["challenge"]))
        until, asked = self._out.pop(challenge, (0.0, ""))
        if until <= self._clock() or asked != subject:
            raise ValueError(_WRONG)
        return challenge


def _host_of(request: Request) -> str:
    """Return the name of this server as a passkey keeps it.

    Raises:
        AskedWrongError: it is called by a number.
    """
    host = request.url.hostname or ""
    try:
        ipaddress.ip_address(host)
    except ValueError:
        return host
    words = "A passkey needs a name: open this machine as localhost, or by its name, and not by a number."
    raise AskedWrongError(409, words)


def _origin_of(request: Request) -> str:
    return f"{request.url.scheme}://{request.url.netloc}"
