"""A chart that the tones speak against, at the car: told once, put right on a yes, and else left in the menu."""

from __future__ import annotations

from collections.abc import Sequence

from harness.cli.keys import Keys
from harness.cli.screen import harmless, say
from harness.cli.tone_plan import STOP, Stopped, shared_with, sharing
from harness.finding import Finding
from harness.graph.misread import CODES, NO_PATTERN, PLUS_ALONE, UNDECIDED
from harness.graph.wiring import Wiring

_SHOWN = 12
_TOLD = frozenset((*CODES.values(), NO_PATTERN, UNDECIDED))
_LATER, _YES = "1", "2"

Key = tuple[str, ...]


class Charts:
    """What was told of the charts in this session, so that nothing is told or asked twice."""

    def __init__(self, job: str, hand: Keys) -> None:
        self.job, self.hand = job, hand
        self._told: set[Key] = set()

    def known_already(self, findings: list[Finding]) -> None:
        """What a session begins with stands in its menu, and isn't asked of itself."""
        self._told |= {_key(each) for each in findings}

    def news(self, findings: list[Finding]) -> list[Finding]:
        """Those that were not told yet; they are from now on."""
        new = [each for each in findings if _key(each) not in self._told]
        self.known_already(new)
        return new

    def tell(self, finding: Finding) -> bool:
        """Say what is wrong; where it can be put right, show the edits and ask. Whether files were changed.

        Raises Stopped.
        """
        from harness.mend.chart import apply
        from harness.mend.page import CannotEdit

        say(f"   !! {finding.code} {harmless(finding.title)}: {harmless(finding.message)}")
        if finding.mend is None:
            say(f"      {harmless(finding.do)}")
            return False
        say(f"      {harmless(finding.mend.words)}")
        edits = finding.mend.edits
        for edit in edits[:_SHOWN]:
            was = edit.old.strip() or "no line"
            now = edit.new.strip() or "no line"
            say(f"        {harmless(edit.place.file)}:{edit.place.line}: {harmless(was)}  becomes  {harmless(now)}")
        if len(edits) > _SHOWN:
            say(f"        and {len(edits) - _SHOWN} more lines")
        files = list(dict.fromkeys(edit.place.file for edit in edits))
        for line in sharing(self.job, files):
            say(f"      !! {harmless(line)}")
        say("      Put the chart right in the file?")
        say(f"        {_LATER}  no: it stays in the list of what there is to do\n        {_YES}  yes, change the file")
        pressed = self.hand.key()
        while pressed not in (_LATER, _YES):
            if pressed == STOP:
                raise Stopped
            say(f"        {_LATER}, {_YES} or {STOP}")
            pressed = self.hand.key()
        if pressed == _LATER:
            return False
        try:
            changed = apply(edits)
        except (CannotEdit, OSError) as wrong:
            say(f"      Not changed: {wrong}")
            return False
        say(f"      Changed: {', '.join(map(harmless, changed))}.")
        for line in shared_with(self.job, changed):
            say(f"      {harmless(line)}")
        return True


def of_charts(wiring: Wiring, findings: Sequence[Finding]) -> list[Finding]:
    """What is said of charts, those that can be put right with the edits for it."""
    told = [each for each in findings if each.code in _TOLD]
    if not told:
        return []
    from harness.mend.chart import with_corrected_charts

    made = with_corrected_charts(wiring, told)
    asked = CODES[PLUS_ALONE]  # without an edit, what is turned is asked for as work of its own
    return [each for each in made if each.mend is not None or each.code != asked]


def _key(finding: Finding) -> Key:
    """A chart put right the same way is the same offer, whatever tones came to it since."""
    if finding.mend is not None:
        edits = (f"{each.place.file}:{each.place.line}:{each.new}" for each in finding.mend.edits)
        return (finding.code, finding.places[0].name, *edits)
    return (finding.code, finding.places[0].name, finding.message)
