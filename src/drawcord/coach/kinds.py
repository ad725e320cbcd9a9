"""What each kind of space is by nature. To add a kind: its name below, one row, one tint in sheets/style."""

from typing import Literal, NamedTuple

SpaceKind = Literal[
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
]
Zone = Literal["sun", "indoors", "wet and stony"]
Face = Literal["forward", "aft", "street", "curb", "left", "right", "up", "down"]
Standing = Literal["proven", "unproven", "blocked"]
HazardKind = Literal["appliance flue", "burner", "exhaust", "gas line", "fuel filler", "water heater"]
ObstacleKind = Literal["vent", "air conditioner", "skylight", "hatch", "antenna", "rail", "module"]
AccessKind = Literal["cabinet door", "removable panel", "bay hatch"]


class Nature(NamedTuple):
    """What a space of a kind is unless the sketch says otherwise.

    Its zone, whether it is hidden until somebody opens it (and so may hold no joint), whether cable is barred from it,
    the height it spans, what its `door` is, and how a leg in it is covered.
    """

    zone: Zone
    hidden: bool
    barred: bool
    rise: tuple[str, str] | None
    opened_by: AccessKind
    cover: str


NATURE: dict[SpaceKind, Nature] = {
    "roof": Nature(
        "sun",
        hidden=False,
        barred=False,
        rise=None,
        opened_by="removable panel",
        cover="roof clips, in the sun",
    ),
    "room": Nature(
        "indoors",
        hidden=False,
        barred=False,
        rise=("floor", "ceiling"),
        opened_by="removable panel",
        cover="surface raceway, in sight",
    ),
    "cabinet": Nature(
        "indoors",
        hidden=False,
        barred=False,
        rise=None,
        opened_by="cabinet door",
        cover="clipped inside the cabinet",
    ),
    "chase": Nature(
        "indoors",
        hidden=True,
        barred=False,
        rise=None,
        opened_by="removable panel",
        cover="drawn through the chase",
    ),
    "vent stack": Nature(
        "indoors",
        hidden=True,
        barred=False,
        rise=None,
        opened_by="removable panel",
        cover="drawn beside the vent pipe",
    ),
    "appliance vent": Nature(
        "indoors",
        hidden=True,
        barred=False,
        rise=None,
        opened_by="removable panel",
        cover="clipped inside the appliance vent",
    ),
    "panel wall": Nature(
        "indoors",
        hidden=True,
        barred=False,
        rise=("floor", "ceiling"),
        opened_by="removable panel",
        cover="drawn through the hollow wall",
    ),
    "void": Nature(
        "indoors",
        hidden=True,
        barred=False,
        rise=None,
        opened_by="removable panel",
        cover="drawn through the void",
    ),
    "bay": Nature(
        "indoors",
        hidden=False,
        barred=False,
        rise=("bay", "belly"),
        opened_by="bay hatch",
        cover="clipped inside the bay",
    ),
    "gas locker": Nature(
        "indoors",
        hidden=False,
        barred=True,
        rise=("bay", "belly"),
        opened_by="bay hatch",
        cover="none: no cable may run here",
    ),
    "underfloor": Nature(
        "wet and stony",
        hidden=False,
        barred=False,
        rise=None,
        opened_by="removable panel",
        cover="loom, clipped under the floor",
    ),
}
