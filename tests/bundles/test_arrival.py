"""Bundles that aren't taken, each with its reason, and nothing laid down."""

from __future__ import annotations

import io
import json
import random
import stat
import struct
import zipfile

import pytest

from harness.bundles.arrival import NotTaken, arrive
from harness.bundles.names import clashes, faults_of
from harness.bundles.packing import pack
from tests.bundles.zips import JOB, LIST, entry, listing, zipped


def told(raw: bytes) -> str:
    with pytest.raises(NotTaken) as wrong:
        arrive(raw)
    return "\n".join(wrong.value.told)


GOOD = {"job.yaml": JOB, "parts/dash.yaml": b"ringout: 1\n"}


def test_a_good_one_is_taken() -> None:
    """So that what follows is refused for its own reason; packed again with compression it is as good."""
    assert arrive(zipped(GOOD)).files == GOOD
    assert arrive(zipped(GOOD, method=zipfile.ZIP_DEFLATED)).files == GOOD
    assert arrive(pack("job.yaml", "A job", {path: ("job" if path == "job.yaml" else "part", data)
                                             for path, data in GOOD.items()})).files == GOOD  # fmt: skip


@pytest.mark.parametrize(
    ("path", "words"),
    [
        ("../job2.yaml", "leads out of its folder"),
        ("parts/../../x.yaml", "leads out of its folder"),
        ("/etc/x.yaml", "doesn't begin in its own folder"),
        ("//host/x.yaml", "doesn't begin in its own folder"),
        ("C:/x.yaml", "doesn't begin in its own folder"),
        ("C:x.yaml", "doesn't begin in its own folder"),
        ("..\\x.yaml", "holds “\\”"),
        ("\\\\host\\x.yaml", "doesn't begin in its own folder"),
        ("a\\b.yaml", "holds “\\”"),
        ("a//b.yaml", "a part of the path is empty"),
        ("./a.yaml", "a part of the path is empty"),
        ("a/./b.yaml", "a part of the path is empty"),
        (".ssh/x.yaml", "would be hidden"),
        ("a/.x.yaml", "would be hidden"),
        ("nul.yaml", "is a device"),
        ("a/COM1.evidence.yaml", "is a device"),
        ("aux /x.yaml", "begins or ends with a blank"),
        ("lpt³.yaml", "is a device"),
        ("a./x.yaml", "begins or ends with a blank or a dot"),
        ("a:b.yaml", "holds “:”"),
        ("what?.yaml", "holds “?”"),
        ("a\x07.yaml", "can't be seen"),
        ("a\u202egnp.yaml", "can't be seen"),
        ("a\u200b.yaml", "can't be seen"),
        ("a\ufeff.yaml", "can't be seen"),
        ("e\u0301.yaml", "in two pieces"),
        ("x" * 120 + ".yaml", "more than 100 letters"),
        ("a/" * 110 + "x.yaml", "more than 200 letters"),
        ("a/" * 14 + "x.yaml", "more than 12 folders"),
    ],
)
def test_paths(path: str, words: str) -> None:
    assert words in told(zipped({"job.yaml": JOB, path: b"x"}))


def test_a_name_cut_at_a_zero() -> None:
    """Some readers see `a.yaml`, others all of it."""
    raw = zipped({"job.yaml": JOB, "a.yaml_.txt": b"x"}).replace(b"a.yaml_.txt", b"a.yaml\0.txt")

    assert "can't be seen" in told(raw)


@pytest.mark.parametrize(
    ("one", "two"),
    [("parts/a.yaml", "parts/A.yaml"), ("parts/a.yaml", "Parts/b.yaml"), ("straße.yaml", "STRASSE.yaml"),
     ("x", "x/y.yaml"), ("ﬁ.yaml", "fi.yaml"), ("Job.yaml", "job.yaml")],
)  # fmt: skip
def test_names_that_are_one_file_somewhere(one: str, two: str) -> None:
    """By case, by ligature, by a file that is a folder too (Unicode case folding and NFKC)."""
    assert "on some systems" in told(zipped({"job.yaml": JOB, one: b"x", two: b"y"}))
    assert list(clashes([one, two]))
    assert list(clashes([two, one]))


