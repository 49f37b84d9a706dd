"""Lists that a sheet writes in short form: one thing where several may stand."""

from typing import Annotated

from pydantic import BeforeValidator

from journal.records.fields import Slug, Text, as_list

Slugs = Annotated[tuple[Slug, ...], BeforeValidator(as_list)]
Keys = Annotated[tuple[Text, ...], BeforeValidator(as_list)]
