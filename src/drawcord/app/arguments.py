"""Arguments that several commands share."""

from pathlib import Path
from typing import Annotated

import typer

JobFile = Annotated[Path, typer.Argument(metavar="JOB", help="The job file.", show_default=False)]
RigOrJobFile = Annotated[Path, typer.Argument(metavar="FILE", help="A rig file or a job file.", show_default=False)]
ShopFolder = Annotated[
    Path | None,
    typer.Option("--shop", metavar="FOLDER", help="The shop's own figures instead of those that come with drawcord."),
]
AsJson = Annotated[bool, typer.Option("--json", help="Print one JSON document instead of text.")]
OutFolder = Annotated[Path, typer.Option("--out", metavar="FOLDER", help="The folder to write.", show_default=False)]
Take = Annotated[
    list[str] | None,
    typer.Option("--take", metavar="ID", help="Take this candidate of `compare`, such as pv-2, instead of the winner."),
]
