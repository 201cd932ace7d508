"""What stands under the first route picture: what its signs mean, and only those that are drawn."""

from __future__ import annotations

from collections.abc import Iterable

from render.blocks import Picture


def legend(pictures: Iterable[Picture]) -> str:
    """One paragraph for all route pictures of a sheet; a sign that none of them has is not explained."""
    drawn = list(pictures)
    nodes = [node for picture in drawn for node in picture.nodes]
    edges = [edge for picture in drawn for edge in picture.edges]
    joints = [node for node in nodes if node.symbol == "splice"]
    plugs = [node for node in nodes if node.name.startswith("plug ")]
    boxes = ["a unit"]
    if plugs:
        boxes.append(
            "a plug with the loom in it" if any("loom" in " ".join(node.lines) for node in plugs) else "a plug"
        )
    boxes += ["a joint"] if joints else []
    said = [f"A box is {', '.join(boxes)} or a speaker. Signals go from left to right."]
    if joints:
        said.append("A dot in a box: a joint, named as on the splice list.")
    if any(node.title.endswith(("+", "−")) for node in joints):
        said.append("+ or − behind its name: a joint of that wire alone.")
    if plugs:
        said.append("Numbers of a plug are + first, then −.")
    # the picture of the whole has no wires, so its bare lines say nothing of colours
    wires = [edge for picture in drawn[1:] for edge in picture.edges]
    if any(edge.swatches for edge in wires):
        said.append("On a line: the colours of its wires, + first.")
    if any(not edge.swatches and not edge.words for edge in wires):
        said.append("No words on it: the colours are not recorded, or it is no wire.")
    if any("Hz" in edge.words for edge in edges):
        said.append("Hz on a line: the band that goes that way.")
    if any(edge.twisted for edge in edges):
        said.append("Two lines that wind round each other: a twisted pair, by the plug's row.")
    turned = [edge.words for edge in edges if "REVERSED" in edge.words]
    if turned:
        said.append("REVERSED: + and − change places on that leg, as planned.")
        if any("REVERSED" in edge.words and edge.swatches for edge in wires):
            said.append("Its colours are those before the turn: the + colour ends on the speaker's −.")
    if any(line.startswith("load ") for node in nodes for line in node.lines):
        said.append("Load: the ohms that the output sees, by nominal.")
    wishes = [wish for wish in ("on purpose", "factory") if any(wish in words for words in turned)]
    if wishes:
        said.append(f"{' or '.join(f'“{wish}”' for wish in wishes)}: the job wishes it so.")
    if any("INVERTED" in words for words in [*(edge.words for edge in edges), *(" ".join(n.lines) for n in nodes)]):
        said.append("INVERTED: the unit turns the signal round inside.")
    return " ".join(said)
