"""The questions of the walk round the house: one list for the screens and for the form that is filled in by hand."""

from __future__ import annotations

from dataclasses import dataclass

from pavewright.job import WalkTopic


@dataclass(frozen=True, slots=True)
class WalkQuestion:
    """A question of the walk round the house.

    Attributes:
        key: Its name inside the program.
        topic: What it is about, as its answer says in the document; None where the question itself is kept there.
        words: The question.
        on_walk: Whether a step of the walk has it as its own question.
        on_site: Whether it is asked on the list of the site page too.
        usual: Answers that one touch gives.
    """

    key: str
    topic: WalkTopic | None
    words: str
    on_walk: bool = False
    on_site: bool = False
    usual: tuple[str, ...] = ()


def _step(topic: WalkTopic, words: str, *, on_site: bool = False) -> WalkQuestion:
    return WalkQuestion(topic.value, topic, words, on_walk=True, on_site=on_site)


WALK_QUESTIONS: tuple[WalkQuestion, ...] = (
    _step(WalkTopic.WALLS, "What stands along each side?"),
    _step(WalkTopic.TAPES, "How long is each side and each diagonal?"),
    _step(WalkTopic.CURVES, "How far does each curved side stand off its chord?"),
    _step(WalkTopic.DATUM, "From which point are heights counted?"),
    _step(WalkTopic.STAFF, "How high is the ground?"),
    _step(
        WalkTopic.DPC,
        "How high is the damp-proof course on every wall that the paving meets, and does it step?",
        on_site=True,
    ),
    _step(
        WalkTopic.DOORS,
        "Which doors open onto the paving, and is there a drain slot in a track or sill?",
        on_site=True,
    ),
    _step(WalkTopic.AIR_BRICKS, "Where are the air bricks?", on_site=True),
    _step(WalkTopic.GULLIES, "Which gullies and downpipes are there, and what do they serve?", on_site=True),
    WalkQuestion(
        "drain_run",
        None,
        "Which way does the drain run?",
        on_site=True,
        usual=("along the house", "out through the garden"),
    ),
    _step(WalkTopic.COVERS, "Which chamber covers are there, and can they be turned or raised?", on_site=True),
    WalkQuestion(
        "footings",
        None,
        "Are there footings under the walls and the fence?",
        on_site=True,
        usual=("footings seen, deeper than the dig", "footings in the way"),
    ),
    WalkQuestion(
        "next_door",
        None,
        "How high is the ground next door?",
        on_site=True,
        usual=("about level with ours", "higher than ours", "lower than ours"),
    ),
    _step(WalkTopic.TREES, "Which trees stand near, and are they protected?", on_site=True),
    _step(WalkTopic.SERVICES, "Which cables and pipes cross, above and below?", on_site=True),
    _step(WalkTopic.GROUND, "What did a trial hole show?", on_site=True),
    WalkQuestion(
        "standing_water",
        None,
        "Where does water stand after rain?",
        on_site=True,
        usual=("at the house", "in the middle", "at the far end"),
    ),
    _step(WalkTopic.ACCESS, "How narrow is the way in?", on_site=True),
    WalkQuestion("steps_in", None, "Are there steps on the way in?"),
    WalkQuestion("set_down", None, "Where can a skip or a lorry stand?", on_site=True),
    WalkQuestion(
        "level_way",
        None,
        "Who lives here that needs a level way: wheelchair, pram, bins?",
        on_site=True,
        usual=("bins only", "a pram", "a wheelchair"),
    ),
    _step(WalkTopic.PHOTOS, "Which photos were taken?"),
    _step(WalkTopic.PAVING, "Which slab, block or sett is laid, and how?"),
)
"""Every question, in the order in which one walks."""
