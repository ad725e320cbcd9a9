"""The card as plain text, for a terminal or to take along."""

from collections.abc import Iterable

from drawcord.plan.card import Card, choice, likeliest
from drawcord.plan.knowing import Lefts
from drawcord.plan.looking import Looking, Step
from drawcord.sheets.lines import lines
from drawcord.sheets.tables import LINE
from drawcord.words.units import tape_length

SHOWN = 9  # steps of a group: what fits a small card
COUNTS = ("No", "One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine", "Ten", "Eleven", "Twelve")


def look_text(card: Card, units: str) -> str:
    """Each group of cables: what to look at in which order, and what each outcome means; then the routes."""
    out: list[str] = []
    for looking in card.lookings:
        if looking.knowing.places:
            out += [*_group(looking), ""]
    named = [cable for looking in card.lookings if looking.knowing.places for cable in looking.knowing.cables]
    still = [cable.cable for cable in card.cables if cable.cable not in named]
    if still:
        out += [*_paragraph(f"Nothing to look at for {_listed(still)}."), ""]
    out.append("The routes that it names, in order of weight:")
    called = _called(card)
    for cable in card.cables:
        out += [] if cable.routes else _paragraph(f"{cable.cable}: no way is open", "  ")
        for number, route in enumerate(cable.routes, 1):
            if (cable.cable, number) in called:
                figures = f"{tape_length(route.cut_length[1], units)}, {_minutes(route.seconds)}"
                out += _paragraph(f"{cable.cable} route {number}: {' > '.join(route.spaces)}; {figures}", "  ")
        if cable.left_out:
            what = f"{cable.cable}: {cable.left_out} more left out, since a joint would be out of reach"
            out += _paragraph(what, "  ")
        if not cable.exact:
            out += _paragraph(f"{cable.cable}: there may be more, the search was cut short", "  ")
    assumed = (
        "Each place is taken to be clear or blocked whatever the others are; where the sketch says nothing, as likely "
        "as the shop's preferences say. Work on a route that turns out blocked is counted as lost."
    )
    notes = (
        assumed,
        'On site: drawcord found JOB "PLACE" clear|blocked, which plans again.',
    )
    return "\n".join([*out, "", *(line for note in notes for line in _paragraph(note))]) + "\n"


def _group(looking: Looking) -> list[str]:
    places, cables = looking.knowing.places, looking.knowing.cables
    many = len(places)
    count = COUNTS[many] if many < len(COUNTS) else str(many)
    out = _paragraph(f"{count} place{'s' * (many > 1)} unproven for {_listed(cables)}.")
    if looking.card.look is None:
        out += _paragraph(f"Looking first would cost more than it saves: {_then(looking, looking.card, {})}.", "  ")
        return out
    steps = likeliest(looking, SHOWN)
    number = {step.left: at for at, step in enumerate(steps, 1)}
    for step in steps:
        if step.look and step.clear and step.blocked:
            head = f"{number[step.left]}. Look at {step.look.called} ({_minutes(step.look.seconds)})."
            out += _paragraph(head, "  ")
            for what, after in (("clear", step.clear), ("blocked", step.blocked)):
                out += _paragraph(f"{what}: {_then(looking, after, number)}.", "       ")
    saved = looking.without - looking.seconds
    sentence = f"On average {_minutes(looking.seconds)} of looking and work, "
    sentence += f"{_minutes(saved)} less than without looking"
    if not looking.exact:
        sentence += f", and at most {_minutes(looking.above_least)} above the least that any order takes"
    return [*out, *_paragraph(f"{sentence}.", "  ")]


def _then(looking: Looking, step: Step, number: dict[Lefts, int]) -> str:
    """What follows: the next look, or what each cable does."""
    if step.left in number:
        return f"go on with {number[step.left]}"
    if step.look:
        return f"look at {step.look.called}, and see `drawcord look` for what follows"
    routes, unknown = choice(looking, step)
    parts = [
        f"{cable} takes route {route}" if route else f"no way is left for {cable}" for cable, route in routes.items()
    ]
    if unknown:
        parts.append(f"still unproven on the way: {_listed(unknown)}")
    return "; ".join(parts)


def _called(card: Card) -> set[tuple[str, int]]:
    """The cable and number of each route that the steps shown end in."""
    found = set()
    for looking in card.lookings:
        shown = likeliest(looking, SHOWN)
        ends = [after for step in shown for after in (step.clear, step.blocked) if after] or [looking.card]
        for step in ends:
            if not step.look:
                found |= {(cable, number) for cable, number in choice(looking, step)[0].items() if number}
    return found


def _listed(names: Iterable[str]) -> str:
    *most, last = names
    return f"{', '.join(most)} and {last}" if most else last


def _minutes(seconds: float) -> str:
    return f"{seconds / 60:.0f} min"


def _paragraph(text: str, indent: str = "") -> list[str]:
    return lines(text, LINE, indent)
