"""Which finding hides which: one cause is told once, by the code that names it best.

A finding of the second code goes where one of the first code concerns a contact of it.
"""

HIDES: dict[str, frozenset[str]] = {
    "A05": frozenset({"A06", "C14"}),
    "A18": frozenset({"A19", "H15"}),
    "A19": frozenset({"D05"}),
    "B08": frozenset({"B01", "B05"}),
    "B09": frozenset({"B03"}),
    "C02": frozenset({"C01"}),
    "C03": frozenset({"C14"}),
    "C05": frozenset({"H12", "C06"}),
    "E10": frozenset({"F02"}),
    "F01": frozenset({"E10", "F02"}),
    "F12": frozenset({"F21"}),
    "F14": frozenset({"F13"}),
    "F19": frozenset({"F25"}),
    "F21": frozenset({"F03", "F07"}),
    "F22": frozenset({"F23", "C03", "G12"}),
    "F24": frozenset({"C01", "C03", "G12"}),
    "F23": frozenset({"F25", "C01", "C03", "G12"}),
    "D04": frozenset({"C14"}),
    "D07": frozenset({"B06"}),
    "G03": frozenset({"H04"}),
    "H02": frozenset({"H18"}),
    "G11": frozenset({"G01"}),
    "G07": frozenset({"E01", "E09", "G01", "H04", "H08"}),
    "G12": frozenset({"E01", "E09"}),
    "H01": frozenset({"H12"}),
    "H03": frozenset({"C14", "C25", "H01", "H17"}),
    "H08": frozenset({"C14", "C17", "C18", "C25"}),
    "H07": frozenset(
        {"B03", "B04", "B06", "C01", "C14", "C17", "C18", "C25", "F19", "F22", "F23", "F25", "G01", "G11", "G12", "H08"}
    ),
    "B06": frozenset({"C14", "H12"}),
    "C13": frozenset({"C14"}),
    "C14": frozenset({"C25"}),
    "C15": frozenset({"C14", "C25", "H03"}),
    "C18": frozenset({"E01"}),
    "C20": frozenset({"C14"}),
    "C23": frozenset({"C14", "C25", "H03"}),
    "C24": frozenset({"C01", "C14"}),
    "G01": frozenset({"H03"}),
    "H12": frozenset({"C14", "H17"}),
    "H14": frozenset({"B03", "B04", "B06", "C01", "C04", "C14", "C24", "F22", "F23", "F25", "G12", "H07", "H08"}),
    "H16": frozenset({"H07"}),
}
