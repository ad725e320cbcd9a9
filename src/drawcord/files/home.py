"""Where the rigs that are shipped and the shop's own files live.

The checkout that holds this source comes first, so that an edit there counts at once: an installed copy,
even an editable one, carries a snapshot from the day of installing.
"""

from pathlib import Path

from drawcord.words.faults import Surroundings

PACKAGE = Path(__file__).parents[1]


def layouts() -> Path:
    """The folder with one folder a rig model. Raises Surroundings."""
    return _home() / "layouts"


def shared() -> Path:
    """The folder with what a shop edits and its layouts share. Raises Surroundings."""
    return _home() / "shared"


def _home() -> Path:
    checkout = PACKAGE.parents[1]
    if _is_checkout(checkout):
        return checkout
    if (PACKAGE / "layouts").is_dir() and (PACKAGE / "shared").is_dir():
        return PACKAGE
    raise Surroundings(
        f"the folders `layouts` and `shared` are missing beside {PACKAGE}: install drawcord again"
    )


def _is_checkout(folder: Path) -> bool:
    try:
        project = (folder / "pyproject.toml").read_text(encoding="utf-8")
    except (OSError, ValueError):
        return False
    return 'name = "drawcord"' in project.splitlines()
