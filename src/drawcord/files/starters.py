"""A rig and a job to start from: one pair a class of vehicle, named after the folder that they go into."""

import json
import re
from importlib.resources import files
from string import Template
from unicodedata import normalize

LONGEST = 34  # ids have at most 40 characters, and the job's ends in `-solar`


def starter(vehicle: str, name: str) -> dict[str, bytes]:
    """`rig.yaml` and `job.yaml` for a class of vehicle, with their ids and names made from any `name`.

    Raises FileNotFoundError for a class that has no starter.
    """
    names = {"id": _id(name, vehicle), "name": _quoted(name) or vehicle}
    written = {}
    for part in ("rig.yaml", "job.yaml"):
        text = (files("drawcord") / "starters" / f"{vehicle}.{part}").read_text("utf-8")
        written[part] = Template(text).substitute(names).encode()
    return written


def _id(name: str, vehicle: str) -> str:
    """A legal id that resembles `name`; where it has no letter to begin with, the class comes first."""
    plain = normalize("NFKD", name.casefold()).encode("ascii", "ignore").decode()
    words = re.sub(r"[^a-z0-9_]+", "-", plain).strip("-_")
    begun = words if words[:1].isalpha() else f"{vehicle}-{words}"
    return begun[:LONGEST].rstrip("-_")


def _quoted(name: str) -> str:
    """`name` as it stands between double quotes in YAML, without characters that do not show."""
    shown = "".join(letter for letter in name if letter.isprintable()).strip()
    return json.dumps(shown, ensure_ascii=False)[1:-1]
