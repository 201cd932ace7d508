"""The packet of a sample against the least that any program would need for it.

The floor: importing the same libraries, one run of `dot` over the sample's graphs, and a bare canvas that draws as
many strings, lines and boxes as the packet's PDF holds, in the same fonts.
"""

from __future__ import annotations

import json
import re
import tempfile
from collections import Counter
from pathlib import Path
from typing import Any

from tests.benchmarks.processes import ROOT, ringout, run
from tests.benchmarks.ratio import Result, alternate

_FLOOR = """
import json, subprocess, sys
import click, graphviz, jinja2, networkx, yaml
from reportlab.pdfbase import pdfmetrics, ttfonts
from reportlab.pdfgen import canvas
told = json.load(open(sys.argv[1]))
subprocess.run([told["dot"], "-Kdot", "-Tjson", told["graphs"]], stdout=subprocess.DEVNULL, check=True)
pdfmetrics.registerFont(ttfonts.TTFont("plain", told["font"]))
page = canvas.Canvas(told["out"], pagesize=(595, 842), invariant=1)
for strings, lines, boxes in told["pages"]:
    page.setFont("plain", 8)
    for n, text in enumerate(strings):
        page.drawString(40 + n % 7 * 70, 800 - n * 7 % 760, text)
    for n in range(lines):
        page.line(40, 800 - n * 5 % 760, 400, 800 - n * 5 % 760)
    for n in range(boxes):
        page.rect(40 + n % 9 * 50, 800 - n * 11 % 760, 40, 9)
    page.showPage()
page.save()
"""


def pages_of(pdf: Path) -> list[tuple[list[str], int, int]]:
    """Of each page: its strings (as long as they are, in plain letters), how many lines, how many boxes."""
    from pypdf import PdfReader

    made = []
    for page in PdfReader(pdf).pages:
        content = page.get_contents()
        data = content.get_data() if content is not None else b""
        words = re.findall(rb"\)\s*Tj|\)\s*TJ|\]\s*TJ", data)
        drawn = Counter(re.findall(rb"(?<=\s)(l|c|re)(?=\s)", data))
        text = page.extract_text() or ""
        length = max(1, len(text) // max(1, len(words)))
        made.append((["n" * length] * len(words), drawn[b"l"] + drawn[b"c"], drawn[b"re"]))
    return made


def graphs_of(sample: Path, folder: Path) -> list[str]:
    """The DOT text of every picture of the packet, caught on its way to the layout program."""
    from harness.prove import prove
    from render import documents
    from render.diagrams import run as layout

    texts: list[str] = []
    kept: Any = layout.lay_out

    def caught(text: str, boxes: int, lines: int) -> Any:
        texts.append(text)
        return kept(text, boxes, lines)

    from render.diagrams import route

    names = [module for module in (layout, route) if getattr(module, "lay_out", None) is kept]
    try:
        for module in names:
            module.lay_out = caught  # type: ignore[attr-defined]
        documents.packet(prove(sample), folder, None)
    finally:
        for module in names:
            module.lay_out = kept  # type: ignore[attr-defined]
    return list(dict.fromkeys(texts))


def packet(rounds: int, sample: str = "estate-bus-amplifier.yaml") -> list[Result]:
    from render.diagrams.run import find_dot

    path = ROOT / "samples" / sample
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        graphs = graphs_of(path, folder / "first")
        dot = find_dot()
        if dot is None or not graphs:
            raise RuntimeError("no layout program, or no picture to lay out: this can't be measured")
        (folder / "graphs.dot").write_text("\n".join(graphs), encoding="utf-8")
        pdf = next((folder / "first").glob("*.pdf"))
        font = next((ROOT / "render" / "fonts").glob("*Condensed.ttf"))
        pages = pages_of(pdf)
        told = {"dot": str(dot), "graphs": str(folder / "graphs.dot"), "font": str(font), "pages": pages}
        told["out"] = str(folder / "floor.pdf")
        (folder / "told.json").write_text(json.dumps(told), encoding="utf-8")
        floor, subject = alternate(
            lambda: run("-c", _FLOOR, str(folder / "told.json")),
            lambda: ringout("packet", str(path), "-o", str(folder / "again")),
            rounds,
        )
    strings, lines, boxes = (sum(each) for each in zip(*((len(s), n, b) for s, n, b in pages), strict=True))
    drawn = f"{strings} strings, {lines} lines, {boxes} boxes, {len(graphs)} graphs"
    return [Result(f"packet of {sample} / imports, dot, canvas ({drawn})", floor * 1e3, subject * 1e3, "ms", 2.5)]
