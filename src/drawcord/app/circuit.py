"""`drawcord circuit`: conductors, protection and readings of every power cable on its route."""

from drawcord.app.arguments import AsJson, JobFile, ShopFolder

NAME = "circuit"


def command(job: JobFile, *, shop: ShopFolder = None, json: AsJson = False) -> None:
    """Work out conductors and protection.

    Shows section, device, drop and readings of each power cable on its winning route, with the working.
    Exit status 1 if no cable or device serves a circuit.

    Example: drawcord circuit layouts/van/job-garage.yaml
    """
    from drawcord.app.answers import inputs  # noqa: PLC0415 - keeps --help quick
    from drawcord.app.circuits import sized_of  # noqa: PLC0415
    from drawcord.app.outcome import NO  # noqa: PLC0415
    from drawcord.app.printing import say, say_json  # noqa: PLC0415

    loaded, planned = sized_of(job, shop)
    found = planned.circuits
    if json:
        from drawcord.sheets.circuit_report import circuits_document  # noqa: PLC0415
        from drawcord.sheets.report import finding_document  # noqa: PLC0415

        notices = [finding_document(one) for one in loaded.coach.findings]
        say_json(circuits_document(loaded.coach, found, inputs(loaded)) | {"notices": notices})
    else:
        from drawcord.sheets.circuit_spoken import circuits_text  # noqa: PLC0415
        from drawcord.sheets.spoken import log_text  # noqa: PLC0415

        say(circuits_text(loaded.coach, found))
        if past := log_text(loaded.coach):
            say(past)
    if not found.whole:
        raise SystemExit(NO)
