"""`drawcord bring`: what to load into the van for one or several jobs."""

from pathlib import Path
from typing import Annotated

import typer

from drawcord.app.arguments import AsJson, ShopFolder

NAME = "bring"
JobFiles = Annotated[
    list[Path], typer.Argument(metavar="JOB", help="The job files, all those of a week.", show_default=False)
]


def command(jobs: JobFiles, *, shop: ShopFolder = None, json: AsJson = False) -> None:
    """Load the van.

    Shows pieces, joints and cuts for the chosen routes of all jobs together, from what stock.yaml says the van
    carries, small parts, bits and saws, and what to buy. Exit status 1 if cable is missing in van and store, or only a
    hidden joint would do.

    Example: drawcord bring layouts/van/job-garage.yaml
    """
    from drawcord.app.outcome import NO  # noqa: PLC0415 - keeps --help quick
    from drawcord.app.plans import plans_of  # noqa: PLC0415
    from drawcord.app.printing import say, say_json  # noqa: PLC0415
    from drawcord.files.load import load_shop  # noqa: PLC0415
    from drawcord.files.stock import load_van  # noqa: PLC0415
    from drawcord.load.bring import bring  # noqa: PLC0415
    from drawcord.load.gear import gear  # noqa: PLC0415

    van, stock = load_van(shop, load_shop(shop)[0].types)  # what is wrong with it is told before the long search
    planned = plans_of(jobs, shop)
    plans = [plan for _, plan in planned]
    load = bring(plans, van)
    besides = gear(plans, load, van)
    if json:
        from drawcord.sheets.load_report import load_document  # noqa: PLC0415

        read = {document.path: document for loaded, _ in planned for document in loaded.documents} | {stock.path: stock}
        say_json(load_document(load, besides, [(document.path.name, document.sha256) for document in read.values()]))
    else:
        from drawcord.sheets.load_spoken import load_text  # noqa: PLC0415

        say(load_text(load, besides))
    if not load.enough:
        raise SystemExit(NO)
