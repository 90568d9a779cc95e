"""Better ways to build a job: a search begun, how far it is, and what it has found so far.

``POST /api/better`` takes ``{"document", "aims", "plans", "go_on"}``: what matters, how many whole plans may be made,
and where a search was stopped its name, whose plans are then not made again. It answers ``{"long_task"}``.

``GET /api/better/{long_task}`` answers ``{"state", "told", "message", "so_far"}``; ``so_far`` holds what is found after
the last batch, also once it was stopped. Stopping and the whole answer go by ``/api/long-tasks/{long_task}``.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from starlette.routing import Route

from pavewright.desk import AskedNothingError, better_asked
from pavewright.web._answers import AskedWrongError, answer, document_in, name_in, sent, text_in
from pavewright.web._people import ASKER

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

    from pavewright.web._long_tasks import LongTasks

_VERB = "better"


async def _begin(request: Request) -> Response:
    long_tasks: LongTasks = request.app.state.long_tasks
    asked = await sent(request)
    wanted = {name: asked[name] for name in ("aims", "plans") if asked.get(name) is not None}
    try:
        better_asked(wanted)
    except AskedNothingError as refusal:
        raise AskedWrongError(400, str(refusal)) from refusal
    earlier = text_in(asked, "go_on", 64, default="")
    done = long_tasks.answers(name_in(earlier), ASKER.get().person) if earlier else {}
    head = json.dumps(wanted | {"done": done}, ensure_ascii=False)
    payload = head.encode() + b"\n" + document_in(asked).encode()
    return answer({"long_task": long_tasks.begin(_VERB, payload, ASKER.get().person)}, 202)


async def _so_far(request: Request) -> Response:
    long_tasks: LongTasks = request.app.state.long_tasks
    name = name_in(request.path_params["long_task"])
    return answer(long_tasks.reported(name) | {"so_far": long_tasks.so_far(name)})


ROUTES = (
    Route("/api/better", _begin, methods=["POST"]),
    Route("/api/better/{long_task}", _so_far, methods=["GET"]),
)
