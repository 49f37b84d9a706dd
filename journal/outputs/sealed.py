"""The seals of a car, held against what there is."""

from pathlib import Path

from journal.ledgers.seals import UNSEALED, Seals, fold_seals
from journal.outputs.refused import reading
from journal.reading.hashes import files_of
from journal.reading.seals import FOLDER, read_seals
from journal.records.carfile import CarFile


def seals_of(root: Path, car: CarFile) -> Seals:
    """The seals of a car held against the files that are there, which are read when there are any.

    Raises WrongCall when one of them cannot be read.
    """
    with reading(root):
        seals = read_seals(root / car.name / FOLDER)
        if not seals:
            return UNSEALED
        files = files_of(root, car)
    return fold_seals(seals, files.hashes, files.days)
