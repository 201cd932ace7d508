"""`ringout chart`: a chart in rows and columns into a plug of the job file."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from harness.cli.screen import Refused, as_argument, complain, harmless, say

if TYPE_CHECKING:
    from harness.charts.reading import Chart, Wanted
    from harness.charts.told import Told
    from harness.charts.writing import Source


@click.command("chart", no_args_is_help=True)
@click.argument("file")
@click.option("--plug", metavar="NAME", help="The plug's name; else made from the file's.")
@click.option("-o", "--out", metavar="FILE", help="Write it as a part file; else it goes to the screen.")
@click.option("--into", metavar="JOB", help="Write it into the plug NAME of this job file.")
@click.option("--replace", is_flag=True, help="With -o or --into: what is there already gives way.")
@click.option("--legend", metavar="CODES", multiple=True, help='What the page says its codes mean: "SB=light blue".')
@click.option("--ways", type=click.IntRange(1, 999), help="How many cavities the plug has.")
@click.option("--chart", "chart_name", metavar="TEXT", help="The chart's name; else the file's.")
@click.option("--date", metavar="DATE", help="Of when it is, 2026-03-02.")
@click.option("--by", metavar="WHO", help="Who wrote or checked it.")
@click.option("--covers", metavar="YEARS", help="The years it covers, 2020..2023.")
@click.option("--columns", metavar="WORDS", help='Without headings: "cavity function colour size"; - for others.')
@click.option("--heading", metavar="H=COLUMN", multiple=True, help='A heading that isn\'t known: "Wire=colour".')
@click.option("--size-unit", type=click.Choice(["mm2", "AWG", "SAE"]), help="Of sizes that are numbers alone.")
@click.option("--separator", type=click.Choice(["comma", "semicolon", "tab"]), help="Else found out.")
@click.option("--encoding", type=click.Choice(["utf-8", "utf-16", "cp1252"]), help="Else found out.")
@click.option("--json", "as_json", is_flag=True, help="Give what was read as JSON, for a script.")
def command(file: str, as_json: bool, **options: Any) -> int:
    """Read a chart (CSV) into a plug, with its source.

    Columns in any order: cavity (or pin), function (or signal, channel, circuit), colour, stripe, size,
    sign, twisted, note. What isn't understood is kept as a note and listed. Nothing is guessed.
    Exit code: 0 all understood, 1 something to look at, 2 nothing was written.

    \b
    Example:
      ringout chart sheet-31.csv --plug dash --ways 16 --date 2026-02-10 --by RK --covers 2019..2022
      ringout chart sheet-31.csv --legend "SB=light blue, L=blue" -o parts/dash.yaml
      ringout chart sheet-31.csv --into hazel.yaml --plug dash
    """
    from harness.charts.decoding import MOST_BYTES
    from harness.charts.told import Refusal
    from harness.cli.files import bytes_of

    path = Path(file)
    raw = bytes_of(path, MOST_BYTES)
    for option in ("out", "into"):
        if options[option] is not None and not options[option].strip():
            raise Refused(f"{'-o' if option == 'out' else '--into'} names no file")
    source, name, wanted = _source(path, options), _plug_name(path, options), _wanted(options)
    if options["out"] and options["into"]:
        raise click.UsageError("give either -o or --into")
    if options["into"] and not options["plug"]:
        raise click.UsageError("--into wants the plug's name: --plug dash")
    try:
        chart = _read(raw, wanted, asking=not as_json)
        target, text = _text(chart, name, source, options)
    except Refusal as refusal:
        if as_json:
            _say_json({"file": file, "written": None, "told": [_told_json(each) for each in refusal.told]})
        else:
            about = harmless(refusal.file or file)
            complain("\n".join([f"{about}: nothing was written", *_told_lines(refusal.told)]))
        return 2
    if target is not None:
        from render.writers.files import write_whole

        write_whole(target, text.encode("utf-8"))
    looks = [each for each in chart.told if each.kind != "kept"]
    if as_json:
        _say_json(_chart_json(file, name, source, chart, text, target))
    else:
        _report(file, name, chart, text, target)
    return 1 if looks or chart.unread else 0


# -- what was asked for ---------------------------------------------------------------------------------------


def _source(path: Path, options: dict[str, Any]) -> Source:
    from harness.charts.cells import tidy
    from harness.charts.writing import Source
    from harness.read.patterns import DATE, YEAR

    chart = tidy(options["chart_name"] or path.stem)
    by, date, covers = tidy(options["by"] or ""), options["date"] or "", options["covers"] or ""
    if not chart or len(chart) > 400 or len(by) > 400:
        raise Refused("--chart and --by want a few words")
    if date and not re.fullmatch(DATE, date):
        raise Refused(f"--date {date}: write it as 2026-03-02, year first")
    if covers and not re.fullmatch(rf"{YEAR}(\.\.{YEAR})?", covers):
        raise Refused(f"--covers {covers}: write a year or years, 2020..2023")
    return Source(chart, date, by, covers)


def _plug_name(path: Path, options: dict[str, Any]) -> str:
    from harness.read.patterns import NAME

    taken = ("spk", "gnd", "battery")
    if options["plug"] is not None:
        name: str = options["plug"]
        if not name.strip():
            raise Refused("--plug names no plug; leave it out, and the name is made from the file's")
        if not re.fullmatch(NAME, name) or len(name) > 60 or name.lower() in taken:
            raise Refused(f"--plug {name}: a name is letters, digits, - and _, and not {', '.join(taken)}")
        return name
    stem = Path(options["out"]).stem if options["out"] else path.stem
    name = re.sub(r"[^A-Za-z0-9_]+", "-", stem).strip("-_")[:60].rstrip("-")
    return name if name and name.lower() not in taken else "plug"


def _wanted(options: dict[str, Any]) -> Wanted:
    from harness.charts.headings import FIELDS, OTHER_WORDS, read_fields
    from harness.charts.hues import read_legend
    from harness.charts.reading import Wanted

    headings: dict[str, str] = {}
    for text in options["heading"]:
        heading, sign, field = text.rpartition("=")
        field = OTHER_WORDS.get(field.strip().lower(), field.strip().lower())
        if not sign or not heading.strip() or field not in FIELDS:
            raise Refused(f"--heading {text!r}: write HEADING=COLUMN, a column being one of {', '.join(FIELDS)}")
        headings[" ".join(heading.lower().split())] = field
    try:
        columns = tuple(read_fields(options["columns"])) if options["columns"] is not None else ()
    except ValueError as wrong:
        raise Refused(f"--columns: {wrong}") from None
    try:
        legend = read_legend("\n".join(options["legend"]))
    except ValueError as wrong:
        raise Refused(f"--legend: {wrong}") from None
    return Wanted(options["encoding"] or "", options["separator"] or "", columns, headings, legend,
                  options["size_unit"] or "", options["ways"])  # fmt: skip


def _read(raw: bytes, wanted: Wanted, asking: bool) -> Chart:
    """The chart; where somebody sits at a terminal, columns and codes that aren't known are asked about."""
    from harness.charts.headings import FIELDS, read_fields
    from harness.charts.hues import read_legend
    from harness.charts.reading import read_chart
    from harness.cli.asking import ask, somebody_there

    if not asking or not somebody_there():
        return read_chart(raw, wanted)
    answers: list[str] = []

    def columns(row: Any) -> str:
        click.echo("The columns aren't known. The row reads:", err=True)
        for number, cell in enumerate(row.cells, 1):
            click.echo(f"  {number}. {harmless(cell)}", err=True)
        click.echo(f"A word for each: {', '.join(FIELDS)}; - to keep one as a note.", err=True)
        answers.append(ask("Columns", read_fields))
        return answers[-1]

    chart = read_chart(raw, wanted, columns)
    legend = dict(wanted.legend)
    for code, rows in chart.unread.items():
        said = ask(
            f"{code} (row {', '.join(map(str, rows[:6]))}){_readings(code)}: which colour by this page's legend? "
            "(Enter: not known)",
            lambda word, code=code: read_legend(f"{code}={word}"),  # type: ignore[misc]
        )
        legend |= read_legend(f"{code}={said}") if said else {}
    if legend == wanted.legend:
        return chart
    return read_chart(raw, wanted._replace(legend=legend), (lambda _: answers[-1]) if answers else None)


