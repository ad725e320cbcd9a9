import json
from pathlib import Path

import pytest

from drawcord.app.answers import inputs
from drawcord.app.circuits import plan_of
from drawcord.sheets.circuit_report import circuits_document
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
        self.shop = {name: read(ROOT / "shared" / f"{name}.yaml") for name in (*SHOP, "cables")}
        loaded, found, plan = plan_of(path, None, [])
        self.ways = found[0][0].ways
        document = plan_document(plan, [order for order, _ in found], inputs(loaded))
        circuits = plan.circuits and circuits_document(loaded.coach, plan.circuits, inputs(loaded))
        del document["together"]  # routes one by one; test_verify_together has plans of them all
        document |= {"circuits": circuits, "job_file": str(path), "shop_folder": str(ROOT / "shared")}
        self.plan = json.loads(json.dumps(document))

    def vehicle(self) -> Vehicle:
        return Vehicle(self.rig, self.job, self.shop)

    def alone(self, cable: str, most: int = 2) -> tuple[dict, Vehicle]:
        """A plan of one cable with its first candidates, as if the job had no other."""
        one = next(one for one in self.plan["cables"] if one["cable"] == cable)
        place = [candidate["id"] for candidate in one["candidates"]].index(self.plan["chosen"][cable])
        offered = one["candidates"][: max(most, place + 1)]
        plan = {**self.plan, "cables": [{**one, "candidates": beside(offered)}]}
        plan["chosen"] = {cable: plan["chosen"][cable]}
        plan.pop("together", None)
        circuits = plan["circuits"] or {"circuits": []}
        own = [circuit for circuit in circuits["circuits"] if circuit["cable"] == cable]
        plan["circuits"] = {**circuits, "circuits": own, "left": {}} if own else None
        return plan, Vehicle(self.rig, {**self.job, "cables": {cable: self.job["cables"][cable]}}, self.shop)


def beside(offered: list[dict]) -> list[dict]:
    """Candidates as they would stand beside each other alone: what each is best at among these.

    One that was made for the joint plan is beside what is offered, and best at nothing.
    """
    names = ["length", "length in sight", "holes through the roof", "inner holes", "work", "doubt"]
    words = ["length", "in sight", "roof holes", "inner holes", "minutes", "doubt"]
    values = [{figure["name"]: figure["value"] for figure in one["figures"]} for one in offered]
    alone = [one["offered_as"] != "together" for one in offered]
    rows = [[value[name] for name in names] for value in values]
    columns = dict(zip(words, zip(*rows, strict=True), strict=True))
    compared = {word: [column[n] for n, among in enumerate(alone) if among] for word, column in columns.items()}
    return [
        {
            **one,
            "best_at": [
                word
                for word, column in columns.items()
                if alone[n] and column[n] == min(compared[word]) < max(compared[word])
            ],
        }
        for n, one in enumerate(offered)
    ]


@pytest.fixture(scope="session")
def cases() -> list[Case]:
    return [Case(path) for path in JOBS]
