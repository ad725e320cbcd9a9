"""Writing whole or not at all, and over nothing that drawcord did not write itself.

What is written is built in a private folder beside its place, brought to the disk, then renamed into place.
A folder carries a manifest of its files and their hashes, by which a later run knows them as its own.
"""

import hashlib
import json
import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from itertools import islice
from pathlib import Path, PurePosixPath
from tempfile import TemporaryDirectory

from drawcord.words.faults import BadInput, Problem, Surroundings

MANIFEST = ".drawcord"


def write_file(path: Path, data: bytes) -> None:
    """Write `data` to `path`, replacing what is there. Raises Surroundings."""
    target = Path(os.path.realpath(path))  # a link stays a link
    with _workshop(target) as workshop:
        made = workshop / target.name
        _write(made, data)
        if target.exists():
            shutil.copymode(target, made)
        made.replace(target)
        _settle(target.parent)


def write_folder(folder: Path, files: dict[str, bytes], mark: str) -> None:
    """Make `folder` hold exactly `files`, whose names are relative with `/`, and its manifest.

    A folder that is there already is replaced only if it has the same `mark` and holds nothing but what
    drawcord wrote, unchanged. It waits under a name of its own until the new one is in place; a run that
    was killed in between is made good by the next.

    Raises:
        BadInput: the folder holds something else.
        Surroundings: the folder cannot be written.

    """
    target = Path(os.path.realpath(folder))
    earlier = target.with_name(f".{target.name}.earlier")
    with _workshop(target) as workshop:
        _recover(target, earlier, mark)
        _refuse_foreign(target, mark)
        made = workshop / target.name
        for name, data in files.items():
            _write(made / _inside(name), data)
        _write(made / MANIFEST, _manifest(files, mark))
        _swap(made, target, earlier)


def expect_folder(folder: Path) -> None:
    """Raise what `write_folder` surely would, before anything is worked out; touches nothing."""
    target = Path(os.path.realpath(folder))
    try:
        _refuse_foreign(target)
    except OSError as error:
        raise Surroundings(f"{target} cannot be written: {error.strerror or error}") from error
    home = next(parent for parent in target.parents if os.path.lexists(parent))
    if not (home.is_dir() and os.access(home, os.W_OK | os.X_OK)):
        raise Surroundings(f"{target} cannot be written: {home} is no folder that you may write into")


def _swap(made: Path, target: Path, earlier: Path) -> None:
    if target.exists():
        target.replace(earlier)
    try:
        made.replace(target)
    except BaseException:
        if earlier.exists():
            earlier.replace(target)
        raise
    _settle(target.parent)
    if earlier.exists():
        shutil.rmtree(earlier)


def _recover(target: Path, earlier: Path, mark: str) -> None:
    """Make good what a run left that was killed within `_swap`."""
    if not earlier.exists():
        return
    _refuse_foreign(earlier, mark)
    if target.exists():
        shutil.rmtree(earlier)
    else:
        earlier.replace(target)


def _refuse_foreign(folder: Path, mark: str = "") -> None:
    """Raise BadInput if `folder` holds anything that a run with this `mark`, or with any, did not leave there."""
    if not folder.exists():
        return
    if not folder.is_dir():
        raise BadInput([Problem((), "this is a file, not a folder; choose another name", str(folder))])
    found_mark, hashes = _read_manifest(folder)
    if foreign := list(islice(_foreign(folder, hashes), 4)):
        listed = ", ".join(foreign[:3]) + (" and more" if len(foreign) > 3 else "")
        sentence = (
            f"this folder holds files that drawcord did not write, or that were changed since: {listed}"
        )
    elif hashes and mark and found_mark != mark:
        sentence = f"this folder holds `{found_mark}`, not `{mark}`"
    else:
        return
    raise BadInput([Problem((), f"{sentence}; choose another folder", str(folder))])


def _foreign(folder: Path, hashes: dict[str, str]) -> Iterator[str]:
    """What is in `folder` beyond unchanged files with these hashes, in a fixed order."""
    expected = {parent.as_posix() for name in hashes for parent in PurePosixPath(name).parents}
    for top, folders, names in os.walk(folder):
        where = Path(top)
        for name in sorted(names):
            entry = where / name
            relative = entry.relative_to(folder).as_posix()
            if relative not in hashes or entry.is_symlink() or _hash(entry.read_bytes()) != hashes[relative]:
                yield relative
        folders.sort()
        for name in tuple(folders):
            relative = (where / name).relative_to(folder).as_posix()
            if relative not in expected or (where / name).is_symlink():
                folders.remove(name)
                yield f"{relative}/"


def _manifest(files: dict[str, bytes], mark: str) -> bytes:
    hashes = {name: _hash(files[name]) for name in sorted(files)}
    return json.dumps({"format": 1, "mark": mark, "files": hashes}, indent=1).encode() + b"\n"


def _read_manifest(folder: Path) -> tuple[str, dict[str, str]]:
    """The mark and hashes of a folder, the manifest's own among them; nothing if it is none of ours."""
    try:
        text = (folder / MANIFEST).read_bytes()
        manifest = json.loads(text)
        return manifest["mark"], {**manifest["files"], MANIFEST: _hash(text)}
    except (OSError, ValueError, TypeError, KeyError):
        return "", {}


def _hash(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def _inside(name: str) -> PurePosixPath:
    path = PurePosixPath(name)
    if path.is_absolute() or ".." in path.parts or name == MANIFEST:
        raise ValueError(f"{name} is no name for a file within a folder")
    return path


def _write(path: Path, data: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    with path.open("xb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())


def _settle(folder: Path) -> None:
    """Bring a renaming to the disk, where the system lets a folder be opened."""
    if os.name == "posix":
        descriptor = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(descriptor)
        finally:
            os.close(descriptor)


@contextmanager
def _workshop(target: Path) -> Iterator[Path]:
    """A private folder beside `target`, gone afterwards; what the system refuses becomes Surroundings."""
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        with TemporaryDirectory(prefix=".drawcord-", dir=target.parent) as workshop:
            yield Path(workshop)
    except OSError as error:
        raise Surroundings(f"{target} cannot be written: {error.strerror or error}") from error
