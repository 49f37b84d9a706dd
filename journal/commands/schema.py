"""`journal schema`: the shapes of what is written, as JSON Schema, for editors that complete and check."""

import json
from pathlib import Path

import click

from journal.outputs.schemas import schemas
from journal.outputs.staging import put


@click.command()
@click.argument("folder", type=click.Path(path_type=Path, file_okay=False), required=False)
def schema(folder: Path | None) -> None:
    """Write the JSON Schemas into FOLDER, one a file, or print them all when none is named."""
    made = schemas()
    if folder is None:
        click.echo(json.dumps(made, indent=2, ensure_ascii=False))
        return
    for name, shape in made.items():
        text = json.dumps(shape, indent=2, ensure_ascii=False) + "\n"
        put(folder, f"{name}.schema.json", text.encode("utf-8"))
    click.echo(f"{len(made)} schemas in {folder}")