def _readings(code: str) -> str:
    from harness.checks.a11_colour_without_legend import READINGS

    known = READINGS.get(code.upper())
    return f", {known[0]} on one legend and {known[1]} on another" if known else ""


# -- what is written ------------------------------------------------------------------------------------------


def _text(chart: Chart, name: str, source: Source, options: dict[str, Any]) -> tuple[Path | None, str]:
    """Where to write, and what. Raises Refusal and Refused; a text that would be read otherwise is never given."""
    from harness.charts.placing import into_plug, misread
    from harness.charts.writing import part_file, plug_lines
    from harness.cli.files import bytes_of, file_to_write
    from harness.read.files import MOST_BYTES as JOB_BYTES

    target: Path | None = None
    if options["into"]:
        target = Path(options["into"])
        try:
            job = bytes_of(target, JOB_BYTES).decode("utf-8")
        except UnicodeDecodeError:
            raise Refused(f"{target} is no UTF-8 text") from None
        lines = plug_lines(chart, source, options["ways"])
        text = into_plug(job, str(target), name, lines, replace=options["replace"])
    else:
        text = part_file(name, chart, source, options["ways"])
        if options["out"]:
            target = file_to_write(options["out"])
            if target.exists() and not options["replace"] and target.read_bytes() != text.encode("utf-8"):
                raise Refused(f"{target} is there already and says something else; --replace writes over it")
    wrong = misread(text, name, chart.entries, job=bool(options["into"]))
    if wrong:
        raise Refused(f"what would be written is read otherwise ({'; '.join(wrong[:3])}); please report this chart")
    return target, text


