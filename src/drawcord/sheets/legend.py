"""What stands beside the drawings: signs, spaces with their numbers, things with their letters."""

from drawcord.coach.coach import Coach
from drawcord.sheets import marks, style
from drawcord.sheets.cable import UPRIGHT
from drawcord.sheets.flow import COLUMN
from drawcord.sheets.key import Key, listed, spaces_by_kind, things_by_section
from drawcord.sheets.listing import Listing, sample, stroke, symbols
from drawcord.sheets.segments import Flat
from drawcord.sheets.style import LOOKS

SIZES = (7.5, 7.0, 6.5, style.SMALL)  # of type; the largest with which all fits is taken


def legend(coach: Coach, key: Key, area: Flat, *, route: bool) -> Listing:
    """The key for an area of this width and height [mm] in the largest type with which it fits, else the smallest.

    `route` asks for the signs of a route too.
    """
    for size in SIZES:
        listing = Listing(min(area[0], COLUMN), size)
        _signs(listing, route=route)
        _spaces(listing, coach, key)
        _things(listing, coach, key)
        if listing.height <= area[1]:
            break
    return listing


def _signs(listing: Listing, *, route: bool) -> None:
    listing.head("Signs")
    if route:
        listing.sign(stroke(style.CABLE_WIDTH, "-"), "cable, with the number of its leg")
        listing.sign(stroke(0.8, style.SEEN_THROUGH), "cable on another level or side")
        listing.sign(symbols(UPRIGHT), "cable going straight up or down")
        listing.sign(symbols(*marks.ROOF_HOLE), "H1: hole through the roof")
        listing.sign(symbols(*marks.INNER_HOLE), "H1: hole inside")
        listing.sign(symbols(*marks.JOINED), "J1: joint between two pieces")
        listing.sign(symbols(*marks.START), "where the cable starts")
        listing.sign(symbols(*marks.END), "where it ends")
    listing.sign(sample(style.DOOR), "door")
    listing.sign(sample(style.WINDOW), "window")
    listing.sign(sample(style.PARTITION), "partition")
    listing.sign(sample(style.hung(LOOKS["cabinet"])), "in the cabin: hangs above the counter")
    listing.sign(sample(style.GHOST), "on the roof: floor to ceiling below")
    listing.sign(sample(style.DRAWN), "moving part where it is drawn")
    listing.sign(sample(style.MOVED), "where it moves")
    listing.sign(sample(style.SWEEP), "swept by it: no cable")
    listing.sign(sample(style.WAY_IN), "way to reach in")
    listing.sign(sample(style.OBSTACLE), "obstacle on the roof")
    listing.sign(sample(style.HAZARD), "hot or dangerous")
    listing.sign(sample(style.KEEP), "clearance to keep")
    listing.sign(sample(style.OBSTRUCTION), "framing, tank, line, axle …")


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
