"""Noting in a job file what was found out, everything else in it left as it is, comments among it.

Only the section `differences` is written anew. What comes of it is read back before anybody may keep it.
"""

import io
from copy import copy, deepcopy
from typing import Any

from ruamel.yaml import YAML
from ruamel.yaml.comments import CommentedMap, CommentedSeq
from ruamel.yaml.error import YAMLError

from drawcord.coach.job import either_way_round
from drawcord.files.compose import compose
from drawcord.files.document import Document
from drawcord.words.faults import BadInput, Problem

Entry = dict[str, str]  # what, standing, source, date
WIDE = 1 << 20  # characters: no line is broken


def noted(document: Document, text: str, entry: Entry) -> str:
    """The text of the document with this finding, in the place of an earlier one about the same.

    Raises BadInput where the file is laid out so that it cannot be done without touching anything else.
    """
    line = "\r\n" if "\r\n" in text else "\n"
    lines = text.replace("\r\n", "\n").splitlines(keepends=True)
    begins, ends = _section(document, len(lines))
    if lines and not lines[-1].endswith("\n"):
        lines[-1] += "\n"
    try:
        made = _with("".join(lines[begins:ends]), entry)
        after = "".join([*lines[:begins], made, *lines[ends:]]).replace("\n", line)
        kept = compose(after.removeprefix("\ufeff"))[0] == _expected(document.data, entry)
    except (YAMLError, BadInput, AttributeError, TypeError):
        kept = False
    if not kept:
        written = ", ".join(f"{key}: {value}" for key, value in entry.items())
        sentence = "this section is laid out in a way that cannot be added to; write it yourself, under `found`"
        place = document.position(("differences",), on_key=True)
        raise BadInput([Problem((), f"{sentence}: - {{{written}}}", str(document.path), *place)])
    return after


def _section(document: Document, lines: int) -> tuple[int, int]:
    """The first line of `differences`, from 0, and that behind its last; the end of the file if there is none."""
    places = {name: place.key[0] - 1 for name, place in document.place.inner.items()}
    if "differences" not in places:
        return lines, lines
    begins = places["differences"]
    return begins, min((place for place in places.values() if place > begins), default=lines)


def _with(section: str, entry: Entry) -> str:
    yaml = YAML()
    yaml.width = WIDE
    yaml.preserve_quotes = True
    yaml.indent(mapping=2, sequence=4, offset=2)
    # A key without a value is written as people write it.
    yaml.representer.add_representer(
        type(None), lambda representer, _: representer.represent_scalar("tag:yaml.org,2002:null", "")
    )
    contents = yaml.load(section) if section else None
    lead = "" if contents is not None else section + "\n" * (not section)
    contents = CommentedMap() if contents is None else contents
    if contents.get("differences") is None:
        contents["differences"] = CommentedMap()
    differences = contents["differences"]
    if differences.get("found") is None:
        differences["found"] = CommentedSeq()
    found = differences["found"]
    earlier = next((old for old in found if either_way_round(str(old["what"])) == entry["what"]), None)
    if earlier is None:
        earlier = CommentedMap()
        earlier.fa.set_flow_style()
        _append(found, earlier)
    for key in [key for key in earlier if key not in entry]:
        del earlier[key]
    earlier.update(entry)
    out = io.StringIO()
    yaml.dump(contents, out)
    return lead + out.getvalue()


def _append(found: CommentedSeq, entry: CommentedMap) -> None:
    """Behind the last entry and the comment on its line, before what is said in comments below it."""
    found.append(entry)
    last = len(found) - 2
    tokens = found.ca.items.get(last)
    if tokens and tokens[0]:
        beside, _, below = tokens[0].value.partition("\n")
        if below:
            found.ca.items[last + 1] = [copy(tokens[0]), *tokens[1:]]
            found.ca.items[last + 1][0].value = f"\n{below}"
            tokens[0].value = f"{beside}\n"


def _expected(data: dict[str, Any], entry: Entry) -> dict[str, Any]:
    after = deepcopy(data)
    differences = after["differences"] = after.get("differences") or {}
    found = differences["found"] = list(differences.get("found") or [])
    for number, old in enumerate(found):
        if either_way_round(str(old["what"])) == entry["what"]:
            found[number] = dict(entry)
            return after
    found.append(dict(entry))
    return after
