"""`drawcord plan`: choose a route for each cable, and write everything about the choice into a folder."""

from drawcord.app.arguments import JobFile, OutFolder, ShopFolder, Take

NAME = "plan"


def command(job: JobFile, *, out: OutFolder, take: Take = None, shop: ShopFolder = None) -> None:
    """Choose routes, write pictures and tables.

    Writes pictures, tables and plan.json into a folder. Cables grow where their type does not serve, and are planned
    again. Exit status 1 if a cable has no route or a circuit does not stand; what can be planned is written all the
    same.

    Example: drawcord plan layouts/van/job-garage.yaml --out plan-for-tuesday
    """
    from drawcord.app.folder import write_plan  # noqa: PLC0415 - keeps --help quick
    from drawcord.app.outcome import NO  # noqa: PLC0415

    if not write_plan(job, out, take or [], shop):
        raise SystemExit(NO)
