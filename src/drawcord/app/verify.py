"""`drawcord verify`: a plan held against the files that it was made from, by a checker of its own."""

from pathlib import Path
from typing import Annotated

import typer

NAME = "verify"
PlanFile = Annotated[Path, typer.Argument(metavar="PLAN.json", help="The plan.json to check.", show_default=False)]


def command(plan: PlanFile) -> None:
    """Check a plan from its coordinates up.

    Shares nothing with the planner: it reads the rig, the job and the shop's files itself. Exit status 1 with each
    fault in a sentence if the plan breaks a rule or contradicts itself.

    Example: drawcord verify plan-for-tuesday/plan.json
    """
    from drawcord.app.outcome import NO  # noqa: PLC0415 - keeps --help quick
    from drawcord.app.printing import say  # noqa: PLC0415
    from drawcord.verify.read import Unreadable  # noqa: PLC0415
    from drawcord.verify.verify import verify  # noqa: PLC0415
    from drawcord.words.faults import BadInput, Problem  # noqa: PLC0415

    try:
        faults = verify(plan)
    except Unreadable as error:
        raise BadInput([Problem((), str(error))]) from error
    for fault in faults:
        say(fault)
    if faults:
        raise SystemExit(NO)
    say(f"{plan}: nothing wrong was found. Only what its files say was checked, not the vehicle.")
