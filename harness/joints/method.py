"""What is known about one way of joining conductors."""

from __future__ import annotations

from dataclasses import dataclass

LEAVES, BARES, CUTS, PIERCES = "leaves whole", "bares", "cuts", "pierces"


@dataclass(frozen=True, slots=True)
class JointMethod:
    """One way of joining.

    `steps` stand in working order, each a line for the splice list. `parts_wire` says what is done to the
    wire that is joined: leaves whole, bares, cuts or pierces. `needs_cover`: live metal is left that must be
    insulated; `uses` are the loose parts of the drawer that one takes besides. `at_terminal`: it is made at a
    terminal of a unit or at a ground point, not wire to wire. `plugs_in`: a loom's end goes into a plug, and no
    single wire is joined by hand.
    """

    name: str
    words: str
    steps: tuple[str, ...]
    tools: tuple[str, ...]
    needs_cover: bool
    parts_wire: str
    source: str
    at_terminal: bool = False
    plugs_in: bool = False
    uses: tuple[str, ...] = ()

    @property
    def pierces(self) -> bool:
        """Whether insulation is cut through by a blade or a spike, and strands with it."""
        return self.parts_wire == PIERCES
