import json
from pathlib import Path

import pytest

from drawcord.app.answers import answers, inputs
from drawcord.plan.choose import choose
from drawcord.sheets.report import plan_document
from drawcord.verify.read import read
from drawcord.verify.vehicle import Vehicle
from drawcord.verify.verify import SHOP

ROOT = Path(__file__).parents[2]
JOBS = sorted((ROOT / "layouts").glob("*/job-*.yaml"))


class Case:
    """A demo job: its files as the checker reads them, and the plan that drawcord makes of it."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self.job = read(path)
        self.rig = read(path.parent / self.job["rig"])
        self.shop = {name: read(ROOT / "shared" / f"{name}.yaml") for name in SHOP}
        loaded, found = answers(path, None)
        plan = choose(loaded.coach, [answer for _, answer in found], [])
        self.ways = found[0][0].ways
        document = plan_document(plan, [order for order, _ in found], inputs(loaded), str(path), str(ROOT / "shared"))
        self.plan = json.loads(json.dumps(document))

    def vehicle(self) -> Vehicle:
        return Vehicle(self.rig, self.job, self.shop)

    def alone(self, cable: str, most: int = 2) -> tuple[dict, Vehicle]:
        """A plan of one cable with its first candidates, as if the job had no other."""
        one = next(one for one in self.plan["cables"] if one["cable"] == cable)
        offered = one["candidates"][:most]
        plan = {**self.plan, "cables": [{**one, "candidates": beside(offered)}]}
        plan["chosen"] = {cable: one["candidates"][0]["id"]}
        return plan, Vehicle(self.rig, {**self.job, "cables": {cable: self.job["cables"][cable]}}, self.shop)


def beside(offered: list[dict]) -> list[dict]:
    """Candidates as they would stand beside each other alone: what each is best at among these."""
    names = ["length", "length in sight", "holes through the roof", "inner holes", "work", "doubt"]
    words = ["length", "in sight", "roof holes", "inner holes", "minutes", "doubt"]
    values = [{figure["name"]: figure["value"] for figure in one["figures"]} for one in offered]
    rows = [[value[name] for name in names] for value in values]
    columns = dict(zip(words, zip(*rows, strict=True), strict=True))
    return [
        {**one, "best_at": [word for word, column in columns.items() if column[n] == min(column) < max(column)]}
        for n, one in enumerate(offered)
    ]


@pytest.fixture(scope="session")
def cases() -> list[Case]:
    return [Case(path) for path in JOBS]
