"""The load as plain text for a terminal: at a glance, what to carry, cut and buy, then the pieces and their joints."""

from collections.abc import Sequence
from itertools import groupby

from drawcord.load.bring import Load
from drawcord.load.cases import JobCases
from drawcord.load.gear import Gear
from drawcord.load.pieces import Pieces
from drawcord.load.sure import Sure
from drawcord.sheets.array_spoken import finding_lines
from drawcord.sheets.lines import lines
from drawcord.sheets.load_gear import gear_glance, gear_text
from drawcord.sheets.load_sure import sure_glance, sure_text
from drawcord.sheets.tables import LINE, Rows, text_table
from drawcord.words.finding import Severity
from drawcord.words.units import tape_length

SPARE = "what may turn out"


def load_text(load: Load, gear: Gear | None = None, sure: tuple[Sure, Sequence[JobCases]] | None = None) -> str:
    """Everything to bring, the most needed first; how sure that is enough, if it was asked for."""
    out = [*_glance(load, gear, sure[0] if sure else None), ""]
    for heading, rows in (
        ("CARRY, as it is", carried(load)),
        ("CUT, in this order", cut_list(load, bought=False)),
        ("BUY, and cut in this order", cut_list(load, bought=True)),
        ("PIECES of each core, from its start on", made_of(load)),
        ("JOINTS", _joints(load)),
    ):
        if len(rows) > 1:
            out += [heading, text_table(rows)]
    out += sure_text(*sure, load.units) if sure else []
    out += gear_text(gear) if gear else []
    if load.findings:
        out += ["LOOK OUT", *(line for one in load.findings for line in finding_lines(one))]
    return "\n".join(out).rstrip() + "\n"


def _glance(load: Load, gear: Gear | None, sure: Sure | None) -> list[str]:
    joints = sum(len(one.joints) for one in load.pieces)
    count, stock = sum(len(one.cuts) for one in load.cuts), sum(bool(one.cuts) for one in load.cuts)
    bought = ", ".join(f"{number} × {name}" for name, number in load.bought) or "nothing"
    missing = sum(one.severity is Severity.REFUSAL for one in load.findings)
    fitted = _counted(sum(number for _, number in load.carry), "fitted piece")
    each = f"{_counted(joints, 'joint')}, each where a hand reaches it"
    said = [
        f"Load for {', '.join(load.jobs)}",
        f"  {_counted(len(load.pieces), 'cable')}, {each if joints else 'no joints'}",
        f"  {fitted} to carry, {_counted(count, 'cut')} from {_counted(stock, 'reel', 'reels and off-cuts')}",
        f"  to buy: {bought}{f', {load.cost:g} in all' if load.bought else ''}",
    ]
    if gear:
        said.append(f"  {gear_glance(gear)}")
    if missing:
        said.append(f"  NOT ENOUGH: {_counted(missing, 'refusal')}, see the end")
    if sure:
        said += [f"  {one}" for one in sure_glance(sure)[: 2 if load.enough else 1]]
    elif load.proved:
        said.append("  proved: no fewer joints with this van, and with these pieces no less to buy and no less scrap")
    else:
        said.append(f"  not proved to be the smallest load: {'; '.join(load.gaps) or 'who gets the fitted pieces'}")
    if load.unproven and not sure:
        places = _counted(len(load.unproven), "place")
        said.append(f"  {places} unproven on these ways: see `drawcord look`; --sure 90% loads for what may turn out")
    return [line for one in said for line in lines(one.strip(), LINE, "  " if one.startswith(" ") else "")]


def carried(load: Load) -> Rows:
    """Fitted pieces, how many of each, and what for."""
    rows = [["count", "piece", "for"]]
    for name, number in load.carry:
        users = [one.run.name for one in load.pieces if any(laid.piece.id == name for laid in one.laid)]
        rows.append([str(number), name, ", ".join(users) or SPARE])
    return rows


def cut_list(load: Load, *, bought: bool) -> Rows:
    """One row for cuts that are alike, in the order to make them; what remains stands in the last of a reel."""
    rows = [["from", "type", "has", "cut", "for", "remains"]]
    for one in load.cuts:
        if one.bought == bought:
            has, left = (tape_length(length, load.units) for length in (one.length, one.left))
            mine = [
                ["", "", "", f"{len(list(alike))} × {tape_length(cut.length, load.units)}", cut.run, ""]
                for cut, alike in groupby(one.cuts)
            ]
            mine = mine or [["", "", "", "", SPARE, ""]]
            mine[0][:3] = [one.stock, one.type, has]
            mine[-1][-1] = left if one.kept else f"{left}, scrap"
            rows += mine
    return rows


def made_of(load: Load) -> Rows:
    """What each core of each cable is made of."""
    rows = [["cable", "type", "cores", "length", "pieces"]]
    for one in load.pieces:
        length = tape_length(one.run.length, one.run.units)
        rows.append([one.run.name, one.run.type, str(one.run.cores), length, _said(one)])
    return rows


def _said(one: Pieces) -> str:
    units = one.run.units
    said = []
    for laid in one.laid:
        if laid.piece.fitted:
            over = f", {tape_length(laid.left_over, units)} too long" if laid.left_over else ""
            said.append(f"{laid.piece.id}{over}")
        else:
            said.append(f"cut of {tape_length(laid.end - laid.start, units)}")
    return " + ".join(said) or "NONE SERVES"


def _joints(load: Load) -> Rows:
    rows = [["cable", "at", "in", "through", "why there"]]
    for one in load.pieces:
        for joint, why in zip(one.joints, one.reasons, strict=True):
            at = tape_length(joint.at, one.run.units)
            rows.append([one.run.name, at, joint.space, joint.opening or "open", why])
    return rows


def _counted(number: int, one: str, many: str = "") -> str:
    return f"{number} {one if number == 1 else many or one + 's'}"
