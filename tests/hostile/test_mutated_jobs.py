"""Examples that somebody spoilt are planned or refused with sentences; none falls over, none takes for ever."""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path

import pytest


def _beside(name):
    spec = importlib.util.spec_from_file_location(f"hostile_{name}", Path(__file__).with_name(f"{name}.py"))
    module = importlib.util.module_from_spec(spec)
    sys.modules[spec.name] = module
    spec.loader.exec_module(module)
    return module


mutate, trials = _beside("mutate"), _beside("trials")
SOUND = mutate.examples()
MAX_PLANS = 12
"""Plans of each lot at most; what is refused costs next to nothing, a plan half a second."""


def test_a_seed_gives_the_same_job_again():
    assert [mutate.mutated(SOUND, seed).text for seed in range(30)] == [
        mutate.mutated(mutate.examples(), seed).text for seed in range(30)
    ]


@pytest.mark.parametrize("lot", range(4))
def test_a_spoilt_job_is_planned_or_refused_in_words(lot):
    plans = refusals = 0
    for seed in range(lot * 1000, lot * 1000 + 120):
        job = mutate.mutated(SOUND, seed)
        act = trials.job_planned if plans < MAX_PLANS else trials.job_read
        outcome = trials.tried(job.name, lambda job=job, act=act: act(job.text))
        assert not outcome.bad, f"{outcome.word}: {outcome.name}\n{outcome.reported}"
        plans += outcome.word == trials.TAKEN
        refusals += outcome.word == trials.REFUSED
    assert plans >= MAX_PLANS
    assert refusals >= 40


def test_what_screens_ask_of_spoilt_jobs_is_answered():
    for seed in range(7000, 7024):
        job = mutate.mutated(SOUND, seed)
        outcome = trials.tried(job.name, lambda job=job: trials.job_everywhere(job.text))
        assert not outcome.bad, f"{outcome.word}: {outcome.name}\n{outcome.reported}"
