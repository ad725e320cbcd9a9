"""Pictures of each cable's route and of what to fall back on, each with the way in words, and the one-line diagram."""

from matplotlib.figure import Figure

from drawcord.plan.card import Card
from drawcord.plan.plan import Plan
from drawcord.routes.route import Candidate
from drawcord.sheets import page as sheet
from drawcord.sheets.candidates_sheet import draw_pair, facts
from drawcord.sheets.column import BELOW, SIDE_NAMES, TITLED, column_height, column_width, draw_column
from drawcord.sheets.day_holes import bores
from drawcord.sheets.day_parts import Beside, Block, Grid, Picture, Section, Steps, Words
from drawcord.sheets.flow import pour
from drawcord.sheets.joint_sheet import joint_scene
from drawcord.sheets.key import Key, key_of
from drawcord.sheets.labels import Patch
from drawcord.sheets.legend import legend
from drawcord.sheets.lengths import length
from drawcord.sheets.look_spoken import routes
from drawcord.sheets.marks import ends_of
from drawcord.sheets.one_line import Diagram, diagrams
from drawcord.sheets.one_line_drawing import draw_diagram
from drawcord.sheets.panel import fitting_scale
from drawcord.sheets.render import to_svg
from drawcord.sheets.scene import Scene, route_scene
from drawcord.sheets.style import SMALL, house_style
from drawcord.sheets.tables import DROP, figure_named
from drawcord.sheets.text import text_width
from drawcord.sheets.traces import traces
from drawcord.sheets.views import span_x
from drawcord.sheets.walk import walk

LARGER = 4 / 3  # by which pictures are printed larger than they are drawn, so that their smallest type has 8 points
WHOLE, PAIR = (186.0, 220.0), (186.0, 76.0)  # on paper [mm]
OTHER = "another descent"
LETTERS = (
    "T is a hole, J a joint, P a fuse, breaker or switch, each with the letters of its cables; at a ring a cable goes"
    " on in another view. Cables that run together are drawn side by side: measure by the holes and the way of each."
)
NO_OTHER = "No candidate goes through other spaces: if this way is blocked, stop and plan again."
EDGE, TOP = 4.0, 3.0  # mm beside a drawing, for the ends of its ruler, and over its first line


def ways(plan: Plan, card: Card) -> list[Section]:
    """All cables in one picture; then two sections a cable: its route, and what to fall back on."""
    found = _together(plan)
    for answer in plan.answers:
        if answer.cable not in plan.chosen:
            continue
        chosen = plan.chosen[answer.cable]
        start, end = ends_of(plan.coach, chosen.route)
        said = Steps("The way, leg by leg", walk(plan.coach, chosen.route, bores(plan, answer.cable)), tick=True)
        other = fallback(chosen, answer.candidates, card)
        alone = () if other else (Words((NO_OTHER,)),)
        shown = Beside(_route(plan, chosen), said)
        found.append(Section(f"{answer.cable}: {start} to {end}", (*alone, shown), fresh=True))
        if other:
            found.append(Section(f"{answer.cable}: if that is blocked, {other.id}", tuple(_other(plan, other))))
    return found


def _together(plan: Plan) -> list[Section]:
    """The joint plan, if there is one, with its letters."""
    if plan.together is None:
        return []
    looks = traces(sorted(plan.chosen))
    picture = _views(joint_scene(plan, looks), key_of(plan.coach), "All cables, drawn to scale")
    names = "; ".join(f"{look.tag}: {name}" for name, look in looks.items())
    return [Section("All cables together", (picture, Words((f"{names}.", LETTERS))), fresh=True)]


def fallback(chosen: Candidate, candidates: tuple[Candidate, ...], card: Card) -> Candidate | None:
    """The best candidate that the card may lead to; else another way down; else any through other spaces."""
    others = [one for one in candidates if set(one.route.spaces) != set(chosen.route.spaces)]
    led = {(route.cable, route.spaces) for route, _ in routes(card, "mm") if route}
    by_card = [one for one in others if (one.route.cable, one.route.spaces) in led]
    elsewhere = [one for one in others if one.offered_as == OTHER]
    return next(iter([*by_card, *elsewhere, *others]), None)


