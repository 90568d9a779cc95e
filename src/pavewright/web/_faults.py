"""What nobody expected: answered with one sentence and the name of the request, and written down, never shown."""

from __future__ import annotations

from typing import TYPE_CHECKING

from starlette.responses import JSONResponse

from pavewright.web._long_tasks import FAULT, LOG

if TYPE_CHECKING:
    from starlette.types import ASGIApp, Message, Receive, Scope, Send


class Faults:
    """Answers for a route that fails, as every other answer is sent: with its name, and heads that guard the page."""

    def __init__(self, app: ASGIApp) -> None:
        """Keep the application behind it."""
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Have a request answered, or say that the program failed."""
        begun = False

        async def put(message: Message) -> None:
            nonlocal begun
            begun = begun or message["type"] == "http.response.start"
            await send(message)

        try:
            await self._app(scope, receive, put)
        except Exception:
            if scope["type"] != "http" or begun:
                raise
            LOG.exception("a route failed")
            await JSONResponse({"message": FAULT}, 500, headers={"Cache-Control": "no-store"})(scope, receive, send)
