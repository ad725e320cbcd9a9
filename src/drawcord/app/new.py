"""`drawcord new`: a rig and a job to start from."""

from pathlib import Path
from typing import Annotated, Literal, get_args

import typer

NAME = "new"
Class = Literal["motorhome", "fifth-wheel", "travel-trailer", "truck-camper", "van"]
CALLED = {  # what people call a vehicle, and the class whose starter comes nearest
    **dict.fromkeys(("class a", "class c", "coach", "motor coach", "motor home", "bus", "rv"), "motorhome"),
    **dict.fromkeys(("fifth wheel", "5th wheel"), "fifth-wheel"),
    **dict.fromkeys(("trailer", "travel trailer", "caravan"), "travel-trailer"),
    **dict.fromkeys(("truck camper", "pickup camper", "slide in camper", "truck", "pickup"), "truck-camper"),
    **dict.fromkeys(("class b", "camper van", "campervan", "panel van"), "van"),
}
EVERY = "motorhome (class A or C, coach, bus), fifth-wheel, travel-trailer, truck-camper or van (class B)"


def _class(written: str) -> str:
    """A class as typed; for what people call it otherwise, which one to take."""
    word = written.casefold()
    if word in get_args(Class):
        return word
    if meant := CALLED.get(" ".join(word.replace("-", " ").replace("_", " ").split())):
        raise typer.BadParameter(f"for {written!r} take {meant}: drawcord new {meant} FOLDER")
    raise typer.BadParameter(f"{written!r} is no class of vehicle here: take {EVERY}")


VehicleClass = Annotated[
    Class,
    typer.Argument(
        metavar="CLASS",
        parser=_class,
        help=f"{EVERY}.",
        show_default=False,
    ),
]
Folder = Annotated[Path, typer.Argument(metavar="FOLDER", help="The folder to make.", show_default=False)]


def command(vehicle: VehicleClass, folder: Folder) -> None:
    """Make a rig and a job to start from.

    Their dimensions are typical of the class of vehicle, each marked as an assumption.

    Example: drawcord new van my-van
    """
    from drawcord.app.printing import say  # noqa: PLC0415 - keeps --help quick
    from drawcord.files.starters import starter  # noqa: PLC0415
    from drawcord.files.writing import write_folder  # noqa: PLC0415

    write_folder(folder, starter(vehicle, folder.resolve().name), mark=f"starter {vehicle}")
    say(f"{folder / 'rig.yaml'} and {folder / 'job.yaml'} are there to be measured and corrected.")
    say(f"Next: drawcord check {folder / 'job.yaml'}")
