"""The base of everything a person writes: frozen, and no key that is not known."""

import re
from typing import Annotated

from pydantic import AfterValidator, BaseModel, ConfigDict, WithJsonSchema

from drawcord.words.amount import shown

ID = r"[a-z][a-z0-9_-]{0,39}"


def _id(value: str) -> str:
    if not re.fullmatch(ID, value):
        raise ValueError(
            f"{shown(value)} is no id: use up to 40 small letters, digits, _ or -, and begin with a letter"
        )
    return value


Id = Annotated[str, AfterValidator(_id), WithJsonSchema({"type": "string", "pattern": f"^{ID}$"})]


class Closed(BaseModel):
    """Keys are written as people say them ("from front"); unknown ones are refused."""

    model_config = ConfigDict(
        frozen=True,
        extra="forbid",
        populate_by_name=True,
        allow_inf_nan=False,
        defer_build=True,  # whole files are read, so only their outermost models are ever built
        alias_generator=lambda name: name.replace("_", " "),
    )
