"""What may be written of a car before it comes: a scope."""

from __future__ import annotations

from harness.read import patterns as p
from harness.read.fields import Fields, Listing, Word
from harness.read.spec import JOB, VERSION
from harness.read.spec_words import NOTE, TEXT, some

ABSENT = ("noise cancelling", "emergency call", "factory amplifier")
_CHANNEL = Word("a channel", p.FUNCTION, "FL", kind="function")
_WHERE = Word("a place", example="boot floor", most=200)
SCOPE = Fields(
    "a scope",
    {
        "ringout": VERSION,
        "title": TEXT,
        "date": JOB.keys["date"],
        "shop": JOB.keys["shop"],
        "car": JOB.keys["car"],
        "features": JOB.keys["features"],
        "without": Listing(
            "a list of what the car surely hasn't", Word("one of these", words=ABSENT), example="[emergency call]"
        ),
        "wishes": Fields(
            "a table of wishes",
            {
                "amplify": some("channels", _CHANNEL, "FL FR"),
                "replace": some("channels", _CHANNEL, "FL FR"),
                "add": some("channels", _CHANNEL, "SUB"),
                "units": Fields(
                    "a table of units and places", rows=((TEXT, _WHERE),), example="{four-channel amplifier: boot}"
                ),
                "note": NOTE,
            },
            least=1,
            example="{amplify: FL FR RL RR, add: SUB}",
        ),
        "note": NOTE,
    },
    required=("ringout", "wishes"),
    example="ringout: 1",
)
