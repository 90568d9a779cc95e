"""Web: the same desk, in a browser.

One process answers the pages and keeps the jobs; everything that is worked out is worked out by workers beside it,
which can be stopped. Pages are plain modules of the browser, without a build.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.web._addresses import HostName, host_name_in
    from pavewright.web._app import make_app
    from pavewright.web._customers import ForCustomers
    from pavewright.web._device_routes import OnNetwork
    from pavewright.web._pairing import Pairing
    from pavewright.web._serve import Certificate, CertificateError, PortTakenError, Reach, serve
    from pavewright.web._workers import Workers
else:
    __getattr__ = face(__name__)

__all__ = [
    "Certificate",
    "CertificateError",
    "ForCustomers",
    "HostName",
    "OnNetwork",
    "Pairing",
    "PortTakenError",
    "Reach",
    "Workers",
    "host_name_in",
    "make_app",
    "serve",
]
