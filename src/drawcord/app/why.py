"""`drawcord why`: why a route that a person has in mind is not the one chosen."""

from typing import Annotated

import typer

from drawcord.app.arguments import AsJson, JobFile, ShopFolder

NAME = "why"
Cable = Annotated[str, typer.Argument(metavar="CABLE", help="The cable, by its id.", show_default=False)]
Spaces = Annotated[
    str | None,
    typer.Option("--spaces", metavar="A,B,C", help="Its spaces in order; those of its ends may be left out."),
]
Through = Annotated[
    str | None, typer.Option("--through", metavar="A,B", help="Any route that goes through these spaces.")
]
Avoid = Annotated[str | None, typer.Option("--avoid", metavar="A,B", help="Any route that does not enter these.")]


def command(
    job: JobFile,
    cable: Cable,
    *,
    spaces: Spaces = None,
    through: Through = None,
    avoid: Avoid = None,
    shop: ShopFolder = None,
    json: AsJson = False,
) -> None:
    """Say why a route was not chosen.

    Takes the best route of the form you name: what beats it, which rule it breaks, or what would make it win.

    Example: drawcord why layouts/van/job-garage.yaml pv --through wardrobe
    """
    from drawcord.app.answers import inputs  # noqa: PLC0415 - keeps --help quick
    from drawcord.app.asked import asked  # noqa: PLC0415
    from drawcord.app.printing import say, say_json  # noqa: PLC0415
    from drawcord.sheets.why_report import why_document  # noqa: PLC0415
    from drawcord.sheets.why_spoken import why_text  # noqa: PLC0415

    loaded, order, answer, where = asked(job, shop, cable, [_names(names) for names in (spaces, through, avoid)])
    if json:
        say_json(why_document(loaded.coach, order, answer, where, inputs(loaded)))
    else:
        say(why_text(loaded.coach, order, answer, where))


def _names(listed: str | None) -> list[str]:
    return [name.strip() for name in listed.split(",")] if listed is not None else []
