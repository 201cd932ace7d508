"""What several test folders share."""

from __future__ import annotations

from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent


@pytest.fixture(scope="session")
def root() -> Path:
    """The checkout, or the unpacked sdist, that is under test."""
    return ROOT
