"""`drawcord look`: where to look first, and what each outcome means."""

from drawcord.app.arguments import AsJson, JobFile, ShopFolder

NAME = "look"


def command(job: JobFile, *, shop: ShopFolder = None, json: AsJson = False) -> None:
    """Say where to look before work starts.

    The order in which to open, probe and look, when to stop, and the fallback for each outcome.

    Example: drawcord look layouts/van/job-garage.yaml
    """
    from drawcord.app.answers import inputs  # noqa: PLC0415 - keeps --help quick
    from drawcord.app.circuits import plan_of  # noqa: PLC0415
    from drawcord.app.printing import say, say_json  # noqa: PLC0415
    from drawcord.plan.card import card  # noqa: PLC0415

    loaded, compared, plan = plan_of(job, shop, [])
    found = card(plan, [order for order, _ in compared])
    if json:
        from drawcord.sheets.look_report import look_document  # noqa: PLC0415

        say_json(look_document(loaded.coach, found, inputs(loaded)))
    else:
        from drawcord.sheets.look_spoken import look_text  # noqa: PLC0415
        from drawcord.sheets.report import cautions_of  # noqa: PLC0415
        from drawcord.sheets.spoken import cautions_text  # noqa: PLC0415

        say(look_text(found, loaded.coach.units))
        say("\n" + cautions_text(cautions_of(compared, plan.circuits)))
