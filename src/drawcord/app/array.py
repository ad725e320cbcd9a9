"""`drawcord array`: the ways to group a job's solar modules side by side."""

from drawcord.app.arguments import AsJson, JobFile, ShopFolder

NAME = "array"


def command(job: JobFile, *, shop: ShopFolder = None, json: AsJson = False) -> None:
    """Compare the groupings of the solar modules.

    Shows cold and hot voltages, clipping, fuses and shade of each on the controller, and what a cable that was there
    before could carry. Exit status 1 if no grouping fits.

    Example: drawcord array layouts/van/job-garage.yaml
    """
    from drawcord.app.answers import inputs  # noqa: PLC0415 - keeps --help quick
    from drawcord.app.circuits import array_of  # noqa: PLC0415
    from drawcord.app.outcome import NO  # noqa: PLC0415
    from drawcord.app.printing import say, say_json  # noqa: PLC0415
    from drawcord.files.tables import conductors  # noqa: PLC0415
    from drawcord.plan.inherited import reuses  # noqa: PLC0415

    loaded, array = array_of(job, shop)
    runs = reuses(loaded.coach, array, conductors())
    if json:
        from drawcord.sheets.array_report import array_document  # noqa: PLC0415

        say_json(array_document(loaded.coach, array, runs, inputs(loaded)))
    else:
        from drawcord.sheets.array_spoken import array_text  # noqa: PLC0415

        say(array_text(loaded.coach, array, runs))
    if not array.offered:
        raise SystemExit(NO)
