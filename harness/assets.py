"""Finds the folders that travel with the tool, in an installation or in a checkout."""

from __future__ import annotations

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent
_NAMES = ("templates", "samples")


def folder(name: str) -> Path:
    """The folder `templates` or `samples`.

    In an installed wheel it is the copy inside the package; in a checkout (an editable installation
    too) it is the one beside `harness`, so that an edit shows at once.

    Raises ValueError for any other name, FileNotFoundError where the installation is damaged.
    """
    if name not in _NAMES:
        raise ValueError(f"no folder {name!r} travels with ringout; there are {' and '.join(_NAMES)}")
    shipped = _PACKAGE / "_shipped" / name
    if shipped.is_dir():
        return shipped
    beside = _PACKAGE.parent / name
    # Without our own project file there, a folder of that name would be a stranger's.
    if (_PACKAGE.parent / "pyproject.toml").is_file() and beside.is_dir():
        return beside
    raise FileNotFoundError(f"this installation of ringout lacks its folder {name!r}; install it anew")
