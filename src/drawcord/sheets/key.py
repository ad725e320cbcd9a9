"""Numbers for spaces and letters for things, so that drawings carry tags and names stand in a list beside."""

from dataclasses import dataclass
from string import ascii_lowercase

from drawcord.coach.coach import Coach, Moving, Space, Thing
from drawcord.coach.kinds import NATURE, SpaceKind


@dataclass(frozen=True)
class Key:
    """The tag of each space and of each moving part, obstacle, hazard and obstruction, by id."""

    spaces: dict[str, str]
    things: dict[str, str]


def key_of(coach: Coach) -> Key:
    """Spaces are numbered from the front aft, then from left to right and upwards; the roof needs no number.

    Things are lettered in the order of the sketch's sections. The cap of a stack carries its stack's number.
    """
    inside = (space for space in coach.spaces.values() if space.kind != "roof")
    ordered = sorted(inside, key=lambda s: (s.box.x0, s.box.y0, s.box.z0, s.id))
    spaces = {space.id: str(number) for number, space in enumerate(ordered, start=1)}
    sections = (coach.moving_parts, coach.obstacles, coach.hazards, coach.obstructions)
    lettered = [name for section in sections for name in section if name not in spaces]
    things = {name: _letters(index) for index, name in enumerate(lettered)}
    return Key(spaces, things | {name: spaces[name] for name in coach.obstacles if name in spaces})


def _letters(index: int) -> str:
    """The letters a, b and on, then aa, ab and on, without those that are taken for figures."""
    letters = [letter for letter in ascii_lowercase if letter not in "ilo"]
    more, last = divmod(index, len(letters))
    return (_letters(more - 1) if more else "") + letters[last]


def listed(space: Space, key: Key) -> str:
    """A space's name as the list gives it: with why no cable runs there, or what is not proven."""
    remark = "unproven" if space.standing == "unproven" else ""
    if space.moving:
        remark = f"on {key.things[space.moving]}"
    elif space.barred and not NATURE[space.kind].barred:
        remark = space.barred
    return f"{space.id} ({remark})" if remark else space.id


def spaces_by_kind(coach: Coach) -> list[tuple[SpaceKind, list[Space]]]:
    """Each kind of space that the coach has, with its spaces; the roof apart."""
    found: list[tuple[SpaceKind, list[Space]]] = []
    for kind in NATURE:
        spaces = [space for space in coach.spaces.values() if space.kind == kind and kind != "roof"]
        if spaces:
            found.append((kind, spaces))
    return found


def things_by_section(coach: Coach, key: Key) -> list[tuple[str, list[tuple[str, str, str]]]]:
    """The things that have a letter of their own as (letter, id, kind), under a heading a section."""
    sections: dict[str, dict[str, Moving] | dict[str, Thing]] = {
        "moving parts": coach.moving_parts,
        "on the roof": coach.obstacles,
        "hot or dangerous": coach.hazards,
        "in the way of holes or cable": coach.obstructions,
    }
    found = []
    for heading, section in sections.items():
        lettered = (thing for thing in section.values() if thing.id not in key.spaces)
        rows = [(key.things[thing.id], thing.id, thing.kind) for thing in lettered]
        if rows:
            found.append((heading, rows))
    return found
