"""`drawcord demo`: the main job on a coach that comes with drawcord."""

from pathlib import Path
from typing import Annotated

import typer

NAME = "demo"
RIG, JOB = "class-a-three-slides", "job-mid-roof.yaml"
Out = Annotated[Path, typer.Option("--out", metavar="FOLDER", help="The folder to write.")]


def command(*, out: Out = Path("drawcord-demo")) -> None:
    """Plan a coach that comes with drawcord.

    It is invented, with three slides. Says where the pictures are.

    Example: drawcord demo
    """
    from drawcord.app.folder import write_plan  # noqa: PLC0415 - keeps --help quick
    from drawcord.files.home import layouts  # noqa: PLC0415

    write_plan(layouts() / RIG / JOB, out, [], None)
