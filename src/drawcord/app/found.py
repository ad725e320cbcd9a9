"""`drawcord found`: note what was found out about a place, and plan again."""

from typing import Annotated, Literal

import typer

from drawcord.app.arguments import JobFile, ShopFolder

NAME = "found"
What = Annotated[
    str, typer.Argument(metavar="PLACE", help='A space or passage: "trim chase", "bay_c2~linen".', show_default=False)
]
How = Annotated[Literal["clear", "blocked"], typer.Argument(metavar="clear|blocked", help="What it turned out to be.")]
By = Annotated[str, typer.Option("--by", metavar="TEXT", help="Who looked, or how: kept as the source.")]
On = Annotated[str | None, typer.Option("--on", metavar="DATE", help="When, as 2026-05-04; today if left out.")]


def command(
    job: JobFile, what: What, how: How, *, by: By = "looked", on: On = None, shop: ShopFolder = None
) -> None:
    """Note in the job what was found, and plan again.

    The job file keeps its comments and all else. Says what changed; exit status 1 if a cable has no route now.

    Example: drawcord found layouts/class-a-three-slides/job-galley-side.yaml "fridge vent" blocked --by "tape stuck"
    """
    from drawcord.app.finding_out import find_out  # noqa: PLC0415 - keeps --help quick
    from drawcord.app.outcome import NO  # noqa: PLC0415
    from drawcord.app.printing import say  # noqa: PLC0415

    text, whole = find_out(job, shop, what, how, (by, on))
    say(text)
    if not whole:
        raise SystemExit(NO)
