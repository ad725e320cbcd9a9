"""The card in sentences, and as plain text for a terminal."""

from collections.abc import Container, Iterable, Iterator, Mapping
from typing import NamedTuple

from drawcord.plan.alternatives import Alternative
from drawcord.plan.best_choice import Lefts
from drawcord.plan.card import Card, likeliest, numbered
from drawcord.plan.looking import Looking, Step
from drawcord.sheets.lines import lines
from drawcord.sheets.tables import LINE
from drawcord.words.units import tape_length

SHOWN = 9  # steps of a group: what fits a small card
COUNTS = ("No", "One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine", "Ten", "Eleven", "Twelve")

ROUTES = "The routes that it names:"
ASSUMED = (
    "Each place is taken to be clear or blocked whatever the others are; where the sketch says nothing, as likely "
    "as the shop's preferences say. Work on a route that turns out blocked is counted as lost. No cable takes a way "
    "where another then lies that it may not lie beside; holes and raceway that they may not share lie side by side."
)
ON_SITE = 'On site: drawcord found JOB "PLACE" clear|blocked, which plans again.'


class Group(NamedTuple):
    """Cables that have to do with each other: for each step where to look, what follows if it is clear, and if not."""

    heading: str
    steps: tuple[tuple[str, str, str], ...]
    tail: str


def look_text(card: Card, units: str) -> str:
    """Each group of cables: what to look at in which order, and what each outcome means; then the routes."""
    out: list[str] = []
    for group in groups(card):
        out += _paragraph(group.heading)
        for head, clear, blocked in group.steps:
            out += _paragraph(head, "  ")
            out += [*_paragraph(f"clear: {clear}", "       "), *_paragraph(f"blocked: {blocked}", "       ")]
        out += [*_paragraph(group.tail, "  "), ""]
    out += [*_paragraph(one), ""] if (one := nothing(card)) else []
    out.append(ROUTES)
    for _, sentence in routes(card, units):
        out += _paragraph(sentence, "  ")
    notes = (ASSUMED, ON_SITE)
    return "\n".join([*out, "", *(line for note in notes for line in _paragraph(note))]) + "\n"


def groups(card: Card) -> list[Group]:
    """What to look at for the cables that have anything unproven, in sentences."""
    return [_group(looking) for looking in card.lookings if looking.knowing.places]


def nothing(card: Card) -> str:
    """Which cables have nothing to look at; empty if all have."""
    named = {cable for looking in card.lookings if looking.knowing.places for cable in looking.knowing.cables}
    still = [cable.cable for cable in card.cables if cable.cable not in named]
    return f"Nothing to look at for {_listed(still)}." if still else ""


def routes(card: Card, units: str) -> Iterator[tuple[Alternative | None, str]]:
    """The routes that the card names, each with its sentence; without one, what else is to be said of a cable."""
    called = _called(card)
    for cable in card.cables:
        if not cable.routes:
            yield None, f"{cable.cable}: no way is open"
        for number, route in enumerate(cable.routes, 1):
            if (cable.cable, number) in called:
                figures = f"{tape_length(route.cut_length[1], units)}, {_minutes(route.seconds)}"
                named = f"{cable.cable} route {number}{', as planned' if route.planned else ''}"
                yield route, f"{named}: {' > '.join(route.spaces)}; {figures}"
        if not cable.exact:
            yield None, f"{cable.cable}: there may be more, the search was cut short"


def _group(looking: Looking) -> Group:
    places, cables = looking.knowing.places, looking.knowing.cables
    many = len(places)
    count = COUNTS[many] if many < len(COUNTS) else str(many)
    heading = f"{count} place{'s' * (many > 1)} unproven for {_listed(cables)}."
    if looking.card.look is None:
        tail = f"Looking first would cost more than it saves: {_then(looking, looking.card, {})}."
        return Group(heading, (), tail)
    shown = likeliest(looking, SHOWN)
    number = {step.left: at for at, step in enumerate(shown, 1)}
    always = _always(looking)
    steps = []
    for step in shown:
        if step.look and step.clear and step.blocked:
            head = f"{number[step.left]}. Look at {step.look.called} ({_minutes(step.look.seconds)})."
            clear, blocked = (f"{_then(looking, after, number, always)}." for after in (step.clear, step.blocked))
            steps.append((head, clear, blocked))
    saved = looking.without - looking.seconds
    alike = [f"{cable} takes route {n}" for cable, n in always.items()]
    tail = f"Whatever is found, {_listed(alike)}. " if alike else ""
    tail += f"On average {_minutes(looking.seconds)} of looking and work, {_minutes(saved)} less than without looking"
    if not looking.exact:
        tail += f", and at most {_minutes(looking.above_least)} above the least that any order takes"
    return Group(heading, tuple(steps), f"{tail}.")


def _always(looking: Looking) -> dict[str, int]:
    """Of cables that begin the same route wherever the card ends, the number of that route."""
    ends = [numbered(looking, step)[0] for step in looking.card.steps() if not step.look]
    return {cable: number for cable, number in ends[0].items() if number and all(end[cable] == number for end in ends)}


def _then(looking: Looking, step: Step, number: Mapping[Lefts, int], always: Container[str] = ()) -> str:
    """What follows: the next look, or what each cable does; but for those that `always` do the same."""
    if step.left in number:
        return f"go on with {number[step.left]}"
    if step.look:
        return f"look at {step.look.called}; note both with `drawcord found`, and `drawcord look` says what follows"
    routes, unknown = numbered(looking, step)
    open_to = dict(zip(looking.knowing.cables, step.left, strict=True))
    parts = [
        f"{cable} takes route {route}" if route
        else f"no way is left for {cable}{' beside the others' if open_to[cable] else ''}"
        for cable, route in routes.items()
        if cable not in always
    ]
    if unknown:
        parts.append(f"still unproven on the way: {_listed(unknown)}")
    return "; ".join(parts) or "as whatever is found"


def _called(card: Card) -> set[tuple[str, int]]:
    """The cable and number of each route that the steps shown end in."""
    found = set()
    for looking in card.lookings:
        shown = likeliest(looking, SHOWN)
        ends = [after for step in shown for after in (step.clear, step.blocked) if after] or [looking.card]
        for step in ends:
            if not step.look:
                found |= {(cable, number) for cable, number in numbered(looking, step)[0].items() if number}
    return found


def _listed(names: Iterable[str]) -> str:
    *most, last = names
    return f"{', '.join(most)} and {last}" if most else last


def _minutes(seconds: float) -> str:
    return f"{seconds / 60:.0f} min"


def _paragraph(text: str, indent: str = "") -> list[str]:
    return lines(text, LINE, indent)
