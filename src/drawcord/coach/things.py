"""Roof obstacles, hazards, obstructions, and what lies in walls."""

from drawcord.coach.box import Box
from drawcord.coach.coach import Thing
from drawcord.coach.laying import Laying
from drawcord.coach.place import Place
from drawcord.coach.rig import Hazard, Obstruction, RoofObstacle
from drawcord.words.quantity import Height

HIGH = 150  # mm: how far a roof obstacle stands up where the sketch does not say
ON_ROOF = (Height("roof", 0), Height("roof", HIGH))


def obstacles(laying: Laying) -> dict[str, Thing]:
    """What stands on the roof, the caps of stacks and appliance vents included."""
    clear = laying.shop.clearances
    found: dict[str, Thing] = {}
    for name, obstacle in laying.layered.section("roof_obstacles", RoofObstacle):
        if box := laying.box(name, obstacle, laying.roof_frame, ON_ROOF):
            usual = clear.roof_obstacles[obstacle.kind]
            grow = usual if obstacle.clearance is None else obstacle.clearance
            found[name] = Thing(name, obstacle.kind, box, box.grow(grow, grow, 0))
    for name, entry in laying.written.items():
        width = entry.cap or (entry.pipe + 2 * clear.stack_cap if entry.pipe else 0)
        space = laying.boxes.get(name)
        if width and space and space.z1 >= laying.levels.at("ceiling", space.x0, space.x1):
            roof = laying.levels.roof
            box = laying.pipe(name, width)._replace(z0=roof, z1=roof + HIGH)
            grow = clear.roof_obstacles["vent"]
            found[name] = Thing(name, "vent", box, box.grow(grow, grow, 0))
    return dict(sorted(found.items()))


def hazards(laying: Laying) -> dict[str, Thing]:
    """Hot or dangerous things."""
    found: dict[str, Thing] = {}
    for name, hazard in laying.layered.section("hazards", Hazard):
        if box := laying.box(name, hazard, laying.frame):
            usual = laying.shop.clearances.hazards[hazard.kind]
            found[name] = Thing(
                name, hazard.kind, box, box.grow(usual if hazard.clearance is None else hazard.clearance)
            )
    return found


def obstructions(laying: Laying) -> dict[str, Thing]:
    """What holes, or cables below, must not meet."""
    found: dict[str, Thing] = {}
    for name, obstruction in laying.layered.section("obstructions", Obstruction):
        if box := laying.box(name, obstruction, laying.frame):
            found[name] = Thing(name, obstruction.kind, box, box.grow(laying.shop.clearances.hole))
    return found


def in_walls(laying: Laying, section: str) -> dict[str, Box]:
    """Doors, windows or partitions."""
    placed = ((name, laying.box(name, place, laying.frame)) for name, place in laying.layered.section(section, Place))
    return {name: box for name, box in placed if box}
