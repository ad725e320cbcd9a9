"""The answer about a route that a person has in mind, as plain text for a terminal."""

import math
from collections.abc import Mapping

from drawcord.coach.coach import Coach
from drawcord.routes.facts import EFFORTS
from drawcord.routes.order import Order
from drawcord.routes.route import Criteria, Route
from drawcord.routes.swaying import stated
from drawcord.routes.weighing import WORDS, clear
from drawcord.routes.why import Why, called
from drawcord.sheets.lengths import length
from drawcord.sheets.lines import lines
from drawcord.sheets.spoken import cautions_text
from drawcord.sheets.tables import LINE, Rows, text_table
from drawcord.sheets.why_report import cautions_of
from drawcord.words.units import format_minutes

ORDER = (
    "Tried were facts about the route's own spaces and passages and what lies beside them, in this order: "
    f"{', '.join(EFFORTS)}; within each the fewest millimetres first, then the first name."
)


def why_text(coach: Coach, order: Order, answer: Why, where: Mapping[str, str]) -> str:
    """What was asked, the verdict and what it stands on, and the smallest change that would make it win."""
    units = coach.units
    cable = order.cable
    out = [f"{coach.rig.name}: cable {order.name} from {cable.start} to {cable.end}", ""]
    out += [*lines(f"Asked: {_asked(answer)}.", LINE), ""]
    if answer.best is None:
        out += ["It breaks a rule:"]
        for breach in answer.breaches:
            at = f" [{where[breach.place]}]" if breach.place in where else ""
            out += lines(f"- {breach.sentence}{at}.", LINE, "  ")
    else:
        if answer.best.spaces != answer.wish.spaces:
            offered, through = called(answer.answer, answer.best), " > ".join(answer.best.spaces)
            out += lines(f"The best route of this form{f', {offered}' * (offered != through)}: {through}.", LINE)
        out += [line for sentence in _verdict(order, answer, units) for line in lines(sentence, LINE)]
        if answer.rival and answer.verdict in ("beaten", "efficient"):
            out += ["", text_table(_table(answer.best, answer.rival, answer.called, units)).rstrip()]
    if change := _changes(answer):
        out += ["", *lines(change, LINE), "", *lines(ORDER, LINE)]
    return "\n".join([*out, "", cautions_text(cautions_of(order, answer))])


def _asked(answer: Why) -> str:
    wish = answer.wish
    if wish.spaces:
        return " > ".join(wish.spaces)
    through = [f"a way through {' and '.join(wish.through)}"] if wish.through else []
    avoid = [f"not into {' or '.join(wish.avoid)}"] if wish.avoid else []
    return ", ".join([*through, *avoid]) or "any way"


def _verdict(order: Order, answer: Why, units: str) -> list[str]:
    if answer.verdict == "wins":
        if not answer.called:
            return ["It is the only way that was found: the comparison leaves it out, for its limits."]
        return [f"It is the winner, {answer.called}."]
    if answer.verdict == "equal":
        return [f"It is as good as the winner, {answer.called}, in every criterion: the names of the spaces decide."]
    if answer.verdict == "beaten":
        return [f"{answer.called} beats it: in no criterion does it ask for more, and in some for less."]
    said = "No other on the graph" if answer.certain else "As far as was searched, no other"
    first = f"{said} is at least as good in every criterion"
    if answer.consent and answer.sway and answer.sway.weights == stated(order):
        return [f"{first}, and once the owner has agreed to raceway in sight it wins."]
    first += f", but {answer.called} weighs less."
    asks = "Once the owner has agreed to raceway in sight, it" if answer.consent else "It"
    return [first, f"{asks} {_swayed(order, answer, units)}"]


def _swayed(order: Order, answer: Why, units: str) -> str:
    sway = answer.sway
    if sway and sway.weights:
        usual = stated(order)
        if sway.only:
            return f"would win if {sway.only} weighed {sway.weights[sway.only]:g} instead of {usual[sway.only]:g}."
        listed = ", ".join(f"{word} {weight:g} (now {usual[word]:g})" for word, weight in sway.weights.items())
        return f"would win with these weights: {listed}."
    none = "no weights make it win" if sway and sway.proved else "no weights were found with which it wins"
    if not answer.limits or answer.best is None:
        return f"would not win for anybody: {none}, and no limits."
    kept = " and ".join(_limit(name, answer.best.criteria, units) for name in answer.limits)
    return f"would win for an owner who wants {kept}; {none}."


def _limit(name: str, criteria: Criteria, units: str) -> str:
    amount = getattr(criteria, name)
    if name == "doubt":
        return f"a route at least {clear(amount)} likely to be clear"
    if name == "seconds":
        return f"at most {format_minutes(amount)} of work"
    if name in ("length", "in_sight"):
        return f"at most {length(amount, units)} {'of cable' if name == 'length' else 'in sight'}"
    return f"at most {amount} {WORDS[name] if amount != 1 else WORDS[name][:-1]}"


def _table(best: Route, rival: Route, called: str, units: str) -> Rows:
    """Every criterion of both, and what the first asks for more."""
    rows = [["criterion", "asked for", called if ">" not in called else "the other", "difference"]]
    for name, mine, theirs in zip(Criteria._fields, best.criteria, rival.criteria, strict=True):
        word = "chance clear" if name == "doubt" else WORDS[name] if name != "seconds" else "work"
        both = (_said(name, amount, units) for amount in (mine, theirs))
        rows.append([word, *both, _difference(name, mine, theirs, units)])
    return rows


def _said(name: str, amount: int, units: str) -> str:
    if name == "doubt":
        return clear(amount)
    if name == "seconds":
        return format_minutes(amount)
    return length(amount, units) if name in ("length", "in_sight") else str(amount)


def _difference(name: str, mine: int, theirs: int, units: str) -> str:
    if mine == theirs:
        return "none"
    if name == "doubt":
        points = 100 * (math.exp(-mine / 1e6) - math.exp(-theirs / 1e6))
        return f"{abs(points):.0f} % {'more' if points > 0 else 'less'}"
    amount = abs(mine - theirs)
    text = _said(name, amount, units)
    if text == _said(name, 0, units):
        text = f"{amount} mm"  # finer than the tape
    return f"{text} {'more' if mine > theirs else 'less'}"


def _changes(answer: Why) -> str:
    if answer.verdict == "wins":
        return ""
    if answer.change:
        return f"The smallest change that makes it win: {answer.change.sentence}."
    if answer.opens:
        return f"No single change makes it win. The smallest that opens it: {answer.opens.sentence}."
    return f"No single change {'makes it win' if answer.best else 'opens it'}."