def test_twice_in_the_zip() -> None:
    held = io.BytesIO()
    with zipfile.ZipFile(held, "w") as archive:
        archive.writestr(LIST, listing(GOOD))
        for path, data in GOOD.items():
            archive.writestr(path, data)
        with pytest.warns(UserWarning, match="Duplicate"):
            archive.writestr("job.yaml", b"another")

    assert "job.yaml: the same as job.yaml" in told(held.getvalue())


@pytest.mark.parametrize("kind", [stat.S_IFLNK, stat.S_IFIFO, stat.S_IFCHR, stat.S_IFSOCK, stat.S_IFDIR])
def test_links_and_devices(kind: int) -> None:
    words = "is a link" if kind == stat.S_IFLNK else "no ordinary file"

    assert words in told(zipped({"job.yaml": JOB, "parts/x.yaml": b"/etc/passwd"}, mode=kind | 0o777))


def test_locked() -> None:
    """The flag of a password (bit 0 of the general purpose flags, in the central directory)."""
    raw = bytearray(zipped({"job.yaml": JOB}))
    at = raw.rindex(b"PK\x01\x02")
    raw[at + 8] |= 1

    assert "locked with a password" in told(bytes(raw))


@pytest.mark.parametrize("method", [zipfile.ZIP_BZIP2, zipfile.ZIP_LZMA])
def test_other_packing(method: int) -> None:
    assert "packed in a way that isn't taken" in told(zipped(GOOD, method=method))


# -- bombs ----------------------------------------------------------------------------------------------------


def test_a_bomb_by_ratio() -> None:
    """Ten million zeros in ten thousand bytes: told before a byte is unpacked."""
    raw = zipped({"job.yaml": JOB, "parts/x.yaml": bytes(10_000_000)}, method=zipfile.ZIP_DEFLATED)

    assert len(raw) < 20_000
    assert "would become 10000000" in told(raw)


def test_a_bomb_that_lies_about_its_size() -> None:
    """The zip says 1000 bytes, and a million would come: at most what it says is unpacked, and it is damaged."""
    data = bytes(random.Random(1).choices(b"ab", k=1_000_000))
    raw = bytearray(zipped({"job.yaml": JOB, "parts/x.yaml": data}, method=zipfile.ZIP_DEFLATED))
    for mark, offset in ((b"PK\x03\x04", 22), (b"PK\x01\x02", 24)):
        at = raw.rindex(mark)
        assert struct.unpack_from("<I", raw, at + offset)[0] == 1_000_000
        struct.pack_into("<I", raw, at + offset, 1000)
    words = told(bytes(raw).replace(b'"size": 1000000', b'"size": 1000   '))

    assert "parts/x.yaml: " in words


def test_bytes_shared_by_many_files() -> None:
    """A thousand entries that all point at the same bytes."""
    data = random.Random(2).randbytes(5000)
    files = {"job.yaml": JOB, **{f"p{n}.yaml": b"" for n in range(100)}, "p.yaml": data}
    raw = zipped(files)
    archive = zipfile.ZipFile(io.BytesIO(raw))
    last = archive.getinfo("p.yaml")
    made = bytearray(raw)
    at = raw.index(b"PK\x01\x02")
    while raw[at : at + 4] == b"PK\x01\x02":
        length, extra, comment = struct.unpack_from("<HHH", raw, at + 28)
        name = raw[at + 46 : at + 46 + length]
        if name.startswith(b"p") and name != b"p.yaml":
            struct.pack_into("<III", made, at + 16, last.CRC, len(data), len(data))
            struct.pack_into("<I", made, at + 42, last.header_offset)
        at += 46 + length + extra + comment

    assert told(bytes(made))
    assert "share bytes" in told(bytes(made))


