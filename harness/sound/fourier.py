"""A sum of many sines at once, by the fast Fourier transform."""

from __future__ import annotations

import math
from collections.abc import Sequence


def real_series(spectrum: Sequence[complex]) -> list[float]:
    """The real part of the sum of `spectrum[k] * exp(2 pi i k n / N)` at n = 0 .. N-1, N twice as many as given.

    Raises ValueError where N is no power of two.
    """
    count = 2 * len(spectrum)
    if count < 2 or count & (count - 1):
        raise ValueError(f"{count} samples are no power of two")
    bits = count.bit_length() - 1
    values = [0j] * count
    for k, value in enumerate(spectrum):
        values[_turned(k, bits)] = value
    size = 2
    while size <= count:
        half = size // 2
        turns = [complex(math.cos(math.tau * k / size), math.sin(math.tau * k / size)) for k in range(half)]
        for start in range(0, count, size):
            for k in range(half):
                low, high = values[start + k], values[start + k + half] * turns[k]
                values[start + k], values[start + k + half] = low + high, low - high
        size *= 2
    return [value.real for value in values]


def _turned(number: int, bits: int) -> int:
    """The number with its bits in the other order."""
    return int(f"{number:0{bits}b}"[::-1], 2)
