"""The command line: one name for each thing drawcord does."""

import gc
import os
import sys
from contextlib import suppress
from typing import Annotated

import typer

from drawcord.app import (
    array,
    bring,
    check,
    circuit,
    compare,
    demo,
    draw,
    found,
    look,
    new,
    plan,
    record,
    sheet,
    verify,
    ways,
    why,
)
from drawcord.app.outcome import ends_well

cli = typer.Typer(
    name="drawcord",
    help="Plan hidden cable routes through a motorhome, trailer, camper or van, before driving out.",
    epilog="Sheets are drafts for a licensed practitioner: local codes and the makers' manuals govern.",
    no_args_is_help=True,
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
)


def _version(asked: bool) -> None:
    if asked:
        from importlib.metadata import version  # noqa: PLC0415 - keeps --help quick

        from drawcord.app.printing import say  # noqa: PLC0415 - keeps --help quick

        say(f"drawcord {version('drawcord')}")
        raise typer.Exit


Version = Annotated[
    bool, typer.Option("--version", callback=_version, is_eager=True, help="Say which version this is, and exit.")
]


@cli.callback()
def options(*, version: Version = False) -> None:
    """Options of drawcord itself; the help of `cli` stands for this text."""


COMMANDS = (
    new, check, draw, ways, compare, why, array, circuit, look, found, plan, sheet, verify, bring, record, demo,
)  # fmt: skip
for module in COMMANDS:
    cli.command(name=module.NAME)(ends_well(module.command))


@ends_well
def _run() -> None:
    # Nearly all that a command makes is in use to its end: to look for the rest as often as usual took a few percent
    # of a comparison.
    gc.set_threshold(200_000)
    # Looking for plugins of pydantic reads the metadata of every installed package; there is none to find.
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
    if hasattr(sys.stdout, "reconfigure"):
        sys.stdout.reconfigure(encoding="utf-8")
        sys.stderr.reconfigure(encoding="utf-8")  # type: ignore[union-attr]
    cli()


def main() -> None:
    """Entry point of the `drawcord` command."""
    try:
        _run()
    except SystemExit as leaving:
        # What Python would now take apart piece by piece, for a twentieth of a comparison, the system frees at once.
        if isinstance(leaving.code, int):
            with suppress(OSError):  # what cannot be written is Python's to report
                sys.stdout.flush()
                sys.stderr.flush()
                os._exit(leaving.code)
        raise
