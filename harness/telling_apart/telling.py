"""How a search stands and how it ends, in lines."""

from __future__ import annotations

from collections.abc import Sequence

from harness.telling_apart import phrases
from harness.telling_apart.phrases import Names
from harness.telling_apart.session import Session, Table
from harness.telling_apart.tests import CAVITY, Facts

_SHOWN = 12


class Told:
    """The words of one session."""

    def __init__(self, session: Session) -> None:
        self.session = session
        self.names = Names(session.facts)

    def map_line(self, facts: Facts) -> str:
        """A map with its title and the years that it covers."""
        source = facts.map.plug.source
        covers = f"covers {source.covers}" if source and source.covers else "years not written"
        title = f"{facts.map.title}; " if facts.map.title else ""
        return f"{self.names.of(facts)} ({title}{covers})"

    def plan_lines(self, table: Table) -> list[str]:
        """The shortest set, and what it takes one after the other."""
        made = []
        cover = table.cover
        if cover is not None and cover.tests:
            names = ", ".join(phrases.short(table.tests[at]) for at in cover.tests)
            proved = "no set is shorter" if cover.proved else f"none takes less than {phrases.minutes(cover.least)}"
            made.append(f"Shortest set to tell them apart, in any order: {names} (about "
                        f"{phrases.minutes(cover.cost)}; {proved}).")  # fmt: skip
            left = table.left_together
            if left:
                made.append(f"It leaves together what no test tells apart for certain: {_some(self._pairs(left))}.")
        if cover is None:
            made.append("Too many maps for a shortest set; one after the other, the test that tells most comes first.")
        plan = table.plan
        if plan.mean is not None and plan.worst is not None and plan.test is not None:
            best = "no order is better" if plan.exact else f"no order takes less than {phrases.minutes(plan.least)}"
            made.append(f"One after the other: about {phrases.minutes(plan.mean)} on average, at most "
                        f"{phrases.minutes(plan.worst)} ({best}).")  # fmt: skip
        return made

    def _pairs(self, pairs: Sequence[tuple[Facts, Facts]]) -> list[str]:
        return [self.names.all(pair) for pair in pairs]

    def end_lines(self, table: Table) -> list[str]:
        """What is known where no test is left."""
        standing = table.maps
        if not standing:
            return self._none()
        if len(standing) == 1:
            return self._found(standing[0])
        made = [f"{len(standing)} maps fit, and no test that may be made tells them apart for certain:"]
        made += [f"  {self.map_line(each)}" for each in standing[:_SHOWN]]
        if len(standing) > _SHOWN:
            made.append(f"  and {len(standing) - _SHOWN} more")
        for group in table.alike():
            made.append(f"Alike in all that can be looked at, metered or toned: {self.names.all(group)}.")
            differ = phrases.differences(group)
            made += [f"  They differ in words only: {each}." for each in differ[:_SHOWN]]
            if not differ:
                made.append("  They say the same of every cavity: take either.")
        if len(standing) <= _SHOWN:
            made += [
                f"{phrases.short(test)[:1].upper()}{phrases.short(test)[1:]} would tell, and is not asked for: "
                f"{self.names.of(why)} has something there that no meter or tone may touch."
                for test, why in self.session.forbidden()
            ]
        if self.session.left_out:
            left_out = ", ".join(phrases.short(test) for test in self.session.left_out)
            made.append(f"Left out by you: {left_out}.")
        made += self._open(standing)
        return made

    def _open(self, standing: Sequence[Facts]) -> list[str]:
        """Maps that say nothing of a cavity that another one of them describes."""
        made = []
        cavities = list(dict.fromkeys(test.a for each in standing for test in each.tests() if test.kind == CAVITY))
        for each in standing[:_SHOWN]:
            silent = [cavity for cavity in cavities if cavity not in each.rows]
            if silent:
                made.append(f"Not written in {self.names.of(each)}: cavity {', '.join(silent[:_SHOWN])}.")
        return made

    def _found(self, only: Facts) -> list[str]:
        agree = [seen for seen in self.session.observed if not only.says(seen.test).silent]
        count = len(self.session.facts)
        if count == 1 and not agree:
            return [
                f"There is one map only: {self.map_line(only)}. Nothing that was observed speaks for it or against it.",
                "Look at the plug cavity by cavity and say what you see; one map alone isn't yet this plug's.",
            ]
        left = "the only map there is" if count == 1 else f"the only one left of {count}"
        made = [f"It is {self.map_line(only)}: {left}."]
        if not agree:
            made.append("Nothing that was observed is in it: that the others are out is all that speaks for it.")
        else:
            seen = len(self.session.observed)
            made.append(f"{len(agree)} of {seen} observations agree with it, none speaks against it.")
        made.append("A map is a hint until its pairs are toned on this car: take it into the job, then ringout tone.")
        return made

    def _none(self) -> list[str]:
        nearest = self.session.nearest()
        made = [f"None of the {len(nearest)} maps fits."] if len(nearest) != 1 else ["The one map doesn’t fit."]
        for each in nearest[:2]:
            against = self.session.against(each)
            if each is not nearest[0] and len(against) > len(self.session.against(nearest[0])):
                break
            made.append(f"Nearest: {self.map_line(each)}. It differs in:")
            made += [f"  {phrases.strike(seen, each)}" for seen in against]
        made.append(
            "Look at these once more, and from which side the numbers are read. If it stays so, this plug has no map "
            "here: read its chart (ringout chart) or tone it cavity by cavity."
        )
        return made


def _some(words: Sequence[str]) -> str:
    more = f"; and {len(words) - 4} more" if len(words) > 4 else ""
    return "; ".join(words[:4]) + more
