"""`drawcord compare`: the routes of each cable side by side."""

from drawcord.app.arguments import AsJson, JobFile, ShopFolder

NAME = "compare"


def command(job: JobFile, *, shop: ShopFolder = None, json: AsJson = False) -> None:
    """Compare the routes of every cable of a job.

    Shows the winner, the ways that nothing beats, and other descents. Exit status 1 if a cable has no route.

    Example: drawcord compare layouts/van/job-garage.yaml
    """
    from drawcord.app.answers import answers, inputs  # noqa: PLC0415 - keeps --help quick
    from drawcord.app.outcome import NO  # noqa: PLC0415
    from drawcord.app.printing import say, say_json  # noqa: PLC0415
    from drawcord.sheets.report import cautions_of, compare_document  # noqa: PLC0415

    loaded, found = answers(job, shop)
    if json:
        say_json(compare_document(loaded.coach, found, inputs(loaded)))
    else:
        from drawcord.sheets.spoken import cautions_text, compare_text, log_text  # noqa: PLC0415

        for _, answer in found:
            say(compare_text(loaded.coach, answer, loaded.coach.units))
        if past := log_text(loaded.coach):
            say(past)
        say(cautions_text(cautions_of(found)))
    if any(not answer.candidates for _, answer in found):
        raise SystemExit(NO)
