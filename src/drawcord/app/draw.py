"""`drawcord draw`: the rig alone, as a picture."""

from pathlib import Path
from typing import Annotated

import typer

from drawcord.app.arguments import RigOrJobFile, ShopFolder

NAME = "draw"
Out = Annotated[
    Path | None,
    typer.Option("--out", metavar="FOLDER", help="The folder to write.", show_default="RIG-picture, by the rig's id"),
]


def command(file: RigOrJobFile, *, out: Out = None, shop: ShopFolder = None) -> None:
    """Draw a rig alone, as SVG and PNG.

    The picture shows everything that the sketch says.

    Example: drawcord draw layouts/van/rig.yaml --out van-picture
    """
    from drawcord.app.printing import say  # noqa: PLC0415 - keeps --help quick
    from drawcord.files.load import load  # noqa: PLC0415
    from drawcord.files.writing import write_folder  # noqa: PLC0415
    from drawcord.sheets.render import pictures  # noqa: PLC0415
    from drawcord.sheets.rig_sheet import rig_sheets  # noqa: PLC0415

    coach = load(file, shop).coach
    folder = out or Path(f"{coach.rig.rig}-picture")
    files = pictures("rig", rig_sheets(coach, coach.units))
    write_folder(folder, files, mark=f"picture of {coach.rig.rig}")
    say(f"The pictures of {coach.rig.name} are {' and '.join(str(folder / name) for name in files)}.")
