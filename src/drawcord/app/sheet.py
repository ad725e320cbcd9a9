"""`drawcord sheet`: what a crew takes along on the day, as PDF and as one HTML file."""

from drawcord.app.arguments import JobFile, OutFolder, ShopFolder, Take

NAME = "sheet"


def command(job: JobFile, *, out: OutFolder, take: Take = None, shop: ShopFolder = None) -> None:
    """Write the sheet for the day, as PDF and HTML.

    Figures first, then cautions, where to look first, each route and its fallback, cuts, holes, joints, readings,
    consent and labels.
    With a stock.yaml in the shop's folder cables are cut from what the van carries. Exit status 1 if a cable has no
    route, a circuit does not stand, or cable is missing in van and store; what there is is written all the same.

    Example: drawcord sheet layouts/van/job-garage.yaml --out sheet-for-tuesday
    """
    from drawcord.app.outcome import NO  # noqa: PLC0415 - keeps --help quick
    from drawcord.words.faults import Surroundings  # noqa: PLC0415

    try:
        from drawcord.sheets.day_pdf import to_pdf  # noqa: PLC0415
    except ModuleNotFoundError as error:
        if error.name != "typst":
            raise
        raise Surroundings("the sheet needs the library typst, which is not installed: pip install typst") from error

    from drawcord.app.circuits import plan_of  # noqa: PLC0415
    from drawcord.app.printing import progress, say  # noqa: PLC0415
    from drawcord.files.stock import stocked  # noqa: PLC0415
    from drawcord.files.writing import expect_folder, write_folder  # noqa: PLC0415
    from drawcord.load.bring import bring  # noqa: PLC0415
    from drawcord.load.gear import gear  # noqa: PLC0415
    from drawcord.load.jointed import jointed  # noqa: PLC0415
    from drawcord.plan.card import card  # noqa: PLC0415
    from drawcord.sheets.day import day  # noqa: PLC0415
    from drawcord.sheets.day_html import to_html  # noqa: PLC0415

    expect_folder(out)
    van = stocked(shop)  # what is wrong with it is told before the long search
    loaded, compared, plan = plan_of(job, shop, take or [])
    progress("working out where to look first")
    first = card(plan, [order for order, _ in compared])
    progress("drawing the sheet")
    load = bring([plan], van) if van else None
    beside = gear([plan], load, van) if load and van else None
    made = day(jointed(plan, load, van) if load and van else plan, first, load, beside)
    files = {"sheet.pdf": to_pdf(made), "sheet.html": to_html(made)}
    name = loaded.coach.job.job if loaded.coach.job else ""
    write_folder(out, files, mark=f"sheet of {name}")
    say(f"The sheet of {name} is in {out}:")
    for file in files:
        say(f"  {out / file}")
    closed = any(not answer.candidates for answer in plan.answers)
    if closed or (plan.circuits is not None and not plan.circuits.whole) or (load and not load.enough):
        raise SystemExit(NO)
