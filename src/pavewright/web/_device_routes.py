"""Devices: which may reach the jobs over the network, a code that pairs one more, and withdrawing one."""

from __future__ import annotations

import asyncio
from dataclasses import asdict, dataclass
from typing import TYPE_CHECKING

import segno
from starlette.routing import Route

from pavewright.web._addresses import HostName, own_addresses
from pavewright.web._answers import AskedWrongError, answer, name_in
from pavewright.web._door import DEVICE
from pavewright.web._pairing import VALID_S, Pairing, spoken
from pavewright.web._signed_in import store_of
from pavewright.web._who_asks import SIGNED_IN, firm_at_hand

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response


@dataclass(frozen=True, slots=True)
class OnNetwork:
    """How this server is reached from other devices.

    Attributes:
        port: Where it listens.
        secure: Whether its connections are secure: only then a phone keeps the pages for places without signal.
        pairing: The pairing words that are out.
        names: Names by which others call this server; where there are any, they lead to it and not its numbers.
    """

    port: int
    secure: bool
    pairing: Pairing
    names: tuple[HostName, ...] = ()

    def addresses(self) -> tuple[str, ...]:
        """Return where the pages are for other devices."""
        scheme = "https" if self.secure else "http"
        if self.names:
            return tuple(each.address(scheme, self.port) for each in self.names)
        return tuple(f"{scheme}://{address}:{self.port}" for address in own_addresses())


async def _listed(request: Request) -> Response:
    store = store_of(request)
    network: OnNetwork | None = request.app.state.on_network
    devices = await asyncio.to_thread(store.devices.all)
    return answer(
        {
            "on_network": network is not None,
            "secure": network is not None and network.secure,
            "here": DEVICE.get() is None or SIGNED_IN.get() is not None,
            "addresses": list(network.addresses()) if network is not None else [],
            "devices": [asdict(one) for one in devices],
        }
    )


async def _new_word(request: Request) -> Response:
    """Answer with a fresh pairing word and its code, one for every address of this machine."""
    _only_here()
    network: OnNetwork | None = request.app.state.on_network
    if network is None:
        raise AskedWrongError(409, "Other devices cannot reach this server: start it with serve --on-network.")
    word = network.pairing.new(firm_at_hand() or "")
    ways = [
        {"address": f"{address}/pair/{word}", "code": code_of(f"{address}/pair/{word}")}
        for address in network.addresses()
    ]
    return answer({"word": spoken(word), "valid_s": VALID_S, "ways": ways}, 201)


def code_of(address: str) -> str:
    """Return the QR code of an address as a picture that a page can show, black on white."""
    return segno.make(address, micro=False).svg_data_uri(scale=8, border=4, light="#fff", dark="#000")


async def _withdraw(request: Request) -> Response:
    _only_here()
    store = store_of(request)
    gone = await asyncio.to_thread(store.devices.withdraw, name_in(request.path_params["device"]))
    if not gone:
        raise AskedWrongError(404, "There is no such device.")
    return answer({"withdrawn": True})


def _only_here() -> None:
    """Refuse a paired device: who may come in is decided on this machine."""
    if DEVICE.get() is not None and SIGNED_IN.get() is None:
        raise AskedWrongError(403, "Devices are paired and withdrawn on the machine where pavewright runs.")


ROUTES = (
    Route("/api/devices", _listed, methods=["GET"]),
    Route("/api/devices/pairing", _new_word, methods=["POST"]),
    Route("/api/devices/{device}", _withdraw, methods=["DELETE"]),
)
