"""The shape of `check --json`, which scripts rely on."""

from __future__ import annotations

import json

import jsonschema

from harness.cli.report_json import text
from tests.cli.reports import QUIET, STOPPED, UNREADABLE, HandProof

TEXT = {"type": "string"}
NUMBER = {"type": "integer", "minimum": 0}


def _object(**properties: object) -> dict[str, object]:
    return {
        "type": "object",
        "required": [*properties],
        "properties": properties,
        "additionalProperties": False,
    }


EDIT = _object(file=TEXT, line=NUMBER, column=NUMBER, old=TEXT, new=TEXT)
SHAPE = _object(
    verdict={"enum": ["stop", "mend", "consistent-not-verified", "released", "verified", "unreadable"]},
    preset=TEXT,
    counts=_object(charted=NUMBER, measured=NUMBER, toned=NUMBER, contradicted=NUMBER),
    unchecked={"type": "array", "items": _object(what=TEXT, why=TEXT)},
    findings={
        "type": "array",
        "items": _object(
            code={"type": "string", "pattern": "^[A-Z][0-9]{2}$"},
            severity={"enum": ["STOP", "FIX", "ASK", "NOTE"]},
            title=TEXT,
            places={
                "type": "array",
                "minItems": 1,
                "items": _object(file=TEXT, line=NUMBER, column=NUMBER, name=TEXT),
            },
            path={"type": "array", "items": TEXT},
            message=TEXT,
            do=TEXT,
            mend={"anyOf": [{"type": "null"}, {"type": "array", "items": EDIT}]},
            mend_words={"type": ["string", "null"]},
        ),
    },
)

NAMES = {"type": "array", "items": TEXT}
# where the job could be read
SHAPE["properties"]["open"] = _object(  # type: ignore[index]
    pairs=NAMES, drivers=NAMES, outputs=NAMES, after=NAMES, before=NAMES, contrary=NAMES
)  # fmt: skip


def test_shape() -> None:
    """Exactly the keys promised, for a report with everything, with nothing, and for an unreadable file."""
    for report in (STOPPED, QUIET, UNREADABLE):
        jsonschema.validate(json.loads(text(HandProof(report))), SHAPE)


def test_values() -> None:
    """Worst first, places as numbers, the edit in full."""
    whole = json.loads(text(HandProof(STOPPED)))

    assert whole["verdict"] == "stop"
    assert whole["counts"] == {"charted": 3, "measured": 1, "toned": 4, "contradicted": 0}
    assert whole["unchecked"] == [{"what": "supply", "why": "no runs are given"}]
    assert [found["code"] for found in whole["findings"]] == ["C01", "B02"]
    assert whole["findings"][0]["places"][0] == {
        "file": "elm.yaml",
        "line": 4,
        "column": 16,
        "name": "dsp.out1+",
    }
    assert whole["findings"][0]["path"] == ["radio.FL+", "dash.1", "dsp.out1+"]
    assert whole["findings"][0]["mend"] == [
        {
            "file": "elm.yaml",
            "line": 4,
            "column": 5,
            "old": "T1.car.FL: dsp.out1",
            "new": "T1.unit.FL: dsp.in1",
        }
    ]
    assert whole["findings"][1]["mend"] is None


def test_plain_signs_only() -> None:
    """A console with any code page passes it on unharmed."""
    whole = text(HandProof(STOPPED))

    assert whole.isascii()
    assert "Ω" in json.loads(whole)["findings"][0]["message"]


def test_need() -> None:
    """What was demanded stands in the answer, and only then."""
    assert "need" not in json.loads(text(HandProof(QUIET)))
    assert json.loads(text(HandProof(QUIET), "toned", "four are not"))["need"] == {
        "asked": "toned",
        "met": False,
        "why": "four are not",
    }
    assert json.loads(text(HandProof(QUIET), "toned"))["need"] == {"asked": "toned", "met": True, "why": None}
