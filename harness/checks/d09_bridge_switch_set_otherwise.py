"""D09."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.load_words import about_of, speakers_words, way_of
from harness.graph.set_otherwise import bridged_otherwise
from harness.graph.wiring import Wiring
from harness.model.contact import printed


@check(
    "D09",
    Severity.FIX,
    "Bridge switch set otherwise",
    source="the unit's own instructions",
    by_joints=False,
    needs="settings",
)
def bridge_switch_set_otherwise(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a speaker across a bridge whose switch is off or on for other outputs, and a speaker on one
    output alone that is set to bridge.

    Why it matters: across two outputs that are not set to bridge stands the difference of left and right, which is
    almost nothing of the bass; an output that is set to bridge plays the other one's signal, turned round.

    Example: a subwoofer across out1+ and out2−, with `set: {bridge: unused}`.

    What to do: set the switch as the speakers are joined.

    Known limits: looks only where `bridge` is written under `set:`. Amplifiers that bridge without a switch leave it
    out.

    Source: the unit's own instructions.
    """
    for each in bridged_otherwise(wiring):
        unit = each.load.driver.port.unit
        now = "off" if not each.setting.output else f"on for {each.setting.output.replace('/', ' and ')}"
        name = speakers_words(each.load) or printed(", ".join(each.load.unknown))
        if each.load.bridged:
            outputs = each.outputs.replace("/", " and ")
            message = (
                f"{name} is bridged over {unit} {outputs}, and the bridge switch is {now}: hardly any bass, or none."
            )
            do = f"Set the bridge switch of {unit} on for {outputs}."
        else:
            message = f"{name} is on {unit} {each.outputs} alone, and the bridge switch is {now}: not its own signal."
            do = f"Set the bridge switch of {unit} off for {each.outputs}."
        yield Fault(
            at=Spot(each.setting.place, f"{unit} bridge"),
            message=message,
            do=do,
            about=about_of(wiring, each.load),
            path=way_of(wiring, each.load),
        )
