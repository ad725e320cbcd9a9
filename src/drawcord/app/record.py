"""`drawcord record`: what a job really used and found, into the log beside its rig."""

from pathlib import Path
from typing import Annotated

import typer

from drawcord.app.arguments import JobFile, ShopFolder

NAME = "record"
Form = Annotated[bool, typer.Option("--form", help="Write the form to fill in, JOB.used.yaml, instead.")]
Take = Annotated[
    list[str] | None,
    typer.Option("--take", metavar="ID", help="With --form: the candidate that was planned instead of the winner."),
]
Picture = Annotated[
    Path | None,
    typer.Option("--out", metavar="FOLDER", help="A folder for the picture of what all jobs planned and used."),
]


def command(
    job: JobFile, *, form: Form = False, take: Take = None, out: Picture = None, shop: ShopFolder = None
) -> None:
    """Record what a job really used.

    With --form writes JOB.used.yaml beside the job, with the planned figures; filled in, it goes into RIG.log.yaml
    beside the rig, where the next job on that rig starts from it.

    Example: drawcord record layouts/van/job-garage.yaml --form
    """
    from drawcord.app.recording import record, write_form  # noqa: PLC0415 - keeps --help quick

    if form:
        write_form(job, shop, take or [])
    else:
        record(job, shop, out)
