"""Here so that every test finds the helpers in this folder, such as `sketch`, and for what its processes share."""

import gc
import os
from tempfile import TemporaryDirectory

import kept

gc.set_threshold(200_000)  # as the program itself has it: what these processes keep is no rubbish


def pytest_configure(config):
    """A folder for what this run keeps; the processes that it starts find it in their surroundings."""
    if not hasattr(config, "workerinput"):
        folder = TemporaryDirectory(prefix="drawcord-tests-")
        os.environ[kept.FOLDER] = folder.name
        config.add_cleanup(folder.cleanup)
