"""`drawcord bring`: what to load into the van for one or several jobs."""

from pathlib import Path
from typing import Annotated

import typer

from drawcord.app.arguments import AsJson, ShopFolder

NAME = "bring"
JobFiles = Annotated[
    list[Path], typer.Argument(metavar="JOB", help="The job files, all those of a week.", show_default=False)
]
HowSure = Annotated[
    str | None,
    typer.Option("--sure", metavar="95%", help="Load for what may turn out, enough with this confidence."),
]


def command(jobs: JobFiles, *, sure: HowSure = None, shop: ShopFolder = None, json: AsJson = False) -> None:
    """Load the van.

    Shows pieces, joints and cuts for the chosen routes of all jobs together, from what stock.yaml says the van
    carries, small parts, bits and saws, and what to buy. Exit status 1 if cable is missing in van and store, only a
    hidden joint would do, or no load is as sure as asked.

    Example: drawcord bring layouts/class-a-three-slides/job-mid-roof.yaml --sure 75%
    """
    from drawcord.app.confidence import confidence, prospects  # noqa: PLC0415 - keeps --help quick
    from drawcord.app.outcome import NO  # noqa: PLC0415
    from drawcord.app.plans import plans_of  # noqa: PLC0415
    from drawcord.app.printing import say, say_json  # noqa: PLC0415
    from drawcord.files.load import load_shop  # noqa: PLC0415
    from drawcord.files.stock import load_van  # noqa: PLC0415
    from drawcord.load.bring import bring, loaded  # noqa: PLC0415
    from drawcord.load.gear import gear  # noqa: PLC0415

    wanted = confidence(sure)
    van, stock = load_van(shop, load_shop(shop)[0].types)  # what is wrong with it is told before the long search
    planned = plans_of(jobs, shop)
    plans = [plan for *_, plan in planned]
    asked = prospects(planned, van, wanted) if wanted else None
    load = loaded(plans, van, asked[0]) if asked else bring(plans, van)
    besides = gear(plans, load, van)
    if json:
        from drawcord.sheets.load_report import load_document  # noqa: PLC0415

        read = {document.path: document for one, *_ in planned for document in one.documents} | {stock.path: stock}
        inputs = [(document.path.name, document.sha256) for document in read.values()]
        say_json(load_document(load, besides, asked, inputs))
    else:
        from drawcord.sheets.load_spoken import load_text  # noqa: PLC0415

        say(load_text(load, besides, asked))
    if not load.enough or (asked and not asked[0].enough):
        raise SystemExit(NO)