def test_too_big_a_file() -> None:
    """65 MB that don't shrink, told by what the zip says."""
    raw = bytearray(zipped({"job.yaml": JOB, "x.yaml": b"12345"}))
    at = raw.rindex(b"PK\x01\x02")
    struct.pack_into("<I", raw, at + 24, 65_000_000)
    struct.pack_into("<I", raw, at + 20, 65_000_000)

    assert "at most 64" in told(bytes(raw))


def test_too_many_entries() -> None:
    raw = zipped({f"p{n}.yaml": b"" for n in range(2001)})

    assert "2002 entries" in told(raw)


def test_a_list_of_a_thousand_and_one() -> None:
    raw = zipped({"job.yaml": JOB, **{f"p{n}.yaml": b"" for n in range(1000)}})

    assert "names more than 1000 files" in told(raw)


# -- the list -------------------------------------------------------------------------------------------------


def test_a_file_that_is_not_in_the_list() -> None:
    assert told(zipped({**GOOD, "extra.yaml": b"x"}, listing(GOOD))) == "extra.yaml: it isn't in the bundle's list"


def test_a_file_that_is_only_in_the_list() -> None:
    assert "in the list and not in the bundle" in told(zipped({"job.yaml": JOB}, listing(GOOD)))


def test_a_file_that_was_changed() -> None:
    """Same size, another byte."""
    changed = {**GOOD, "parts/dash.yaml": b"ringout: 2\n"}

    assert told(zipped(changed, listing(GOOD))) == (
        "parts/dash.yaml: its digest is another than in the list: it was changed or damaged\n"
        "unharmed: job.yaml\n"
        "Have the bundle sent again, and compare its digest over the telephone before you take it."
    )


def test_a_file_damaged_on_the_way() -> None:
    """One letter of one file is turned behind its CRC: that file is named, the other is unharmed, and what to do."""
    raw = zipped(GOOD)
    held = raw.rindex(b"ringout: 1\n")  # job.yaml comes first and begins with it too
    words = told(raw[:held] + b"R" + raw[held + 1 :]).splitlines()

    assert words[0].startswith("parts/dash.yaml: damaged on the way: ")
    assert words[1:] == [
        "unharmed: job.yaml",
        "Have the bundle sent again, and compare its digest over the telephone before you take it.",
    ]


def test_a_file_of_another_size() -> None:
    assert "12 bytes, and 11 in the list" in told(zipped({**GOOD, "parts/dash.yaml": b"ringout: 1 \n"}, listing(GOOD)))


def test_everything_in_one_pass() -> None:
    words = told(zipped({"job.yaml": JOB, "../a.yaml": b"", "nul": b"", "b?.yaml": b""}))

    assert [word in words for word in ("../a.yaml", "nul", "b?.yaml")] == [True] * 3


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "no JSON"),
        (b"[]", "keys are others"),
        (b"\xff\xfe", "no JSON"),
        (b'{"ringout-bundle": 1}', "keys are others"),
        (b"[" * 500_000, "no JSON"),
        (listing(GOOD, **{"ringout-bundle": 2}), "version 2"),
        (listing(GOOD, **{"ringout-bundle": True}), "version True"),
        (listing(GOOD, more=1), "keys are others"),
        (listing(GOOD, title=3), "another kind"),
        (listing(GOOD, files={}), "another kind"),
        (listing(GOOD, files=[1]), "other keys than path"),
        (listing(GOOD, job="parts/dash.yaml"), "exactly one job"),
        (listing(GOOD, files=[]), "exactly one job"),
        (listing(GOOD, files=[entry("job.yaml", JOB), entry("job.yaml", JOB)]), "a file twice"),
        (listing(GOOD, files=[entry("job.yaml", JOB) | {"size": -1}]), "the size of job.yaml"),
        (listing(GOOD, files=[entry("job.yaml", JOB) | {"size": True}]), "the size of job.yaml"),
        (listing(GOOD, files=[entry("job.yaml", JOB) | {"size": 1e3}]), "the size of job.yaml"),
        (listing(GOOD, files=[entry("job.yaml", JOB) | {"sha256": "A" * 64}]), "the digest of job.yaml"),
        (listing(GOOD, files=[entry("job.yaml", JOB, "virus")]), "a kind that isn't known"),
        (b'{"ringout-bundle": 1, "ringout-bundle": 1, "job": "a", "title": "", "files": []}', "a key stands twice"),
        (b" " * 1_000_001, "at most 1 is taken"),
    ],
)
def test_lists_that_are_none(data: bytes, words: str) -> None:
    assert words in told(zipped(GOOD, data))


