"""What the answers of tests mean, what to beware of, and what to do at a place found: the fixed words."""

from __future__ import annotations

from harness.locate import circuit as kinds
from harness.locate import tests as t
from harness.locate.symptoms import FAINT, INTERMITTENT, NOISE, REVERSED, SILENT, WRONG

WRONG_WITH = {
    "open": "open",
    "turned": "+ and − exchanged",
    "crossed": "exchanged with each other",
    "shorted": "its + and − touch",
    "body": "a wire touches the body",
    "touching": "touch each other",
    "load too low": "too few ohms for its output: a coil gone, or the wrong speaker or bridge",
    "faulty": "faulty inside",
    "drops volts": "loses volts under load",
    "too hot": "too hot: no air, or worked too hard",
    "weak": "a poor contact, or set too low",
    "noisy": "lets noise in",
    "hiss": "noisy by itself",
    "poor ground": "a poor ground",
    "loose": "loose",
    "stays on": "holds it on",
}

# By the kind of test and its answer.
MEANS = {
    (t.HOLD, "signal"): "plays: the fault is behind, in a lead or the speaker",
    (t.HOLD, "nothing"): "silent: the fault is before this point",
    (t.HOLD, "low"): "too low: the fault is before this point",
    (t.HOLD, "thinned"): "too low: one of the summed channels is missing",
    (t.OHMS, "as expected"): "the speaker’s ohms: good from here on",
    (t.OHMS, "open"): "no way through: the fault is behind this point",
    (t.OHMS, "short"): "under 1 ohm: the two wires touch behind this point",
    (t.OHMS, "too low"): "over 1 ohm, but less than the speakers there, or less than the output allows",
    (t.ALL_OFF, "goes"): "it plays on without them: a lead or a speaker of this unit",
    (t.ALL_OFF, "stays"): "it still protects: the unit, its feed, its ground or its heat; or a lead before it",
    (
        t.LOOK,
        "shows it",
    ): "it protects itself: from its leads, its load, its volts, its heat, or it is faulty",
    (t.LOOK, "plays on"): "it isn’t this unit that protects itself: look at the one before it",
    (t.COOL, "plays at first"): "cold it works: it gets too hot",
    (t.COOL, "at once"): "cold it protects as well: it isn’t the heat",
    (t.OFFSET, "under 0.1 V"): "no DC on any: they are good",
    (t.SAG, "over 11 V"): "11 V or more when it cuts out: good up to here",
    (t.SAG, "under 11 V"): "less when it cuts out: volts are lost before this point",
    (t.CLEAR, "clear"): "open to all of them: nothing touches behind this point",
    (t.CLEAR, "short"): "the two wires touch behind this point",
    (t.CLEAR, "to the body"): "under 1 kohm: one of the two touches the body behind this point",
    (t.CLEAR, "to a pair"): "they touch another pair behind this point",
    (t.OHMS, "too high"): "more than all speakers together: one branch is open",
    (t.SWAP_IN, "moves"): "the other speaker has it now: the fault is before this input",
    (t.SWAP_IN, "stays"): "same speaker: the fault is in the unit or behind it",
    (t.SWAP_OUT, "moves"): "the other speaker has it now: the fault is the output or before it",
    (t.SWAP_OUT, "stays"): "same speaker: the fault is its lead, plug or coil",
    (t.CLIP, "plays"): "as it should: the fault is what the clips go past",
    (t.CLIP, "no change"): "the fault is somewhere else",
    (t.DC, "12 V"): "11 V or more, good up to here",
    (t.DC, "0 V"): "next to nothing: the fault is before this point",
    (t.DROP, "under 0.1 V"): "good from here to the body",
    (t.DROP, "more"): "the fault is between here and the body",
    (t.FUSE, "open"): "the fuse, or its holder",
    (t.FUSE, "whole"): "the fuse and its holder are good",
    (t.WIGGLE, "drops out"): "it is what you moved",
    (t.WIGGLE, "no change"): "it is something else",
    (t.MUTE, "goes"): "the noise comes in before this input",
    (t.MUTE, "stays"): "the noise is of this unit, its ground, or behind it",
    (t.FEED, "goes"): "the noise is of what fed this cable, or of the ground that it carries",
    (t.FEED, "stays"): "the noise comes in by this cable or behind it",
    (t.ONE, "goes"): "it is this unit’s ground, or the loop through both",
    (t.ONE, "stays"): "it is neither this ground nor the loop through both",
    (t.ENGINE, "goes"): "it comes with the engine: by a ground, a feed or a cable",
    (t.ENGINE, "stays"): "a unit’s own noise or gain, or a contact that crackles",
    (t.OFF, "goes off"): "what holds it on is before this point",
    (t.OFF, "stays on"): "what holds it on is the wire behind, or the unit",
    (t.STILL, "over 1 V"): "the turn-on never goes",
    (t.STILL, "under 1 V"): "the unit holds itself on",
}

