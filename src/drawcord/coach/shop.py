"""What a shop edits: clearances, labour times, allowances and preferences."""

from dataclasses import dataclass, field
from typing import Annotated, get_args

from pydantic import Field

from drawcord.coach.catalogue import Types
from drawcord.coach.closed import Closed
from drawcord.coach.every import every
from drawcord.coach.history import History
from drawcord.coach.job import Criterion
from drawcord.coach.kinds import AccessKind, HazardKind, ObstacleKind, SpaceKind
from drawcord.coach.parts import Parts
from drawcord.coach.rig import Format, Unit
from drawcord.coach.sharing import Sharing
from drawcord.words.quantity import Fraction, Minutes, NotNegative, Number, Positive, Whole

Weight = Annotated[Number, Field(ge=0, le=1000)]
LOOK = 5 * 60  # s to look at one place, for a shop whose file is older than the question


class Clearances(Closed):
    """Distances kept, and the tolerances of the sketch."""

    format: Format
    units: Unit = None
    contact: NotNegative = Field(description="Two spaces this far apart sideways share a wall.")
    moving: NotNegative = Field(description="Kept around the volume a moving part sweeps.")
    roof_edge: NotNegative = Field(description="Kept from the edge of the roof.")
    stack_cap: Positive = Field(description="Width of a stack's roof cap beyond its pipe, on each side.")
    flange: Positive = Field(description="Width of the square flange of a roof entry.")
    measuring_error: NotNegative = Field(description="How far off a place taken from outside may be, and each leg.")
    working_room: NotNegative = Field(description="Kept between a hole and the faces around it, where there is room.")
    arm: Positive = Field(description="How far a hand reaches in through an opening.")
    hazards: Annotated[dict[HazardKind, NotNegative], every(HazardKind)] = Field(
        description="Kept around hot or dangerous things, by kind."
    )
    roof_obstacles: Annotated[dict[ObstacleKind, NotNegative], every(ObstacleKind)] = Field(
        description="Kept around roof obstacles, by kind."
    )
    plug: NotNegative = Field(description="Added to the largest plug's diameter for the hole it has to pass.")
    hole: NotNegative = Field(description="Kept between a hole and framing, tanks, ducts, lines and wiring.")


class Labour(Closed):
    """Minutes of work."""

    format: Format
    roof_hole: Minutes = Field(description="Cut, seal and fit one roof entry.")
    inner_hole: Minutes = Field(description="Bore one inner hole, with grommet.")
    opening: Minutes = Field(description="Lead through an opening that exists.")
    metre: Annotated[dict[SpaceKind, Minutes], every(SpaceKind)] = Field(
        description="Run and fix one metre of cable, by kind of space."
    )
    access: Annotated[dict[AccessKind, Minutes], every(AccessKind)] = Field(
        description="Open and close one way in, by kind."
    )
    no_access: Minutes = Field(description="Work blind in a space that has no way in.")
    terminal: Minutes = Field(description="Make up one end.")
    looking: Annotated[dict[SpaceKind, Minutes], every(SpaceKind)] = Field(
        default_factory=lambda: dict.fromkeys(get_args(SpaceKind), LOOK),
        description="Look whether one space is clear, once it is open, by kind of space.",
    )
    probing: Minutes = Field(LOOK, description="Probe whether one passage is clear, once a space beside it is open.")


class Allowances(Closed):
    """Cable added to the measured length, each as [low, likely, high]."""

    format: Format
    units: Unit = None
    make_up: tuple[NotNegative, NotNegative, NotNegative] = Field(
        description="At each end, inside the device; a device on the cable makes two ends more."
    )
    drip_loop: tuple[NotNegative, NotNegative, NotNegative] = Field(description="At each roof entry.")
    service_loop: tuple[NotNegative, NotNegative, NotNegative] = Field(description="Once, near the lower end.")
    unproven: tuple[Fraction, Fraction, Fraction] = Field(
        description="Of the length of legs in unproven spaces, and of no others."
    )


class Preferences(Closed):
    """What a unit of each criterion is worth, and how far to look."""

    format: Format
    weights: Annotated[dict[Criterion, Weight], every(Criterion)] = Field(
        description="In metres of cable: a metre, a metre in sight, a hole, a minute, a whole unit (neper) of doubt."
    )
    chance_clear: Fraction = Field(description="Taken for an unproven space or passage that states none.")
    length_times: Weight = Field(description="Candidates are no longer than this many times the shortest.")
    holes_more: Annotated[Whole, Field(ge=0, le=20)] = Field(
        description="And have no more holes than this beyond the fewest."
    )
    minutes_times: Weight = Field(description="And take no longer than this many times the least work.")
    most_labels: Annotated[Whole, Field(ge=100, le=10_000_000)] = Field(
        description="How many partial routes the exact search may keep before it works to a tolerance."
    )
    shown: Annotated[Whole, Field(ge=1, le=50)] = Field(description="How many of the efficient set are shown.")
    descents: Annotated[Whole, Field(ge=1, le=50)] = Field(description="How many different descents to look for.")


@dataclass(frozen=True)
class Shop:
    """The shop's files, read together; the types are empty and `parts` None for a shop that has none.

    `history` is the shop's own of the rig at hand, from the log beside it.
    """

    clearances: Clearances
    labour: Labour
    allowances: Allowances
    preferences: Preferences
    sharing: Sharing
    types: Types = field(default_factory=Types)
    parts: Parts | None = None
    history: History = field(default_factory=History)