# -- what is said ---------------------------------------------------------------------------------------------


def _report(file: str, name: str, chart: Chart, text: str, target: Path | None) -> None:
    """Onto the screen: the text where no file was written (what is to be said then goes to the other stream)."""
    from harness.charts.writing import cavity_lines

    if target is None:
        say(text.rstrip("\n"))
    pairs = sum("/" in line.partition(":")[0] for line in cavity_lines(chart.entries))
    count = f"{len(chart.entries)} cavit{'y' if len(chart.entries) == 1 else 'ies'} of {name}"
    saved = f"{chart.encoding}, {chart.separator}"
    lines = [f"{harmless(file)}: {count}, {pairs or 'no'} pair{'' if pairs == 1 else 's'} ({saved})"]
    lines += _told_lines(chart.told)
    for code, rows in chart.unread.items():
        lines.append(f"  legend wanted: {code} in row {', '.join(map(str, rows))}{_readings(code)}")
        lines.append(f'      Do now: look at the page\'s legend or at the wire, then --legend "{code}=..."')
    if target is not None:
        lines.append(
            f"Written to {as_argument(target)}. It is a hint until it is toned; say the plug's view and latch too."
        )
    (say if target is not None else complain)("\n".join(lines))


def _told_lines(told: tuple[Told, ...]) -> list[str]:
    from harness.charts.told import KINDS

    made = []
    for each in told:
        where = f"{each.where}, " if each.where else ""
        made.append(f"  {where}{KINDS[each.kind]}: {harmless(each.message)}")
        if each.own:
            made.append(f"      {harmless(each.own[:100])}")
        if each.do:
            made.append(f"      Do now: {harmless(each.do)}")
    return made


def _say_json(whole: dict[str, Any]) -> None:
    import json

    say(json.dumps(whole, indent=2))


def _told_json(told: Told) -> dict[str, Any]:
    return {"kind": told.kind, "row": told.row or None, "line": told.line or None, "message": told.message,
            "do": told.do, "text": told.own}  # fmt: skip


def _chart_json(file: str, name: str, source: Source, chart: Chart, text: str, target: Path | None) -> dict[str, Any]:
    from harness.checks.a11_colour_without_legend import READINGS

    return {
        "file": file,
        "written": None if target is None else str(target),
        "encoding": chart.encoding,
        "separator": chart.separator,
        "columns": [{"heading": column.heading, "field": column.field or None} for column in chart.columns],
        "plug": name,
        "source": source._asdict(),
        "rows": [
            {
                "cavity": entry.cavity,
                "function": entry.function.name,
                "colour": entry.colour or None,
                "size": entry.size or None,
                "twisted": entry.twisted,
                "note": entry.note or None,
                "row": entry.row.number,
            }
            for entry in chart.entries
        ],
        "legend_wanted": [
            {"code": code, "rows": list(rows), "readings": list(READINGS.get(code.upper(), ()))}
            for code, rows in chart.unread.items()
        ],
        "told": [_told_json(each) for each in chart.told],
        "text": text,
    }
