"""How a plug and its maps stand as JSON, for scripts. Add keys, never change one."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from harness.read.maps import Maps
    from harness.telling_apart.session import Session, Table
    from harness.telling_apart.tests import Facts, Test


def text(session: Session, maps: Maps) -> str:
    """The maps with what strikes each, the next test, the shortest set, or the end."""
    from harness.telling_apart import phrases
    from harness.telling_apart.telling import Told

    table = session.table()
    step = table.next
    whole: dict[str, Any] = {
        "maps": [_map(session, each) for each in session.facts],
        "left_out": list(maps.others),
        "observed": [phrases.as_argument_words(each) for each in session.observed],
        "standing": [session.facts.index(each) for each in table.maps],
        "next": None if step is None else {**_test(table, step.test), "sure": step.sure},
        "shortest": _cover(table),
        "plan": _plan(table),
        "alike": [[session.facts.index(each) for each in group] for group in table.alike()] if step is None else [],
        "nearest": [session.facts.index(each) for each in session.nearest()[:3]] if not table.maps else [],
        "end": Told(session).end_lines(table) if step is None else None,
    }
    # ASCII with escapes: the same bytes on every console, whatever its code page does to a pipe.
    return json.dumps(whole, indent=2)


def _map(session: Session, facts: Facts) -> dict[str, Any]:
    from harness.telling_apart import phrases

    against = session.against(facts)
    return {
        "file": facts.map.file,
        "plug": facts.map.plug.name,
        "line": facts.map.plug.place.line,
        "title": facts.map.title,
        "stands": not against,
        "struck_by": [
            {"observed": phrases.as_argument_words(seen), "words": phrases.strike(seen, facts)} for seen in against
        ],
    }


def _test(table: Table, test: Test) -> dict[str, Any]:
    from harness.telling_apart import phrases
    from harness.telling_apart.session import Observation, needs_parting

    return {
        "kind": test.kind,
        "cavities": [each for each in (test.a, test.b) if each],
        "ask": phrases.ask(test, table.maps),
        "seconds": test.seconds,
        "unplugged": needs_parting(test),
        "caution": phrases.caution(test),
        "answers": [
            {
                "fact": phrases.as_argument_words(Observation(test, answer)),
                "words": phrases.answer_words(test, answer, table.maps),
                "left": left,
            }
            for answer, left in table.left(test).items()
        ],
    }


def _cover(table: Table) -> dict[str, Any] | None:
    from harness.telling_apart import phrases

    cover = table.cover
    if cover is None:
        return None
    tests = [table.tests[at] for at in cover.tests]
    return {
        "tests": [phrases.short(test) for test in tests],
        "seconds": cover.cost,
        "least_seconds": cover.least,
        "proved": cover.proved,
    }


def _plan(table: Table) -> dict[str, Any]:
    plan = table.plan
    return {
        "mean_seconds": None if plan.mean is None else round(plan.mean, 3),
        "worst_seconds": None if plan.worst is None else round(plan.worst, 3),
        "least_mean_seconds": round(plan.least, 3),
        "exact": plan.exact,
    }