# Of what protects a known-good speaker tells of its own output's leads only.
HELD = {
    "signal": "plays: it is these leads or this speaker",
    "nothing": "still silent: it isn’t these leads; another output’s, or the unit",
}

# Of the test at a point, by the symptom that is looked for.
AT_POINT = {
    (SILENT, "signal"): "volts that follow the music, good up to here",
    (SILENT, "nothing"): "no volts: the fault is before this point",
    (SILENT, "thinned"): "less than it should be: one of the summed channels is missing",
    (INTERMITTENT, "signal"): "the volts went on while it was silent: good up to here",
    (INTERMITTENT, "nothing"): "the volts went too: the fault is before this point",
    (INTERMITTENT, "thinned"): "less while it was silent: one of the summed channels comes and goes",
    (FAINT, "signal"): "as much as the good one, good up to here",
    (FAINT, "low"): "less: the fault is before this point",
    (FAINT, "nothing"): "none at all: the fault is before this point",
    (FAINT, "thinned"): "less: one of the summed channels is missing",
    (REVERSED, "signal"): "+ is +, good up to here",
    (REVERSED, "reversed"): "turned round before this point",
    (REVERSED, "thinned"): "thin: one of the summed channels is turned round",
    (WRONG, "signal"): "good up to here",
    (WRONG, "other"): "its own channel, but meant for another driver: crossed before this point",
    (WRONG, "thinned"): "one of the summed channels is another",
    (NOISE, "signal"): "good up to here",
    (NOISE, "noise"): "it comes in before this point",
    (NOISE, "thinned"): "some noise, by one of the summed channels",
}

_SWAP = "power off before swapping, gains down; all four wires off before any goes on: no two outputs may ever touch"
CAUTION = {
    t.SIGNAL: "probes across the pair only, never to the body; a bridged output’s − is live",
    t.HOLD: "key off while leads are changed; no loose end may touch another or the body",
    t.OHMS: "never ohms into an output: the unit’s side stays parted",
    t.CLEAR: "never ohms into an output or a unit: both ends stay parted",
    t.SWAP_IN: _SWAP,
    t.SWAP_OUT: _SWAP,
    t.CLIP: "only between these two ends of one wire, never across a fuse or to another pair",
    t.DC: "one probe at a time, and nothing bridged with it",
    t.DROP: "the meter’s lead to the battery’s − clear of belts and fan",
    t.FUSE: "the same value goes back; never a wire or a larger fuse",
    t.WIGGLE: "hands clear of moving seats and of yellow or orange cables",
    t.MUTE: "power off before parting, volume down first",
    t.FEED: "power off before plugging; the player on its own battery, its volume at nothing first, never on an output",
    t.ONE: "power off while it is changed, battery − off; a cable as thick as its own, nothing else moved",
    t.ENGINE: "outdoors, or the exhaust led out; parking brake on",
    t.ALL_OFF: "power off while leads are taken off; each bare end insulated, none may touch another",
    t.LOOK: "volume at nothing; look only, nothing is touched",
    t.COOL: "leads off still; hands off the case until it is cool",
    t.OFFSET: "no speaker on it while it is measured; probes on the two terminals only",
    t.SAG: "one probe at a time; a known-good speaker of the rated ohms, the car’s own leads off",
    t.OFF: "the bare end insulated: it may be live",
    t.STILL: "opening a door wakes the car: wait again",
}
UNFUSED = "no fuse before this point: one insulated probe, rings off, no metal tool"

