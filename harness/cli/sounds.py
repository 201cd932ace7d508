"""`ringout sounds`: test tones as sound files."""

from __future__ import annotations

import click

from harness.cli.screen import Refused, say


@click.command("sounds", no_args_is_help=True)
@click.option("-o", "--out", required=True, metavar="DIR", help="Folder for the files; made if missing.")
@click.option(
    "--level",
    type=float,
    default=-20.0,
    show_default=True,
    metavar="DBFS",
    help="Level of the files marked b, -40 to -12; those marked a are 20 dB softer.",
)
@click.option(
    "--side",
    type=click.Choice(["both", "left", "right"]),
    default="both",
    show_default=True,
    help="On one side alone, the other one is silent.",
)
@click.option("--json", "as_json", is_flag=True, help="List the files as JSON, for a script.")
def command(out: str, level: float, side: str, as_json: bool) -> int:
    """Write test tones as sound files, with a sheet of what each is for.

    50 Hz for woofers, a 500 Hz warble for midranges, 8.5 to 9.5 kHz for tweeters, a pulse for polarity,
    pink noise for response. MEASURE DC FIRST, and read the sheet's cautions before one is played.

    \b
    Example:
      ringout sounds -o sounds
      ringout sounds -o sounds --side left --level -30
    """
    from harness.cli.packet import writable_folder
    from harness.sound.kit import CAUTIONS, sheet, sound_files
    from render.writers.files import write_all

    folder = writable_folder(out)
    try:
        files = list(sound_files(level, side))
    except ValueError as wrong:
        raise Refused(f"--level {level:g}: {wrong}") from None
    folder.mkdir(parents=True, exist_ok=True)
    text = folder / "read-this-first.txt"
    write_all([(text, sheet(files).encode("utf-8")), *((folder / file.name, file.data) for file in files)])
    if as_json:
        import json

        rows = [
            {
                "file": str(folder / file.name),
                "what": file.sound.what,
                "for": file.sound.use,
                "level_dbfs": file.level_dbfs,
                "level_is": file.sound.level,
                "peak_dbfs": round(file.peak_dbfs, 2),
                "length_s": file.length_s,
            }
            for file in files
        ]
        say(json.dumps({"sheet": str(text), "cautions": list(CAUTIONS), "files": rows}, indent=2))
        return 0
    say(CAUTIONS[0])
    say(f"Read {text} first: it has the other cautions, and what each file is for.")
    for file in files:
        say(f"  {folder / file.name}")
    return 0
