"""Pictures of each cable's route and of what to fall back on, each with the way in words, and the one-line diagram."""

from dataclasses import replace

from matplotlib.figure import Figure

from drawcord.plan.card import Card
from drawcord.plan.named import renamed
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
from drawcord.sheets.scene import Scene, crosses, route_scene
from drawcord.sheets.style import SMALL, house_style
from drawcord.sheets.tables import DROP, figure_named
from drawcord.sheets.text import text_width
from drawcord.sheets.together import sentences
from drawcord.sheets.traces import traces
from drawcord.sheets.views import span_x
from drawcord.sheets.walk import walk

LARGER = 4 / 3  # by which pictures are printed larger than they are drawn, so that their smallest type has 8 points
WHOLE, PAIR = (186.0, 220.0), (186.0, 76.0)  # on paper [mm], at the most
VIEW = 44.0  # mm of paper for each view of a cable: with few of them its fallback has room on the same page
OTHER = "another descent"
LETTERS = (
    "T is a hole, J a joint, P a fuse, breaker or switch, each with the letters of its cables; at a ring a cable goes"
    " on in another view. Cables that run together are drawn side by side: measure by the holes and the way of each."
)
AGAIN = "Sections are those of the first way: before cutting for one of these run `drawcord found`, which plans again."
ALONE = "Not held against the ways of the other cables: before boring for this run `drawcord found`, which plans again."
NO_OTHER = "No candidate goes through other spaces: if this way is blocked, stop and plan again."
STEP = 3.0  # mm by which a page of two columns grows until all is on it
EDGE, TOP = 4.0, 3.0  # mm beside a drawing, for the ends of its ruler, and over its first line


def together(plan: Plan) -> Section:
    """Of several cables what they share and where to keep them apart, and all of them in one picture."""
    if plan.together is None:
        return Section("All cables together", ())
    looks = traces(sorted(plan.chosen))
    names = "; ".join(f"{look.tag}: {name}" for name, look in looks.items())
    caption = f"All cables, drawn to scale. {names}. {LETTERS}"
    picture = replace(_views(joint_scene(plan, looks), key_of(plan.coach), caption), floats=True)
    return Section("All cables together", (Words(tuple(sentences(plan.together, plan.coach.units))), picture))


def ways(plan: Plan, card: Card) -> list[Section]:
    """Sections of each cable: its route, what to fall back on, and in words the other routes that the card names."""
    found = []
    for answer in plan.answers:
        if answer.cable not in plan.chosen:
            continue
        chosen, *others = drawn(plan, card, answer.cable)
        other = others[0] if others else None
        start, end = ends_of(plan.coach, chosen.route)
        said = Steps("The way, leg by leg", walk(plan.coach, chosen.route, bores(plan, answer.cable)), tick=True)
        alone = () if other else (Words((NO_OTHER,)),)
        shown = Beside(_route(plan, chosen), said)
        found.append(Section(f"{answer.cable}: {start} to {end}", (shown, *alone)))
        if other:
            found.append(Section(f"{answer.cable}: if that is blocked, {other.id}", tuple(_other(plan, other))))
        if words := _in_words(plan, card, answer.cable):
            found.append(Section(f"{answer.cable}: other routes of the card, in words", words))
    return found


def drawn(plan: Plan, card: Card, cable: str) -> list[Candidate]:
    """The candidates of a cable that have their picture on this sheet: the chosen one, and what to fall back on."""
    chosen = plan.chosen.get(cable)
    offered = next((answer.candidates for answer in plan.answers if answer.cable == cable), ())
    return [one for one in (chosen, fallback(chosen, offered, card)) if one] if chosen else []


def _in_words(plan: Plan, card: Card, cable: str) -> tuple[Block, ...]:
    """The routes that the card names and no picture shows."""
    shown = {one.route.spaces for one in drawn(plan, card, cable)}
    blocks: list[Block] = []
    for named, sentence in routes(card, plan.coach.units):
        if named and named.route and named.cable == cable and named.spaces not in shown:
            route = replace(renamed(plan, named.route), joints=())  # they fall where the pieces end that it is cut of
            most = f"cut {length(route.cut_length[2], plan.coach.units)} at most a core"
            way = walk(plan.coach, route, bores(plan, cable, route))
            blocks.append(Steps(f"{sentence.partition(':')[0]}, {most}", way, tick=True))
    again = (ALONE, AGAIN) if plan.together else (AGAIN,)
    return (Words(again), *blocks) if blocks else ()


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
    width, most = (side / LARGER for side in WHOLE)
    half = (width - 4) / 2
    scene, signs = route_scene(plan.coach, route, plan.coach.units), key_of(plan.coach)
    with house_style():
        height = legend(scene, signs, (half, 2 * most)).height / 2
        while True:  # two columns as high as they have to be
            figure, page = sheet.blank((width, height + TOP))
            areas = [Patch(0, half, 0, height), Patch(half + 4, width, 0, height)]
            if not pour(page, [legend(scene, signs, (half, 2 * most))], areas, 1) or height > most:
                return Section("Key to the pictures", (_printed("Signs, spaces and things", figure),))
            height += STEP


def diagram(plan: Plan) -> Section:
    """The one-line diagram, if circuits are known: one tracker and one load a page, so that their texts have room."""
    made = diagrams(plan.coach, plan.circuits, plan.coach.units, abreast=1) if plan.circuits else []
    with house_style():
        pictures = [_fitting(one, f"One-line diagram, {n} of {len(made)}") for n, one in enumerate(made, start=1)]
    return Section("One-line diagram", tuple(pictures))


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
    """A route in the views that are at home to it."""
    coach, scene = plan.coach, route_scene(plan.coach, chosen.route, plan.coach.units)
    views = tuple(view for view in scene.views if crosses(coach, view, chosen.route)) or scene.views
    room = WHOLE[0], min(WHOLE[1], VIEW * len(views))
    return _views(scene._replace(views=views), key_of(coach), f"{chosen.id}, drawn to scale", room)


def _views(scene: Scene, key: Key, caption: str, room: tuple[float, float] = WHOLE) -> Picture:
    """Every view of a scene on paper as wide and high as they need."""
    coach, (width, height) = scene.coach, (side / LARGER for side in room)
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
        _, lowest = _pair(plan, other, (width, height))
        picture = _printed(f"{other.id}, {other.offered_as}", _pair(plan, other, (width, height - lowest))[0])
    # Where people cut by it, the length that is surely enough; and places to look at, not chances.
    said = dict(facts(other, plan.coach.units))
    said["cut, a core"] = f"{length(other.route.cut_length[2], plan.coach.units)} at most"
    said["unproven places"] = ", ".join(other.route.unproven) or "none"
    warned = [ALONE] * (plan.together is not None)
    warned += [*_sized(plan, other), *(f"Ask the owner first: {consent}." for consent in other.route.consents)]
    words = [Words(tuple(warned), strong=True)] if warned else []
    way = Steps("The way", walk(plan.coach, other.route, bores(plan, other.route.cable, other.route)), tick=True)
    return [picture, Grid("What it takes", [list(said), list(said.values())]), *words, way]


def _pair(plan: Plan, other: Candidate, size: tuple[float, float]) -> tuple[Figure, float]:
    """Plan and section of a route, and the height [mm] down to which they reach."""
    (width, height), (figure, page) = size, sheet.blank(size)
    room = (width - 2 * EDGE, PAIR[1] / LARGER - 8)
    return figure, draw_pair(figure, page, plan.coach, other.route, (EDGE, height), room, plan.coach.units)


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
