"""A search for a fault as JSON, for scripts. Add keys, never change one."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from harness.basis import SEARCH, basis

if TYPE_CHECKING:
    from harness.locate.session import Session, Suspect
    from harness.locate.telling import Told
    from harness.locate.tests import Test
    from harness.model.evidence import Record


def text(session: Session, verdict: str) -> str:
    """The symptoms, the answers, the suspects left, and the next test or the end."""
    from harness.locate.telling import Told

    told = Told(session)
    test = session.next_test()
    sure = session.confirming() if test is None else None
    whole: dict[str, Any] = {
        "plan": verdict,
        "symptoms": [{"subject": each.subject, "symptom": each.word} for each in session.symptoms],
        "double": session.double,
        "from_records": [
            {
                **_record(used.record),
                "says": used.says,
                "bad": used.bad,
                "left": used.fits.bit_count() if session.suspects else 0,
                "raises": used.raised.bit_count(),
            }
            for used in session.recorded.used
        ],
        "records_left_aside": [{**_record(aside.record), "why": aside.why} for aside in session.recorded.aside],
        "answers": [{**_test(told, each.test), "result": each.result} for each in session.answers],
        "suspects": [_suspect(session, told, each) for each in (session.ranked if session.suspects else [])],
        "basis": {
            "key": SEARCH,
            "says": basis(SEARCH).says,
            "source": basis(SEARCH).source,
            "kind": basis(SEARCH).kind,
        },
        "next": None if test is None else _asked(session, told, test, sure=False),
        "to_be_sure": None if sure is None else _asked(session, told, sure, sure=True),
        "borne_out": session.borne_out,
        "end": told.end_lines() if test is None else None,
    }
    # ASCII with escapes: the same bytes on every console, whatever its code page does to a pipe.
    return json.dumps(whole, indent=2)


def _record(record: Record) -> dict[str, Any]:
    return {
        "record": record.named, "when": record.when, "by": record.by, "file": record.place.file,
        "line": record.place.line,
    }  # fmt: skip


def _suspect(session: Session, told: Told, suspect: Suspect) -> dict[str, Any]:
    from harness.locate.telling import suspect_words

    pieces = session.circuit.pieces
    return {
        "share": round(suspect.share, 4),
        "words": suspect_words(session, suspect.faults),
        "faults": [
            {
                "wrong": fault.mode,
                "pieces": [
                    {"kind": pieces[number].kind, "name": pieces[number].name, "where": pieces[number].where}
                    for number in (fault.piece, fault.other)
                    if number >= 0
                ],
                "do": told.remedy(fault),
            }
            for fault in suspect.faults
        ],
    }


def _test(told: Told, test: Test) -> dict[str, Any]:
    return {
        "kind": test.kind,
        "contacts": [
            name.partition("~")[0] if name.endswith("~pin") else name for name in (test.plus, test.minus) if name
        ],
        "where": test.where,
        "do": told.do(test),
    }


def _asked(session: Session, told: Told, test: Test, sure: bool) -> dict[str, Any]:
    """A test that is asked for, with the answers it may have; `bears_out` is said where it is made to be `sure`."""
    from harness.locate.tests import keyed

    ranked = len(session.ranked)
    masks = session.results(test)
    bears_out = session.confirmations(test) if sure else {}
    keys = keyed(test.kind, bears_out or masks)
    return {
        **_test(told, test),
        "minutes": test.minutes + test.reach_min,
        "caution": told.caution(test),
        "answers": [
            {
                "result": result,
                "key": key,
                "means": told.means(test, result),
                "left": len(session.suspects_in(masks.get(result, 0))),
                "of": ranked,
                "bears_out": bears_out.get(result),
            }
            for result, key in keys.items()
        ],
    }
