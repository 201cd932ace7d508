"""Every question of the graph asked of many jobs twice, the second time with all parts written in the other order.

Which unit, plug, speaker, joint or run is written first is no fact of a car: what stands in a job twice is found twice,
whatever stands before it. So a question that stops at the first thing it may pass over is found out. No outside source.
"""

from __future__ import annotations

import importlib
import inspect
import pkgutil
import re
import shutil
from collections.abc import Callable, Collection, Iterable, Mapping, Sized
from pathlib import Path
from types import GeneratorType

import pytest
import yaml

import harness.graph
from harness.graph.conductor import Conductor
from harness.graph.wiring import Wiring
from harness.place import Place
from harness.read.job import read_job, read_job_text
from harness.read.troubles import Troubles
from tests.checks.marks import by_number, evidence_of, fixtures, named
from tests.graph.random_jobs import random_job
from tests.graph.random_supply import RandomSupply

JOBS, BATCH, PARTS = 60, 30, 12
# These name the first of several that are alike, or nets by their numbers: of them only how many there are.
BY_ORDER = {
    "live.grounded_nets", "meeting.grounded_nets", "waking.passers", "woken.dead_ends", "splits.splits",
    "side_by_side.side_by_side", "bus.bus_troubles", "data_joints.data_joints", "silent.silent_speakers",
    "control_feed.taps", "first_fuse.bare_ways", "unread.unread_words",
}  # fmt: skip
# In a random mesh several ways are as short; of fixtures all of it is asked.
MESHED = ("cable.stretches", "first_fuse.bare_ways", "relays.unfused_contacts", "silent.silent_speakers")
Ask = Callable[[Wiring], object]


def questions() -> dict[str, Ask]:
    """Every public function of the graph that is asked of a wiring alone."""
    made: dict[str, Ask] = {}
    for module in pkgutil.iter_modules(harness.graph.__path__, "harness.graph."):
        for name, each in vars(importlib.import_module(module.name)).items():
            own = getattr(each, "__module__", "") == module.name and inspect.isroutine(each)
            if own and not name.startswith("_") and [*inspect.signature(each).parameters] == ["wiring"]:
                made[f"{module.name.rpartition('.')[2]}.{name}"] = each
    return made


QUESTIONS = questions()


def turned(text: str) -> str:
    """The same job, every section's parts in the other order, and the pieces of each."""
    job = yaml.load(text, Loader=yaml.BaseLoader)
    for heading in ("plugs", "units", "speakers", "grounds", "inline", "joints", "looms"):
        if isinstance(job.get(heading), dict):
            job[heading] = dict(reversed(job[heading].items()))
    for heading in ("found", "runs", "cut", "capped", "depinned", "removed"):
        if isinstance(job.get(heading), list):
            job[heading].reverse()
    for method, rows in (job.get("joints") or {}).items():
        job["joints"][method] = dict(reversed(rows.items()))
    for plug in (job.get("plugs") or {}).values():
        plug["cavities"] = dict(reversed(plug["cavities"].items()))
    return yaml.dump(job, sort_keys=False, width=10_000)


def wiring_of(text: str) -> Wiring:
    troubles = Troubles()
    job = read_job_text(text, "job.yaml", troubles)
    assert job is not None, troubles.findings
    return Wiring(job)


# points within runs, runs and joints: they are called by their order
NUMBERED = re.compile(r"(?<=~)[0-9]+|(?<=\bJ)[0-9]+|(?<=\bRUN )[0-9]+")


def plain(answer: object) -> object:
    """An answer without places, the names of joints and the order of what is told."""
    if isinstance(answer, Place | Conductor):
        return ""
    if isinstance(answer, tuple) and hasattr(answer, "_fields"):
        fields = [each for each in answer if isinstance(each, str | int | float | bool | None)]
        return (type(answer).__name__, *(plain(each) for each in fields))
    if isinstance(answer, Mapping):
        return tuple(sorted((repr(plain(key)), repr(plain(value))) for key, value in answer.items()))
    if isinstance(answer, Iterable) and not isinstance(answer, str):
        return tuple(sorted(repr(plain(each)) for each in answer))
    if isinstance(answer, str):
        return NUMBERED.sub("", answer)
    return repr(answer) if isinstance(answer, int | float | bool | None) else type(answer).__name__


def told(name: str, wiring: Wiring) -> object:
    answer = QUESTIONS[name](wiring)
    answer = list(answer) if isinstance(answer, GeneratorType) else answer
    return len(answer) if name in BY_ORDER and isinstance(answer, Sized) else plain(answer)


def assert_same(text: str, left_out: Collection[str] = ()) -> None:
    assert_alike(wiring_of(text), wiring_of(turned(text)), left_out, text)


def assert_alike(one: Wiring, other: Wiring, left_out: Collection[str], where: object) -> None:
    for name in QUESTIONS:
        if name not in left_out:
            assert told(name, one) == told(name, other), f"{name}\n{where}"


@pytest.mark.parametrize("kind", ["supplies", "turn-on", "whole jobs"])
@pytest.mark.parametrize("start", range(0, JOBS, BATCH))
def test_the_order_of_a_random_job_is_no_fact(start: int, kind: str) -> None:
    for seed in range(start, start + BATCH):
        if kind == "whole jobs":
            assert_same(random_job(seed), MESHED)
        else:
            assert_same(RandomSupply(seed, turn_on=kind == "turn-on").text, MESHED)


@pytest.mark.parametrize("part", range(PARTS))
def test_the_order_of_a_fixture_is_no_fact(part: int) -> None:
    """Of a cavity that is written twice the first row counts, and a place is called as it was written first."""
    paths = [path for path in (*fixtures("bad"), *fixtures("good")) if not evidence_of(path).is_file()]
    for path in paths[part::PARTS]:
        if path.parent.name != "A05" and named(path) != "H05/bad_two_methods":
            assert_same(path.read_text(encoding="utf-8"))


def with_records(path: Path, text: str, folder: Path) -> Wiring:
    job, troubles = folder / path.name, Troubles()
    job.write_text(text, encoding="utf-8")
    shutil.copy(evidence_of(path), evidence_of(job))
    made = read_job(job, troubles)
    assert made is not None, troubles.findings
    return Wiring(made)


@pytest.mark.parametrize("part", range(PARTS))
def test_the_order_of_a_fixture_with_records_is_no_fact(part: int, tmp_path: Path) -> None:
    paths = [path for path in (*fixtures("bad"), *fixtures("good")) if evidence_of(path).is_file()]
    for path in paths[part::PARTS]:
        text = path.read_text(encoding="utf-8")
        if "rows: |" in text or by_number(path):
            continue  # a face that is drawn isn't written back as a drawing
        one, other = with_records(path, text, tmp_path), with_records(path, turned(text), tmp_path)
        assert_alike(one, other, (), path)