# What is done where a whine comes in by a cable. Common practice, no source.
WHINING = {
    kinds.RUN: "Key off; lay it away from signal cables, across them at right angles; look at both ends and its fuse, "
    "bare metal, nothing loose; then listen again.",
    kinds.GROUND: "Key off; paint off down to bare metal, ring and bolt tight; then listen again.",
}
REMEDY = {
    kinds.JOINT: "Key off; open the joint, look at each wire in it, make it anew, tug every wire.",
    kinds.PLUG: "Key off; pull the plug, look for a terminal pushed back or spread, push it home, latch the plug.",
    kinds.MATED: "Key off; pull the plug, look for a terminal pushed back, spread or green; push it home, latch it.",
    kinds.LEAD: "Key off; ohms of the lead from terminal to end while it is bent; change the lead.",
    kinds.WIRE: "Key off, both ends parted; ohms of each wire end to end; look where it is bent or was trapped.",
    kinds.RUN: "Key off; ohms of each wire end to end while it is bent; look at both ends; lay it anew if it breaks.",
    kinds.FUSE: "Find out why it blew before a new one of the same value goes in; then look at its holder.",
    kinds.GROUND: "Battery − off; undo it, bare metal, tighten, protect; then measure the drop under load again.",
    kinds.LOOP: "Key off; ground both at one point, bare metal, cables of full size; then listen again.",
    kinds.SOURCE: "Check fader, balance and settings, then its terminal at the plug; the rest is for the unit’s maker.",
    kinds.CHANNEL: "Check its routing, mute and gain in the settings; then the unit is the one to change.",
    kinds.INPUT: "Check in the settings that this input is chosen; then the unit is the one to change.",
    kinds.UNIT: "Feed, ground and turn-on at its own terminals, its protect light, its settings; then change the unit.",
    kinds.SPEAKER: "Key off; ohms at its own terminals with the leads off; then change the speaker.",
    kinds.GIVER: "Check the setting that switches this output; then its own fuse, or the unit that gives it.",
    kinds.RELAY: "Volts at its coil and at 30; then change the relay.",
}
# Through its capacitor a good speaker reads open too. Common practice, no source.
BEHIND_CAPACITOR = (
    "Key off, its leads off; ohms behind its capacitor, for through it a good speaker reads open. Change the speaker, "
    "or the capacitor where the speaker reads good."
)
# What is done where a unit protects itself and its leads are good. Common practice, no source.
PROTECTED = {
    "load too low": "Key off; ohms at its own terminals; a speaker, or a bridge, whose ohms the output allows.",
    "faulty": "Off, no speaker on it; once back to its maker’s settings, then the unit is the one to change.",
    "too hot": "Key off; air around its fins, no carpet on it; then its gain and the load that it works into.",
    "drops volts": "Battery − off; undo this place, bare metal, tight, full size of cable; measure under load again.",
}
SAGGING_FUSE = (
    "Fuse out; look for heat at its holder and clips, screws tight; the same value goes back; measure under load again."
)
TURNED = {
    kinds.SOURCE: "Look whether the factory means it so; write it on the job before anything is turned.",
    kinds.CHANNEL: "Look for a polarity switch on this output in the settings.",
    kinds.SPEAKER: "Key off; exchange the two leads at the speaker, after a look which terminal is marked +.",
}
STUCK = {
    kinds.UNIT: "Its own switch-off delay or signal sensing first; then the unit is the one to change.",
    kinds.GIVER: "It stays live: choose another turn-on, or set what gives it; a radio may stay on for minutes.",
    kinds.RELAY: "Its contacts stick: change the relay, and look what current it switches.",
}
SET = {
    kinds.CHANNEL: "Check its gain, filter and level in the settings against the other channels, then the unit.",
    kinds.INPUT: "Check its sensitivity and range in the settings against the other inputs, then the unit.",
    kinds.SOURCE: "Check fader, balance and its settings first.",
    kinds.UNIT: "Check its gain and where its cables lie; then the unit is the one to change.",
    kinds.SPEAKER: "Listen to it close by; then change the speaker.",
}
