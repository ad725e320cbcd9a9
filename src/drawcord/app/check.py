"""`drawcord check`: is a file right, and is there anything worth saying about it."""

from pathlib import Path

from drawcord.app.arguments import AsJson, RigOrJobFile, ShopFolder

NAME = "check"


def command(file: RigOrJobFile, *, shop: ShopFolder = None, json: AsJson = False) -> None:
    """Say what is wrong with a rig or a job.

    Everything wrong comes with file, line and column, and so does what is worth a second look.

    Example: drawcord check layouts/van/rig.yaml
    """
    from drawcord.app.printing import say, say_json  # noqa: PLC0415 - keeps --help quick
    from drawcord.files.load import load_ways  # noqa: PLC0415

    loaded, ways = load_ways(file, shop)
    coach = loaded.coach
    notices = [(finding, *loaded.at(finding.place)) for finding in coach.findings]
    moving = [space for space in coach.spaces.values() if space.moving]
    if json:
        say_json(
            {
                "format": 1,
                "file": file.name,
                "rig": coach.rig.rig,
                "spaces": len(coach.spaces),
                "passages": len(ways.passages),
                "moving": {space.id: space.moving for space in moving},
                "notices": [
                    {
                        "severity": finding.severity.name.lower(),
                        "place": finding.place,
                        "sentence": finding.sentence,
                        "file": Path(path).name,
                        "line": line,
                        "column": column,
                    }
                    for finding, path, line, column in notices
                ],
            }
        )
        return
    say(f"{file}: {coach.rig.name}: {len(coach.spaces)} spaces, {len(ways.passages)} passages, nothing wrong.")
    for space in moving:
        say(f"  {space.id} moves with {space.moving}, or lies in its way: no cable there")
    for finding, path, line, column in notices:
        say(f"  {path}:{line}:{column}: {finding.severity.name.lower()}: {finding.sentence}")
