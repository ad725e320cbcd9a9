"""The reference of every file that people write, made from the models.

`python -m drawcord.files.reference FOLDER` writes `reference.md` for people, and `rig.schema.json` and
`job.schema.json` for editors.
"""

import json
from argparse import ArgumentParser
from collections.abc import Iterator
from pathlib import Path
from typing import get_args

from pydantic import BaseModel

from drawcord.coach.job import Job
from drawcord.coach.kinds import NATURE
from drawcord.coach.log import Log, Used
from drawcord.coach.parts import Parts
from drawcord.coach.rig import Rig
from drawcord.coach.sharing import Sharing
from drawcord.coach.shop import Allowances, Clearances, Labour, Preferences
from drawcord.coach.stocked import STOCKED
from drawcord.coach.van import Van
from drawcord.files.schema import Schema, schema_of
from drawcord.files.wording import EXAMPLES, link, listed, takes, title
from drawcord.files.writing import write_file

Model = type[BaseModel]

FILES: dict[str, Model] = {
    "Rig file": Rig,
    "Job file": Job,
    "Shop file clearances.yaml": Clearances,
    "Shop file labour.yaml": Labour,
    "Shop file allowances.yaml": Allowances,
    "Shop file preferences.yaml": Preferences,
    "Shop file sharing.yaml": Sharing,
    "Shop file parts.yaml": Parts,
    **{f"Shop file {name}.yaml": model for name, model in STOCKED.items()},
    "Shop file stock.yaml": Van,
    "Form JOB.used.yaml": Used,
    "Log RIG.log.yaml": Log,
}

INTRO = """\
# What the files say

Made from the models by `python -m drawcord.files.reference shared`; change the models, not this page.

Files are YAML in UTF-8. Keys are written as they stand here, with spaces; an unknown key is refused, and so
is a length without a unit unless the file states one in `units`. A file named in another is named relative
to it. Ids are lower-case letters, digits, `-` and `_`, beginning with a letter, 40 characters at most.
Street and curb are the sides of the vehicle by the side that traffic keeps; left and right are as seen
facing forward.

Editors that understand JSON Schema can be pointed to `rig.schema.json` and `job.schema.json` beside this
page: they then complete keys and mark what is wrong. What a schema cannot say (names that must exist,
spaces that must not overlap), `drawcord check` says.
"""


def generated() -> dict[str, bytes]:
    """Every generated file by its name."""
    return {
        "reference.md": page().encode(),
        "rig.schema.json": _json(schema_of(Rig)),
        "job.schema.json": _json(schema_of(Job)),
    }


def page() -> str:
    """The reference as a page of Markdown; each model is told once, below the file that first needs it."""
    quantities = [[name, listed(examples)] for name, examples in EXAMPLES.items()]
    parts = [INTRO, _section(2, "Quantities", _table(["quantity", "such as"], quantities))]
    told: set[Model] = set()
    for heading, root in FILES.items():
        parts.append(_section(2, heading, f"{root.__doc__}\n\n{_keys(root)}"))
        for model in dict.fromkeys(_below(root)):
            if model not in told:
                parts.append(_section(3, title(model.__name__), f"{model.__doc__}\n\n{_keys(model)}"))
                told.add(model)
        if root is Rig:
            parts.append(_section(3, "Kinds of space", _kinds()))
    return "\n".join(parts)


def _below(model: Model) -> Iterator[Model]:
    """The models that a model is built from: those it extends, and those its keys hold."""
    for base in _bases(model):
        yield base
        yield from _below(base)
    for name in _own(model):
        for inner in _named(model.model_fields[name].annotation):
            yield inner
            yield from _below(inner)


def _bases(model: Model) -> list[Model]:
    """The models that a model extends, if they have keys of their own."""
    return [base for base in model.__bases__ if issubclass(base, BaseModel) and base.model_fields]


def _own(model: Model) -> list[str]:
    """The fields that a model has beyond those it extends."""
    inherited = {name for base in _bases(model) for name in base.model_fields}
    return [name for name in model.model_fields if name not in inherited]


def _named(annotation: object) -> Iterator[Model]:
    """The models that an annotation names."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    for part in get_args(annotation):
        yield from _named(part)


def _keys(model: Model) -> str:
    """The keys of a model: its own in a table, for the others where they are told."""
    schema = schema_of(model)
    rows = []
    for name in _own(model):
        about = model.model_fields[name]
        key = about.alias or name
        field = schema["properties"][key]
        otherwise = f" `{field['default']}` if left out." if "default" in field else ""
        needed = "yes" if key in schema.get("required", []) else ""
        rows.append([f"`{key}`", needed, takes(field), f"{about.description}{otherwise}"])
    extends = " and ".join(link(base.__name__) for base in _bases(model))
    before = f"Takes every key of {extends}, and:\n\n" if extends else ""
    return before + _table(["key", "needed", "takes", "what it is"], rows)


def _kinds() -> str:
    """What each kind of space is by nature."""
    hides = "A joint or device lies in no hidden space, whatever opens it; a passage into one starts unproven.\n\n"
    header = ["kind", "zone", "hidden", "barred", "`up` if left out", "its `door` is a", "cover"]
    rows = []
    for kind, nature in NATURE.items():
        up = f"`{'..'.join(nature.rise)}`" if nature.rise else ""
        hidden, barred = ("yes" if flag else "" for flag in (nature.hidden, nature.barred))
        rows.append([f"`{kind}`", nature.zone, hidden, barred, up, nature.opened_by, nature.cover])
    return hides + _table(header, rows)


def _section(level: int, heading: str, text: str) -> str:
    return f"{'#' * level} {heading}\n\n{text}"


def _table(header: list[str], rows: list[list[str]]) -> str:
    return "".join(f"| {' | '.join(cells)} |\n" for cells in (header, ["---"] * len(header), *rows))


def _json(schema: Schema) -> bytes:
    return (json.dumps(schema, indent=1, ensure_ascii=False) + "\n").encode()


if __name__ == "__main__":
    arguments = ArgumentParser(prog="python -m drawcord.files.reference", description="Write the reference.")
    arguments.add_argument("folder", type=Path, help="the folder to write to: `shared`")
    folder: Path = arguments.parse_args().folder
    for file, data in generated().items():
        write_file(folder / file, data)
