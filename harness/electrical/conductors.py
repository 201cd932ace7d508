"""Resistance of a cable: AWG and SAE sizes by their area, metric sizes by IEC 60228, at a stated temperature.

Bases: `awg`, `copper`, `copper, warm`, `metric`, `SAE sizes`, `CCA`.
"""

from __future__ import annotations

from harness.units import WireSize

RHO_OHM_MM2_PER_M = 0.017241
PER_DEGREE = 0.00393
BASE_C = 20.0
# Aluminium against copper, 16.06 and 10.37 ohm circular mil per foot.
CCA_FACTOR = 16.06 / 10.37

# IEC 60228 table 3, class 5, plain: ohm/km at 20 °C. At 50 mm² it stands below class 2 (0.387); both are printed so.
IEC_60228_CLASS_5 = {
    0.5: 39.0, 0.75: 26.0, 1.0: 19.5, 1.5: 13.3, 2.5: 7.98, 4.0: 4.95, 6.0: 3.30, 10.0: 1.91, 16.0: 1.21, 25.0: 0.780,
    35.0: 0.554, 50.0: 0.386, 70.0: 0.272, 95.0: 0.206, 120.0: 0.161, 150.0: 0.129, 185.0: 0.106, 240.0: 0.0801,
}  # fmt: skip


def ohm_per_m(size: WireSize, metal: str = "copper", temperature_c: float = BASE_C) -> float:
    """Ohm per metre of one conductor. `metal` is copper, CCA, or empty for copper.

    A metric size that IEC 60228 lists gets the greatest resistance allowed there; any other by its area.
    """
    at_20 = RHO_OHM_MM2_PER_M / size.area_mm2
    if size.text.endswith("mm2"):
        listed = IEC_60228_CLASS_5.get(size.area_mm2)
        at_20 = at_20 if listed is None else listed / 1000
    if metal == "CCA":
        at_20 *= CCA_FACTOR
    return at_20 * (1 + PER_DEGREE * (temperature_c - BASE_C))


def copper_mm2(size: WireSize, metal: str = "copper") -> float:
    """The area of copper that conducts as well, mm²."""
    return size.area_mm2 / CCA_FACTOR if metal == "CCA" else size.area_mm2
