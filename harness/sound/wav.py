"""Samples as a sound file: PCM of 16 bits, two channels."""

from __future__ import annotations

import io
import sys
import wave
from array import array

FULL_SCALE = 32767
SIDES = ("both", "left", "right")


def wav(samples: array[float], rate_hz: int, side: str = "both") -> bytes:
    """The bytes of a wav file; on a side alone the other one is silent.

    Raises ValueError for a sample beyond -1 and 1 (nothing is clipped silently), and for another side.
    """
    if side not in SIDES:
        raise ValueError(f"{side!r} is none of {', '.join(SIDES)}")
    if samples and max(max(samples), -min(samples)) > 1:
        raise ValueError("the sound is beyond full scale")
    mono = array("h", (round(value * FULL_SCALE) for value in samples))
    stereo = array("h", bytes(4 * len(mono)))
    if side != "right":
        stereo[0::2] = mono
    if side != "left":
        stereo[1::2] = mono
    if sys.byteorder == "big":
        stereo.byteswap()
    held = io.BytesIO()
    with wave.open(held, "wb") as file:
        file.setnchannels(2)
        file.setsampwidth(2)
        file.setframerate(rate_hz)
        file.writeframes(stereo.tobytes())
    return held.getvalue()
