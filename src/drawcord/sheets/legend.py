"""What stands beside the drawings: signs, spaces with their numbers, things with their letters."""

from drawcord.coach.coach import Coach
from drawcord.sheets import style
from drawcord.sheets.flow import COLUMN
from drawcord.sheets.key import Key, listed, spaces_by_kind, things_by_section
from drawcord.sheets.listing import Draw, Listing, sample
from drawcord.sheets.scene import Scene
from drawcord.sheets.segments import Flat
from drawcord.sheets.style import LOOKS

SIZES = (7.5, 7.0, 6.5, style.SMALL)  # of type; the largest with which all fits is taken


def legend(scene: Scene, key: Key, area: Flat) -> Listing:
    """The key for an area of this width and height [mm] in the largest type with which it fits, else the smallest.

    The scene's own signs come first.
    """
    for size in SIZES:
        listing = Listing(min(area[0], COLUMN), size)
        _signs(listing, scene)
        _spaces(listing, scene.coach, key)
        _things(listing, scene.coach, key)
        if listing.height <= area[1]:
            break
    return listing


def _signs(listing: Listing, scene: Scene) -> None:
    """The signs that this drawing has."""
    coach = scene.coach
    signs: list[tuple[object, Draw, str]] = [
        *((True, draw, meaning) for draw, meaning in scene.signs),
        (coach.doors, sample(style.DOOR), "door"),
        (coach.windows, sample(style.WINDOW), "window"),
        (coach.partitions, sample(style.PARTITION), "partition"),
        (True, sample(style.hung(LOOKS["cabinet"])), "in the cabin: hangs above the counter"),
        (True, sample(style.GHOST), "on the roof: floor to ceiling below"),
        (coach.moving_parts, sample(style.DRAWN), "moving part where it is drawn"),
        (coach.moving_parts, sample(style.MOVED), "where it moves"),
        (coach.moving_parts, sample(style.SWEEP), "swept by it: no cable"),
        (coach.openings, sample(style.WAY_IN), "way to reach in"),
        (coach.obstacles, sample(style.OBSTACLE), "obstacle on the roof"),
        (coach.hazards, sample(style.HAZARD), "hot or dangerous"),
        (coach.hazards or coach.obstacles, sample(style.KEEP), "clearance to keep"),
        (coach.obstructions, sample(style.OBSTRUCTION), "framing, tank, line, axle …"),
    ]
    listing.head("Signs")
    for shown, draw, meaning in signs:
        if shown:
            listing.sign(draw, meaning)


def _spaces(listing: Listing, coach: Coach, key: Key) -> None:
    listing.head("Spaces")
    for kind, spaces in spaces_by_kind(coach):
        listing.sign(sample(LOOKS[kind]), kind, bold=True)
        items = [(key.spaces[space.id], listed(space, key)) for space in spaces]
        listing.items(sorted(items, key=lambda item: int(item[0])))


def _things(listing: Listing, coach: Coach, key: Key) -> None:
    for title, rows in things_by_section(coach, key):
        listing.head(title.capitalize())
        listing.items([(tag, name) for tag, name, _ in rows])