@pytest.mark.parametrize(
    ("path", "kind", "words"),
    [
        ("photo.exe", "photo", "ends in .jpg"),
        ("run.yaml.sh", "settings", "a computer would run it"),
        ("page.HTML", "settings", "a computer would run it"),
        ("part.txt", "part", "ends in .yaml"),
        ("other.evidence.yaml", "evidence", "have another name"),
        ("job.evidence.yaml", "part", "would be a job's records"),
    ],
)
def test_kinds(path: str, kind: str, words: str) -> None:
    files = {"job.yaml": JOB, path: b"x"}
    listed = listing(files, files=[entry("job.yaml", JOB), entry(path, b"x", kind)])

    assert words in told(zipped(files, listed))


def test_no_list() -> None:
    held = io.BytesIO()
    with zipfile.ZipFile(held, "w") as archive:
        archive.writestr("job.yaml", JOB)

    assert "there is no ringout-bundle.json" in told(held.getvalue())


def test_folders_that_another_packer_wrote() -> None:
    """Taken where a file lies in them, else not."""

    def packed(folder: str) -> bytes:
        held = io.BytesIO(zipped(GOOD))
        with zipfile.ZipFile(held, "a") as archive:
            archive.writestr(zipfile.ZipInfo(folder), b"")
        return held.getvalue()

    assert arrive(packed("parts/")).files == GOOD
    assert "a folder without a file" in told(packed("other/"))
    assert "leads out" in told(packed("../"))


# -- damage ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("raw", [b"", b"PK", b"hello", b"PK\x05\x06" + bytes(18), b"PK\x03\x04" * 100])
def test_no_zip(raw: bytes) -> None:
    assert told(raw)


def test_any_byte_changed_is_noticed_or_says_the_same() -> None:
    """1500 single changes and cuts: taken only where every file is still what it was."""
    raw = zipped(GOOD, method=zipfile.ZIP_DEFLATED)
    draw = random.Random(7)
    refused = 0
    for _ in range(1500):
        spoilt = bytearray(raw)
        if draw.random() < 0.2:
            del spoilt[draw.randrange(len(raw)) :]
        else:
            spoilt[draw.randrange(len(raw))] ^= 1 << draw.randrange(8)
        try:
            files = arrive(bytes(spoilt)).files
        except NotTaken:
            refused += 1
            continue
        assert files == GOOD
    assert refused > 1000


def test_names_that_are_fine() -> None:
    for name in (
        "larch.yaml",
        "parts/alder-hatch.yaml",
        "photos/IMG 0031 (2).jpg",
        "Größe.yaml",
        "a/b/c.yaml",
        "console.yaml",
    ):
        assert faults_of(name) == []
    assert list(clashes(["a/b.yaml", "a/c.yaml", "b/a.yaml"])) == []


def test_json_is_what_the_list_is() -> None:
    """The list of a bundle of ours, read by json alone."""
    raw = pack("job.yaml", "T", {"job.yaml": ("job", JOB)})
    with zipfile.ZipFile(io.BytesIO(raw)) as archive:
        whole = json.loads(archive.read(LIST))

    assert whole["files"] == [entry("job.yaml", JOB)]
