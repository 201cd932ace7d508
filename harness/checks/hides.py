"""Which finding hides which: one cause is told once, by the code that names it best.

A finding of the second code goes where one of the first code concerns a contact of it.
"""

HIDES: dict[str, frozenset[str]] = {
    "A05": frozenset({"A06"}),
    "C02": frozenset({"C01"}),
    "C05": frozenset({"C03", "H12"}),
    "C04": frozenset({"C01", "C03"}),
    "F22": frozenset({"F23", "C03", "G12"}),
    "F23": frozenset({"C01", "C03", "G12"}),
    "G12": frozenset({"G11"}),
    "G07": frozenset({"H04", "G01"}),
    "H03": frozenset({"C14", "H01", "H17"}),
    "H08": frozenset({"C14", "C17", "C18"}),
    "H07": frozenset({"H08"}),
    "B06": frozenset({"C14", "H12"}),
    "C01": frozenset({"B03", "B04"}),
    "C13": frozenset({"C14"}),
    "C24": frozenset({"C14"}),
    "G01": frozenset({"H03"}),
    "H16": frozenset({"H07"}),
}
