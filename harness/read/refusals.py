"""The catalogue of reading findings: what each R code means. Text only; the reader decides."""

from __future__ import annotations

from typing import NamedTuple

from harness.finding import Severity


class Refusal(NamedTuple):
    """One reading finding. `doc` has the headings that every check's text has."""

    code: str
    severity: Severity
    title: str
    doc: str


def _doc(looks: str, why: str, example: str, do: str, limits: str) -> str:
    return (
        f"What it looks for: {looks}\n\nWhy it matters: {why}\n\nExample: {example}\n\n"
        f"What to do: {do}\n\nKnown limits: {limits}\n\nSource: the job file's own rules."
    )


_FIX, _NOTE = Severity.FIX, Severity.NOTE
_ALL = (
    Refusal("R01", _FIX, "not a text that can be read", _doc(
        "the first place where the file stops being YAML: a bracket or quote that is never closed, a colon "
        "missing or without a space behind it, a value that begins with ? > | @ % ` * & ! or a quote, a line "
        "that doesn't line up, text that is not UTF-8.",
        "behind such a place nothing can be trusted, so only the first one is told.",
        "`car: {name: Larch, year: 2022` without the closing `}`.",
        "type what the message says; the second place is the bracket or quote that was opened.",
        "a forgotten quote can swallow lines up to the next quote; the place told is then the later one.")),
    Refusal("R02", _FIX, "the same key twice", _doc(
        "two keys of one table that are the same, differ only by case, or are one number (`1` and `01`); "
        "also one key written under two words that mean the same (`plugs` and `connectors`).",
        "many programs silently keep one of the two; a cavity would lose its row.",
        "`7: RR+ VT` and, further down, `07: RR- VT/BK`.",
        "take one of the two away, or correct its number.",
        "two rows that share one cavity of a pair (`1/11` and `11`) are not this; they are found as A05.")),
    Refusal("R03", _FIX, "anchor, alias, merge key or tag", _doc(
        "`&name`, `*name`, `<<:` and `!tag` in front of a value.",
        "they make one line mean another one far away, so that a value has no place of its own; mostly they "
        "are a typing slip.",
        "`note: !check this` or `RL: *front`.",
        "put the value in quotes if the sign belongs to it; else write the value out.",
        "none.")),
    Refusal("R04", _FIX, "a tab in front of a line", _doc(
        "lines that begin with a tab, also behind spaces.",
        "how far a tab goes in is each editor's own guess.",
        "a row typed with the Tab key instead of spaces.",
        "use spaces; most editors can turn tabs into spaces for the whole file.",
        "nothing else of the file is looked at until the tabs are gone. A tab further along is a space.")),
    Refusal("R05", _FIX, "a second document in the file", _doc(
        "a line `---` or `...` with more text behind it.",
        "one file is one job; what stands behind would be left out without a word.",
        "two jobs pasted into one file.",
        "take the line away, or move what follows into a file of its own.",
        "what follows the line is not read.")),
    Refusal("R06", _FIX, "nothing behind a key", _doc(
        "keys, list entries and files with nothing in them; also a key inside { } that a comma or a missing "
        "space after the colon has made.",
        "not recorded, empty and unknown are three different things; nothing at all could be any of them.",
        "`{nominal: 8,5 ohm}` (the comma makes a key `5 ohm`), `{FL:1}` (no space behind the colon).",
        "write the value, or `unknown` where it was looked for and not found, or take the key away.",
        "none.")),
    Refusal("R07", _FIX, "a key that is not known here", _doc(
        "words in front of a colon that the job file doesn't have at that place.",
        "a misspelled key would be a fact that nobody reads.",
        "`cavites:` in a plug.",
        "correct the word; where one is nearly right, the message names it.",
        "none.")),
    Refusal("R08", _FIX, "the wrong shape", _doc(
        "a text where a table or a list belongs, or the other way round; a key that is not text.",
        "the shape says what is meant.",
        "`plugs: [dash, kick]`: plugs are a table of names.",
        "write it as the message shows.",
        "none.")),
    Refusal("R09", _FIX, "a value that is missing or not understood", _doc(
        "text that isn't what its key asks for: a function, a colour, a size, a quantity with its unit, a "
        "date, a contact, one of a few words; and keys that must be there and are not.",
        "a guess would be drawn and wired.",
        "`nominal: 4` (4 what?), `date: 02/03/2026` (the second of March or the third of February?).",
        "write it as the message shows; where a word is nearly right, the message names it.",
        "whether a name refers to something is told as R20.")),
    Refusal("R10", _FIX, "a file is missing or can't be read", _doc(
        "files that `parts:` names, and the job file itself.",
        "without its parts a job says nothing about their cavities.",
        "`parts: [looms/t1.yaml]` where the folder is called `loom`.",
        "correct the path; it starts from the folder of the file that names it.",
        "none.")),
    Refusal("R11", _FIX, "part files that use each other in a circle", _doc(
        "a part file that, over any number of steps, names itself under `parts:`.",
        "which of the two would come first is nobody's to guess.",
        "`a.yaml` names `b.yaml`, and `b.yaml` names `a.yaml`.",
        "take one of the two entries away.",
        "none.")),
    Refusal("R12", _FIX, "too large or too deep", _doc(
        "files over 32 MB, more than 12 levels of tables and lists in each other, and values longer than "
        "a value of their kind can be.",
        "a job of 100,000 contacts stays far below; more is a file that is not a job.",
        "a row of a thousand opening brackets.",
        "look whether this is the right file.",
        "none.")),
    Refusal("R13", _FIX, "characters of a word processor", _doc(
        "curly quotes, and characters that can't be seen (zero-width space, soft hyphen) in keys and values.",
        "a curly quote is no quote: it becomes part of the value. An unseen character makes two names "
        "different that look the same.",
        "`title: “Larch”`.",
        'type a straight quote " or none at all; delete and retype the word that holds the unseen character.',
        "no-break spaces, long dashes and minus signs, Ω and mm² are read as space, -, ohm and mm2.")),
    Refusal("R14", _FIX, "a text that goes over several lines", _doc(
        "plain or quoted text that continues on the next line, outside notes and chains.",
        "mostly the lower line is a row that lost its colon and was joined to the row above.",
        "`11: FL- WH/BK` and below it, indented deeper, `12 FR- GY/BK`.",
        "put the colon in, or bring the text onto one line.",
        "none.")),
    Refusal("R15", _NOTE, "text cut off at #", _doc(
        "a # that follows a space and is followed at once by text.",
        "from there on the line is a remark: `sheet #114` is read as `sheet`.",
        "`chart: sheet #114`.",
        'put the value in quotes: "sheet #114"; for a remark, put a space behind the #.',
        "none.")),
    Refusal("R16", _NOTE, "another word understood", _doc(
        "connectors, harnesses, pins and `head unit` where plugs, looms, cavities and `radio` are meant.",
        "one word for one thing; the paper prints the word of the job file.",
        "`connectors:` instead of `plugs:`.",
        "nothing; or use the word that the message names. Each is told once.",
        "none.")),
    Refusal("R17", _NOTE, "a row over a part's row", _doc(
        "rows of a job under a `part:` that stand for a row of the part's own.",
        "the part file says one thing and this car another; the next reader should know that it is meant.",
        "`cavities: {9: ACC RD}` in the job, where the part has `9: B+ YE`.",
        "nothing, if it is meant; else take the row out of the job.",
        "none.")),
    Refusal("R20", _FIX, "a name that refers to nothing", _doc(
        "contacts, plugs, looms, units, parts, ends and ports that nothing in the job is called.",
        "a joint to a name that isn't there is a wire that ends in the air.",
        "`dsp.in9` where dsp has in1 to in4.",
        "correct the name; where one is nearly right, the message names it.",
        "none.")),
    Refusal("R21", _FIX, "a name that could mean two things", _doc(
        "contacts named by a function that more than one cavity has.",
        "a guess would be wired.",
        "`dash.car.GND` where two cavities carry GND.",
        "name the cavity.",
        "none.")),
    Refusal("R22", _FIX, "a name taken or used twice", _doc(
        "plugs, looms and units with one name, names that the job file itself uses (spk, gnd, battery), "
        "names spread from a range that meet; and a joint whose `name` is another joint's, also one that it has by "
        "its number (J4), or a plug's, loom's, unit's, speaker's or ground's, or `last`, `all` or `every`.",
        "a contact must mean one thing, and so must a record of a joint.",
        "a plug `amp` and a unit `amp`; `name: J2` on the fourth joint.",
        "give one of the two another name.",
        "none.")),
    Refusal("R23", _FIX, "counts that don't fit", _doc(
        "ranges joined to ranges of another length, a pair joined to one contact, two cavities with one "
        "colour, a range that runs backwards.",
        "which wire would be left over is nobody's to guess.",
        "`T1.unit.1..8: dsp.in1..3`.",
        "write as many on one side as on the other, or one line for each.",
        "none.")),
    Refusal("R24", _FIX, "an opened plug: which half?", _doc(
        "contacts of a plug that the job opens or cuts, written without `unit` or `car`.",
        "the two halves are two ends once the plug is open.",
        "`dash.FL: dsp.in1` while a loom is mated to dash.",
        "write dash.unit.FL (toward the unit) or dash.car.FL (toward the body).",
        "none.")),
    Refusal("R25", _FIX, "that can't be done there", _doc(
        "work that a part can't take: a lead without a pin moved, an end mated that its loom doesn't have, a "
        "cavity of an uncut wire capped.",
        "the paper would ask for something that nobody can do.",
        "`moved: {T1.aerial: T1.car.3}`.",
        "name the contact that is meant.",
        "none.")),
    Refusal("R29", _FIX, "a check itself failed", _doc(
        "a check that broke off with an error of its own.",
        "what it looks for was not looked for.",
        "a fault in this program.",
        "report it with the job file; the other checks did run.",
        "none.")),
    Refusal("R30", _NOTE, "half a record", _doc(
        "a line of the evidence file that breaks off: its writer was killed, or the disk was full.",
        "it was never acknowledged, so nothing rests on it; what it was about may still have to be done.",
        "`- {when: 2026-03-02 09:40, by: JM, to`.",
        "do again what it was about; the line may stay.",
        "only lines that begin as the tool writes them.")),
)  # fmt: skip

REFUSALS: dict[str, Refusal] = {refusal.code: refusal for refusal in _ALL}
