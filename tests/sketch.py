"""Small rigs and jobs as plain data, the way a person writes them, and the coaches they make.

The shell is 6000 x 2500 mm with walls of 50 mm: sides are measured from y = 50 and y = 2450. Its floor
is 60 mm thick, its ceiling at 2000 mm, its roof at 2060 mm. The shop is fixed here, so that no edit in
`shared/` moves a test.
"""

from typing import Any, TypeVar, get_args

from pydantic import BaseModel

from drawcord.coach.build import build
from drawcord.coach.coach import Coach
from drawcord.coach.job import Job
from drawcord.coach.rig import Rig
from drawcord.coach.sharing import Pair, Sharing
from drawcord.coach.shop import Allowances, Clearances, Labour, Preferences, Shop
from drawcord.words.faults import BadInput, Problem

Data = dict[str, Any]
Model = TypeVar("Model", bound=BaseModel)

SHELL: Data = {
    "length": 6000,
    "width": 2500,
    "wall": 50,
    "floor thickness": 60,
    "ceiling": 2000,
    "roof": 2060,
    "bay": -700,
    "ground": -1000,
    "roof skin": "aluminium",
}
LABOUR: Data = {
    "format": 1,
    "roof hole": "25 min",
    "inner hole": "10 min",
    "opening": "2 min",
    "terminal": "8 min",
    "no access": "15 min",
    "metre": dict.fromkeys(
        (
            "roof",
            "room",
            "cabinet",
            "chase",
            "vent stack",
            "appliance vent",
            "panel wall",
            "void",
            "bay",
            "gas locker",
            "underfloor",
        ),
        "3 min",
    ),
    "access": {"cabinet door": "1 min", "removable panel": "8 min", "bay hatch": "2 min"},
}
CLEARANCES: Data = {
    "format": 1,
    "units": "mm",
    "contact": 75,
    "moving": 40,
    "roof edge": 50,
    "stack cap": 60,
    "flange": 110,
    "measuring error": 10,
    "arm": 600,
    "working room": "20 mm",
    "plug": 2,
    "hole": 25,
    "hazards": {
        "appliance flue": 150,
        "burner": 150,
        "exhaust": 150,
        "gas line": 50,
        "fuel filler": 300,
        "water heater": 100,
    },
    "roof obstacles": {
        "vent": 50,
        "air conditioner": 100,
        "skylight": 80,
        "hatch": 80,
        "antenna": 50,
        "rail": 20,
        "module": 20,
    },
}
ALLOWANCES: Data = {
    "format": 1,
    "units": "mm",
    "make up": [200, 300, 400],
    "drip loop": [80, 120, 150],
    "service loop": [200, 300, 500],
    "unproven": ["0 %", "8 %", "20 %"],
}
PREFERENCES: Data = {
    "format": 1,
    "weights": {"length": 1, "in sight": 6, "roof holes": 4, "inner holes": 1.5, "minutes": 0.1, "doubt": 6},
    "chance clear": "60 %",
    "length times": 1.5,
    "holes more": 2,
    "minutes times": 2,
    "most labels": 200000,
    "shown": 7,
    "descents": 5,
}
SHARING: Data = {  # like runs with like, and nothing with anything else; all may cross
    "format": 1,
    "pairs": {
        pair: {
            **dict.fromkeys(("together", "box", "raceway"), len(set(pair.split(" with "))) == 1),
            "cross": True,
            "source": "the tests",
        }
        for pair in get_args(Pair)
    },
}
CABLE: Data = {
    "class": "data",
    "cores": 8,
    "outside diameter": 6,
    "smallest bend": 30,
    "largest plug": 20,
    "longest piece": 20000,
}


def rig_data(spaces: Data, *, keeps: str = "right", outside: Data | None = None, **sections: Any) -> Data:
    """A rig file's contents; sections are named with underscores."""
    return {
        "format": 1,
        "rig": "sketch",
        "name": "Sketch",
        "units": "mm",
        "traffic keeps": keeps,
        "shell": {**SHELL, **(outside or {})},
        "spaces": spaces,
        **{name.replace("_", " "): section for name, section in sections.items()},
    }


def job_data(equipment: Data, cables: dict[str, tuple[str, str] | Data], **sections: Any) -> Data:
    """A job file's contents; a cable given by its two ends is a plain data cable."""
    return {
        "format": 1,
        "job": "order",
        "name": "Order",
        "units": "mm",
        "rig": "rig.yaml",
        "equipment": equipment,
        "cables": {
            name: {**CABLE, "from": cable[0], "to": cable[1]} if isinstance(cable, tuple) else {**CABLE, **cable}
            for name, cable in cables.items()
        },
        "temperatures": {"coldest": "-20 °C", "hottest": "45 °C"},
        **sections,
    }


def shop(**clearances: int) -> Shop:
    """The shop of these tests, with some of its clearances [mm] replaced."""
    changed = {name.replace("_", " "): value for name, value in clearances.items()}
    return Shop(
        clearances=model(Clearances, {**CLEARANCES, **changed}),
        labour=model(Labour, LABOUR),
        allowances=model(Allowances, ALLOWANCES),
        preferences=model(Preferences, PREFERENCES),
        sharing=model(Sharing, SHARING),
    )


def model(of: type[Model], data: Data) -> Model:
    """A model of plain data, as reading a file that states `units: mm` makes it."""
    return of.model_validate(data, context={"unit": "mm"}, by_alias=True, by_name=False)


def coach_of(rig: Data, job: Data | None = None, of: Shop | None = None) -> Coach:
    """The coach of a rig's and a job's contents. Raises BadInput."""
    return build(model(Rig, rig), model(Job, job) if job else None, of or shop())


def problems_of(rig: Data, job: Data | None = None) -> tuple[Problem, ...]:
    """What is wrong with a coach; empty if nothing is."""
    try:
        coach_of(rig, job)
    except BadInput as error:
        return error.problems
    return ()


def behind_a_panel(cable: Data, devices: Data) -> Coach:
    """A battery at 3900 mm and a load at 1100 mm in one long cabinet, a cable between them, one panel to reach in."""
    spot = {"in": "tall", "street": 250, "up": 500, "terminals": {"dc": None}}
    equipment = {
        "battery": {"kind": "battery", "from front": 3900, **spot},
        "load": {"kind": "inverter", "from front": 1100, **spot},
    }
    cabinet = {"kind": "cabinet", "from front": "1000..4000", "street": 600, "up": "floor..ceiling"}
    panel = {"into": "tall", "kind": "removable panel", "face": "curb", "from front": "1500..1800"}
    rig = rig_data({"tall": cabinet}, access={"panel": panel})
    supply = {**cable, "from": "battery.dc", "to": "load.dc"}
    return coach_of(rig, job_data(equipment, {"supply": supply}, devices=devices))
