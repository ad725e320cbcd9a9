"""The base of everything a person writes: frozen, and no key that is not known."""

from typing import Annotated

from pydantic import BaseModel, ConfigDict, StringConstraints

Id = Annotated[str, StringConstraints(pattern=r"^[a-z][a-z0-9_-]*$", max_length=40)]


class Closed(BaseModel):
    """Keys are written as people say them ("from front"); unknown ones are refused."""

    model_config = ConfigDict(
        frozen=True,
        extra="forbid",
        populate_by_name=True,
        alias_generator=lambda name: name.replace("_", " "),
    )