def key(plan: Plan) -> Section:
    """What numbers, letters and signs of the pictures mean."""
    if not plan.chosen:
        return Section("Key to the pictures", ())
    chosen = (one.route for one in plan.chosen.values())
    route = max(chosen, key=lambda one: (len(one.holes), len(one.joints), one.cable))  # whose signs are the most
    width, height = (side / LARGER for side in WHOLE)
    with house_style():
        figure, page = sheet.blank((width, height))
        half = (width - 4) / 2
        scene = route_scene(plan.coach, route, plan.coach.units)
        listing = legend(scene, key_of(plan.coach), (half, height - TOP))
        areas = [Patch(0, half, 0, height - TOP), Patch(half + 4, width, 0, height - TOP)]
        pour(page, [listing], areas, 1)
        return Section("Key to the pictures", (_printed("Signs, spaces and things", figure),), fresh=True)


def diagram(plan: Plan) -> Section:
    """The one-line diagram, if circuits are known: one tracker and one load a page, so that their texts have room."""
    made = diagrams(plan.coach, plan.circuits, plan.coach.units, abreast=1) if plan.circuits else []
    with house_style():
        pictures = [_fitting(one, f"One-line diagram, {n} of {len(made)}") for n, one in enumerate(made, start=1)]
    return Section("One-line diagram", tuple(pictures), fresh=True)


def _fitting(one: Diagram, caption: str) -> Picture:
    """A diagram as large as leaves nothing below the lower edge, on paper no higher than it is."""
    larger = LARGER
    while True:
        width, height = (side / larger for side in WHOLE)
        lowest = _drawn(one, width, height)[1]
        if lowest >= 0:
            return _printed(caption, _drawn(one, width, height - lowest)[0], larger)
        larger *= 0.97


def _drawn(one: Diagram, width: float, height: float) -> tuple[Figure, float]:
    """The figure, and the height [mm] down to which it is used."""
    figure, page = sheet.blank((width, height))
    return figure, draw_diagram(page, one, Patch(0, width, 0, height - TOP), alone=1.0)[-1].y1


def _route(plan: Plan, chosen: Candidate) -> Picture:
    scene = route_scene(plan.coach, chosen.route, plan.coach.units)
    return _views(scene, key_of(plan.coach), f"{chosen.id}, drawn to scale")


def _views(scene: Scene, key: Key, caption: str) -> Picture:
    """Every view of a scene on paper as wide and high as they need."""
    coach, (width, height) = scene.coach, (side / LARGER for side in WHOLE)
    with house_style():
        scale = fitting_scale(scene.views, span_x(coach), width - SIDE_NAMES - 2 * EDGE, height - BELOW - TOP)
        titles = TITLED + max(text_width(view.title, SMALL, bold=True) for view in scene.views)
        size = max(column_width(scene, scale), titles) + 2 * EDGE, column_height(scene, scale) + TOP
        figure, page = sheet.blank(size)
        draw_column(figure, page, scene, key, (EDGE, size[1] - TOP), scale, coach.units, on_a4=False)
        return _printed(caption, figure)


def _other(plan: Plan, other: Candidate) -> list[Block]:
    with house_style():
        width, height = (side / LARGER for side in PAIR)
        figure, page = sheet.blank((width, height))
        room = (width - 2 * EDGE, height - 8)
        draw_pair(figure, page, plan.coach, other.route, (EDGE, height), room, plan.coach.units)
        picture = _printed(f"{other.id}, {other.offered_as}", figure)
    # Where people cut by it, the length that is surely enough; and places to look at, not chances.
    said = dict(facts(other, plan.coach.units))
    said["cut, a core"] = f"{length(other.route.cut_length[2], plan.coach.units)} at most"
    said["unproven places"] = ", ".join(other.route.unproven) or "none"
    warned = [*_sized(plan, other), *(f"Ask the owner first: {consent}." for consent in other.route.consents)]
    words = [Words(tuple(warned), strong=True)] if warned else []
    way = Steps("The way", walk(plan.coach, other.route, bores(plan, other.route.cable, other)), tick=True)
    return [picture, Grid("What it takes", [list(said), list(said.values())]), *words, way]


def _sized(plan: Plan, other: Candidate) -> list[str]:
    """What the conductor of a circuit, chosen for another route, is not known to be good for on this one."""
    circuits = plan.circuits.circuits if plan.circuits else ()
    said = []
    for one in circuits:
        if one.cable == other.route.cable:
            lost, limit = figure_named(other.route, DROP[1]), 100 * one.purpose.limit.value
            over = f" This one loses {lost.value:.2f} %, over {limit:g} %." if lost and lost.value > limit else ""
            said.append(f"Section and device are sized for the first way: plan again before cutting for this.{over}")
    return said


def _printed(caption: str, figure: Figure, larger: float = LARGER) -> Picture:
    wide, high = (round(side * 25.4 * larger, 3) for side in figure.get_size_inches())
    return Picture(caption, to_svg(figure), (wide, high))
