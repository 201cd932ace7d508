"""What no meter and no tone may touch, by any of the maps that the plug could be."""

from __future__ import annotations

from collections.abc import Iterable

from harness.telling_apart.tests import BODY, LOOKS, PLUS, TONE, Facts, Test

# As `harness.locate.forbidden`: these plugs are left alone as a whole.
_NEVER = frozenset(("restraint", "high voltage", "optical", "digital"))
_CARRIES = frozenset(("srs", "hv", "optical", "digital"))
# What a meter in ohms may be laid on with the key out and the plug off its unit. Feeds, lights, turn-on and data are
# live or may wake; `unknown` is metered in volts first, as everything is.
_QUIET = frozenset(("audio", "ground", "empty", "unknown", "shield", "control", "mute", "mic", "aerial"))


class OffLimits:
    """Asked test by test. A map that was struck out still counts: what struck it may have been misread."""

    def __init__(self, maps: Iterable[Facts]) -> None:
        self._whole: Facts | None = None
        self._cavities: dict[str, Facts] = {}
        self._fed: Facts | None = None
        for each in maps:
            plug = each.map.plug
            if _CARRIES & {word.lower() for word in plug.carries} or any(
                row.function.kind in _NEVER for row in plug.rows
            ):
                self._whole = self._whole or each
            for row in plug.rows:
                if row.function.kind not in _QUIET:
                    self._cavities.setdefault(row.cavity.lower(), each)
            if not each.speakers and not each.amplified:
                self._fed = self._fed or each

    def why(self, test: Test) -> Facts | None:
        """The map that forbids a test; None where it may be made."""
        if test.kind in LOOKS:
            return None
        if self._whole is not None:
            return self._whole
        if test.kind in (TONE, PLUS) and self._fed is not None:
            return self._fed  # what is behind may be an output, and no tone is played into one
        return self._cavities.get(test.a) or (self._cavities.get(test.b) if test.kind != BODY else None)
