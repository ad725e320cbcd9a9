"""What circuits stand on: editions, what is left out, and what rests on memory."""

import re
from collections.abc import Iterable
from typing import Any

from drawcord.wire.rulesets import RuleSet
from drawcord.words.figure import Figure
from drawcord.words.finding import Finding

MEMORY = "from memory"
BETWEEN = re.compile(r";(?![^()]*\))")  # sources, not what brackets say of one
CHECKED = (
    "Worked out from the makers' figures as they stand in the files; nothing was inspected or measured. Local codes, "
    "the makers' manuals and a licensed practitioner govern."
)


def remembered(figures: Iterable[Figure], findings: Iterable[Finding], others: Iterable[str] = ()) -> list[str]:
    """The sources that rest on memory, each once."""
    sources = [*(one.source for one in figures), *(one.source for one in findings), *others]
    parts = (part.strip() for source in sources for part in BETWEEN.split(source))
    return list(dict.fromkeys(part for part in parts if MEMORY in part))


def basis_document(
    rules: RuleSet, figures: Iterable[Figure], findings: Iterable[Finding], others: Iterable[str] = ()
) -> dict[str, Any]:
    """The same as plain data."""
    return {
        "rules": rules.name,
        "checked_against": list(rules.editions),
        "added_practice": list(rules.added_practice),
        "not_covered": list(rules.not_covered),
        "from_memory": remembered(figures, findings, others),
        "note": CHECKED,
    }


def basis_lists(
    rules: RuleSet, figures: Iterable[Figure], findings: Iterable[Finding], others: Iterable[str] = ()
) -> list[tuple[str, list[str]]]:
    """The same as lists with headings."""
    return [
        (f"Checked against, rule set {rules.name}:", list(rules.editions)),
        ("Added practice:", list(rules.added_practice)),
        ("Not covered:", list(rules.not_covered)),
        ("Figures that rest on memory, to be confirmed:", remembered(figures, findings, others)),
    ]
