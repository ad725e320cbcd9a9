"""What a shop says of small parts: the rules that a plan is counted by, what each costs, and how long it takes."""

from typing import Annotated, Literal

from pydantic import Field

from drawcord.coach.catalogue import Carries
from drawcord.coach.closed import Closed
from drawcord.coach.every import every
from drawcord.coach.kinds import SpaceKind
from drawcord.coach.rig import Format, Skin, Unit
from drawcord.words.quantity import Fraction, Minutes, NotNegative, Number, Positive, Whole

PartKind = Literal[
    "clip",
    "roof clip",
    "raceway",
    "raceway corner",
    "raceway end",
    "loom",
    "label",
    "ferrule",
    "lug",
    "shrink",
    "splice",
    "PV connector",
    "coax connector",
    "data plug",
    "fuse",
    "breaker",
    "switch",
    "fuse holder",
    "bonding conductor",
    "roof entry",
    "gland",
    "grommet",
    "sealant",
    "cleaner",
    "screw",
]
Fixing = Literal["roof clips", "clips", "raceway", "drawn through"]
Money = Annotated[Number, Field(ge=0, le=100_000)]
Few = Annotated[Whole, Field(ge=0, le=100)]


class Spacing(Closed):
    """How far apart a cable is held."""

    every: Positive = Field(description="The most from one clip to the next.")
    source: str = Field(description="Who says so, with edition or section.")


class Part(Closed):
    """What one part costs, one metre of what is sold by length."""

    price: Money = Field(description="Its price, in the shop's currency.")
    minutes: Minutes = Field(
        description="Work it takes beyond what labour.yaml has; `0 min` where that has it in a metre, hole or end."
    )


class Parts(Closed):
    """Rules that turn a plan into parts."""

    format: Format
    units: Unit = None
    clips: Annotated[dict[Carries, Spacing], every(Carries)] = Field(
        description="How far apart clips are, by what a cable carries."
    )
    thick_pv: Spacing = Field(description="The same for PV cable thicker than 8 AWG.")
    free_of_battery: NotNegative = Field(
        description="Battery cable this near to a battery's terminal, along the cable, needs no clip."
    )
    fixing: Annotated[dict[SpaceKind, Fixing], every(SpaceKind)] = Field(
        description="How cable is held in each kind of space."
    )
    spare: Fraction = Field(description="Added to loom and raceway for offcuts.")
    raceway_piece: Positive = Field(description="The length of a piece of raceway.")
    raceway_screws: Positive = Field(description="The most from one screw of a raceway to the next.")
    clip_screws: Few = Field(description="Screws in a clip; clips on the roof are bonded.")
    entry_screws: Few = Field(description="Screws in the flange of a roof entry.")
    studs: list[str] = Field(description="Kinds of equipment whose battery cables end in lugs on studs.")
    shrink: Positive = Field(description="Length of shrink over one lug or splice.")
    bead: Positive = Field(description="Diameter of a bead of sealant.")
    beads: Few = Field(description="Beads once around a roof entry: below its flange and over its edge.")
    dab: Annotated[Number, Field(ge=0, le=100)] = Field(description="Sealant below one roof clip, in millilitres.")
    cartridge: Annotated[Number, Field(ge=1, le=2000)] = Field(description="A cartridge of sealant, in millilitres.")
    cleaner_entry: Annotated[Number, Field(ge=0, le=1000)] = Field(
        description="Cleaner for one roof entry, in millilitres."
    )
    cleaner_clip: Annotated[Number, Field(ge=0, le=1000)] = Field(
        description="Cleaner for one roof clip, in millilitres."
    )
    seals: Annotated[dict[Skin, str], every(Skin)] = Field(description="The sealant that suits each skin of a roof.")
    gland_wall: NotNegative = Field(
        description="Thickness of a gland's body within its thread: what is left has to pass the cores."
    )
    largest_bit: Positive = Field(description="The largest hole bored with a drill bit; beyond it a hole saw.")
    saw_shank: Positive = Field(description="The shank of the hole saws' arbor.")
    pilot: Positive = Field(description="The pilot hole bored before a hole saw.")
    hour: Money = Field(description="What an hour of work costs.")
    trip: Minutes = Field(description="The time that a second trip takes, there and back.")
    trip_price: Money = Field(description="What a second trip costs besides the time.")
    parts: Annotated[dict[PartKind, Part], every(PartKind)] = Field(
        description="What each kind of part costs and how long it takes."
    )
