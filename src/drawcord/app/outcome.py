"""How a command ends: its exit status, and one line for each thing that went wrong."""

import functools
import os
import sys
from collections.abc import Callable
from typing import ParamSpec, TypeVar

P = ParamSpec("P")
R = TypeVar("R")

DONE, NO, OURS = 0, 1, 70


def ends_well(command: Callable[P, R]) -> Callable[P, R]:
    """Turn every fault of a command into lines on standard error and an exit status; nothing else gets out."""

    @functools.wraps(command)
    def wrapped(*args: P.args, **kwargs: P.kwargs) -> R:
        from drawcord.words.faults import BadInput, Fault  # noqa: PLC0415 - keeps --help quick

        try:
            return command(*args, **kwargs)
        except BadInput as error:
            for problem in error.problems:
                sys.stderr.write(f"{problem}\n")
            sys.exit(error.status)
        except Fault as error:
            sys.stderr.write(f"{error}\n")
            sys.exit(error.status)
        except BrokenPipeError:  # the reader of our output went away
            os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
            sys.exit(DONE)
        except (ImportError, OSError) as error:
            sys.stderr.write(f"drawcord cannot work here: {error}\n")
            sys.exit(3)
        except Exception:  # noqa: BLE001 - the last line of defence: no traceback reaches a user
            _report()
            sys.exit(OURS)

    return wrapped


def _report() -> None:
    """Put the traceback into a file and say where it is."""
    import tempfile  # noqa: PLC0415 - only needed when something is broken
    import traceback  # noqa: PLC0415

    try:
        with tempfile.NamedTemporaryFile(
            "w", prefix="drawcord-", suffix=".txt", delete=False, encoding="utf-8"
        ) as file:
            file.write(traceback.format_exc())
        where = f"the details are in {file.name}"
    except OSError:
        where = "the details could not be written anywhere"
    sys.stderr.write(f"drawcord failed, and that is our fault, not yours: {where}\n")
