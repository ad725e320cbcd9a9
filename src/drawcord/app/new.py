"""`drawcord new`: a rig and a job to start from."""

from pathlib import Path
from typing import Annotated, Literal

import typer

NAME = "new"
VehicleClass = Annotated[
    Literal["motorhome", "fifth-wheel", "travel-trailer", "truck-camper", "van"],
    typer.Argument(
        metavar="CLASS",
        help="motorhome, fifth-wheel, travel-trailer, truck-camper or van.",
        show_default=False,
    ),
]
Folder = Annotated[Path, typer.Argument(metavar="FOLDER", help="The folder to make.", show_default=False)]


def command(vehicle: VehicleClass, folder: Folder) -> None:
    """Make a folder with a rig and a job to start from: typical dimensions, each marked as an assumption.

    Example: drawcord new van my-van
    """
    from drawcord.app.printing import say  # noqa: PLC0415 - keeps --help quick
    from drawcord.files.starters import starter  # noqa: PLC0415
    from drawcord.files.writing import write_folder  # noqa: PLC0415

    write_folder(folder, starter(vehicle, folder.resolve().name), mark=f"starter {vehicle}")
    say(f"{folder / 'rig.yaml'} and {folder / 'job.yaml'} are there to be measured and corrected.")
    say(f"Next: drawcord check {folder / 'job.yaml'}")
