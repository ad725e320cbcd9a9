import json
from functools import cache
from pathlib import Path

import pytest

from drawcord.app.answers import answers, inputs
from drawcord.coach.lacking import lacking
from drawcord.files.load import load
from drawcord.plan.choose import choose
from drawcord.plan.plan import Plan
from drawcord.sheets.circuit_report import circuits_document
from drawcord.sheets.report import plan_document
from drawcord.verify import circuits, verify
from drawcord.verify.read import read
from drawcord.verify.vehicle import Vehicle
from planned import sized

ROOT = Path(__file__).parents[2]
JOBS = sorted((ROOT / "layouts").glob("*/job-*.yaml"))


@cache
def shop() -> dict:
    """The shop's files as the checker reads them."""
    return {name: read(ROOT / "shared" / f"{name}.yaml") for name in (*verify.SHOP, *verify.MORE)}


class Case:
    """A demo job: its files as the checker reads them, and the plan that drawcord makes of it, cable by cable.

    Plans of all cables together are the matter of test_verify_together and of tests/plan.
    """

    def __init__(self, path: Path) -> None:
        self.path = path
        self.job = read(path)
        self.rig = read(path.parent / self.job["rig"])
        self.shop = shop()
        if lacking(load(path).coach.job):
            loaded, found = answers(path, None)
            plan, sheet = choose(loaded.coach, [answer for _, answer in found], []), None
            self.ways = found[0][0].ways
        else:
            loaded, done = sized(f"{path.parent.name}/{path.stem}")
            found = done.compared
            plan = Plan(done.coach, tuple(answer for _, answer in found), done.chosen)
            sheet = circuits_document(done.coach, done.circuits, inputs(loaded))
            self.ways = found[0][0].ways
        document = plan_document(plan, [order for order, _ in found], inputs(loaded))
        del document["together"]
        document |= {"circuits": sheet, "job_file": str(path), "shop_folder": str(ROOT / "shared")}
        self.plan = json.loads(json.dumps(document))

    def vehicle(self) -> Vehicle:
        return Vehicle(self.rig, self.job, self.shop)

    def few(self, most: int = 2) -> dict:
        """The plan with the first candidates of each cable alone, and the chosen one."""
        cables = [{**one, "candidates": beside(self._first(one, most))} for one in self.plan["cables"]]
        return {**self.plan, "cables": cables}

    def alone(self, cable: str, most: int = 2) -> tuple[dict, Vehicle]:
        """A plan of one cable with its first candidates, as if the job had no other and ordered it as it came out."""
        job = {**self.job, "cables": {cable: circuits.ordered(self.vehicle(), self.plan)[cable]}}
        one = next(one for one in self.plan["cables"] if one["cable"] == cable)
        plan = {**self.plan, "cables": [{**one, "candidates": beside(self._first(one, most))}], "circuits": None}
        return {**plan, "chosen": {cable: self.plan["chosen"][cable]}}, Vehicle(self.rig, job, self.shop)

    def _first(self, one: dict, most: int) -> list[dict]:
        ids = [candidate["id"] for candidate in one["candidates"]]
        place = ids.index(self.plan["chosen"][one["cable"]]) if ids else 0
        return one["candidates"][: max(most, place + 1)]


def beside(offered: list[dict]) -> list[dict]:
    """Candidates as they would stand beside each other alone: what each is best at among these."""
    names = ["length", "length in sight", "holes through the roof", "inner holes", "work", "doubt"]
    words = ["length", "in sight", "roof holes", "inner holes", "minutes", "doubt"]
    values = [{figure["name"]: figure["value"] for figure in one["figures"]} for one in offered]
    rows = [[value[name] for name in names] for value in values]
    columns = dict(zip(words, zip(*rows, strict=True), strict=True)) if rows else {}
    best = [
        [word for word, column in columns.items() if column[n] == min(column) < max(column)] for n in range(len(rows))
    ]
    return [{**one, "best_at": at} for one, at in zip(offered, best, strict=True)]


@pytest.fixture(scope="session")
def cases() -> list[Case]:
    return [Case(path) for path in JOBS]


@pytest.fixture
def quick(monkeypatch):
    """The checker remembers what it found of a cable or circuit while the very same one is asked for again.

    Both are checked by functions of nothing but their arguments, and `put` shares what a change leaves as it is.
    """

    def remembering(of, key):
        known = {}

        def again(*arguments):
            found = key(*arguments)
            if found not in known:
                known[found] = of(*arguments), arguments  # the arguments live on, so no id comes twice
            return known[found][0]

        return again

    cable = remembering(verify.cable, lambda vehicle, name, its, said: (id(vehicle), name, repr(its), id(said)))
    circuit = remembering(
        circuits.circuit, lambda sizing: (id(sizing.said), id(sizing.route.said), repr(sizing.purpose), sizing.rules)
    )
    monkeypatch.setattr(verify, "cable", cable)
    monkeypatch.setattr(circuits, "circuit", circuit)
