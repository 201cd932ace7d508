"""How files of records are called."""

from __future__ import annotations

import unicodedata

EVIDENCE = ".evidence.yaml"


def is_evidence(path: str) -> bool:
    """Whether a file of this name would be some job's records, on any system: capitals and width don't matter."""
    return unicodedata.normalize("NFKC", path).casefold().endswith(EVIDENCE)
