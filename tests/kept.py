"""What is long in the making and what many files of tests stand on: made once a run, whichever process asks first."""

import fcntl
import os
import pickle
from collections.abc import Callable
from functools import cache, wraps
from pathlib import Path
from typing import TypeVar

FOLDER = "DRAWCORD_TESTS_KEPT"  # where the processes of a run keep it for each other; see conftest.py
Made = TypeVar("Made")


def kept(make: Callable[[str], Made]) -> Callable[[str], Made]:
    """The function, worked out for each name by one process of the run; the others wait for it and read it back.

    What it makes is shared: nobody may change it.
    """

    @cache
    @wraps(make)
    def known(name: str) -> Made:
        file = Path(os.environ[FOLDER], f"{make.__module__}.{make.__name__}.{name.replace('/', '.')}")
        with file.open("a+b") as opened:
            fcntl.flock(opened, fcntl.LOCK_EX)  # given back when the file is closed
            if opened.seek(0, os.SEEK_END):
                opened.seek(0)
                return pickle.load(opened)  # noqa: S301 - written by this very run
            made = make(name)
            pickle.dump(made, opened)
            return made

    return known
