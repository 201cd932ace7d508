"""The car as the records say that it was built, as a job of its own that any question can be asked about."""

from __future__ import annotations

from dataclasses import replace

from harness.graph.as_built import Built, as_built, targets, turned_joint
from harness.graph.kept import kept
from harness.graph.wiring import Wiring
from harness.model.job import Job, Joint, Link


@kept
def built_so(wiring: Wiring) -> tuple[tuple[Built, Wiring], ...]:
    """Each record that names another contact than planned, or a pair turned round, with the wiring in which all such
    records are carried out.

    What was planned at such a contact isn't there; a fate alone (`capped`) says nothing that can be laid.
    """
    differing = as_built(wiring)[0]
    found = [(each, ends) for each in differing if (ends := targets(wiring, each.record))]
    turned = [(each, joint) for each in differing if (joint := turned_joint(wiring, each.record)) is not None]
    if not found and not turned:
        return ()
    job = _turned(wiring.job, {joint.name for _, joint in turned}) if turned else wiring.job
    laid = Wiring(_job(job, found))
    return tuple((each, laid) for each, _ in (*found, *turned))


def _turned(job: Job, names: set[str]) -> Job:
    """The job with the two links of these joints exchanged at one of their sides."""
    joints = []
    for joint in job.joints:
        if joint.name in names:
            (a, b), (c, d) = joint.links
            joint = joint._replace(links=(Link(a, d), Link(c, b)), turned=not joint.turned)
        joints.append(joint)
    return replace(job, joints=tuple(joints))


def _job(job: Job, found: list[tuple[Built, tuple[tuple[str, str], ...]]]) -> Job:
    gone = {name for each, ends in found for name, _ in ends}
    joints = []
    for joint in job.joints:
        links = tuple(link for link in joint.links if gone.isdisjoint(link))
        if links:
            joints.append(joint._replace(links=links))
    like = job.joints[0] if job.joints else None
    for number, (each, ends) in enumerate(found, 1):
        text = f"{each.record.what}: {each.record.word('is')}"
        method, at, cover = (like.method, like.at, like.cover) if like is not None else ("crimp", "", "")
        place = each.record.place
        links = tuple(Link(*two) for two in ends)
        joints.append(Joint(f"B{number}", method, at, cover, links, None, None, False, text, place, place))
    capped = {name: place for name, place in job.capped.items() if name not in gone}
    return replace(job, joints=tuple(joints), capped=capped)
