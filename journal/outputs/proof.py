"""A proof for one file: everything that shows it to be under a seal, in one small file of its own."""

import json
from base64 import b64decode, b64encode
from binascii import Error
from hashlib import file_digest
from pathlib import Path

from msgspec import Struct

from journal.ledgers.seals import fold_seals
from journal.reading.seals import FOLDER, read_seals
from journal.reading.signatures import is_signed, key_hash, public_key_in
from journal.records.carfile import CarFile
from journal.records.seal import PUBLIC_KEY, SIGNATURE, STATEMENT, Entry, Statement, statement_in
from journal.words.merkle import inclusion, root_from_inclusion
from journal.words.names import nearest
from journal.words.wrong import WrongCall

_ABOUT = (
    "This shows that a file was in a sealed record as it is. Take the SHA-256 of the file: it must be "
    "sha256. Take the hash of a zero byte and the line 'sha256, two spaces, path, line feed', and go "
    "up the tree with hashes as RFC 9162, section 2.1.3.2, says, from index in a tree of that size: it "
    "must give the root in the statement. The statement must be signed by the key (Ed25519)."
)


class Proven(Struct, frozen=True):
    """A proof that holds: of which path, with which hash, under which statement."""

    path: str
    sha256: str
    statement: Statement


def proof_of(root: Path, car: CarFile, path: str) -> str:
    """The proof for a file of a car under its newest seal, as JSON.

    Raises WrongCall when no seal knows the file.
    """
    folder = root / car.name / FOLDER
    seals = read_seals(folder)
    held = fold_seals(seals, {}, {})
    if held.faults or not held.statements:
        raise WrongCall("there are no seals that hold; journal verify says more")
    entries = [entry for seal in seals for entry in seal.entries or ()]
    places = [n for n, entry in enumerate(entries) if entry.path == path]
    if not places:
        meant = nearest(path, [entry.path for entry in entries])
        way = f"; write {meant}" if meant else "; name it relative to the car's folder"
        raise WrongCall(f'no seal knows a file "{path}"{way}')
    index = places[-1]
    last = folder / seals[-1].name
    told = {
        "about": _ABOUT,
        "path": path,
        "sha256": entries[index].sha256,
        "index": index,
        "size": len(entries),
        "hashes": [node.hex() for node in inclusion([e.leaf for e in entries], index)],
        "statement": (last / STATEMENT).read_text(encoding="utf-8"),
        "signature": b64encode((last / SIGNATURE).read_bytes()).decode(),
        "key": (last / PUBLIC_KEY).read_text(encoding="ascii"),
    }
    return json.dumps(told, indent=2, ensure_ascii=False) + "\n"


def check_proof(text: str, file: Path | None) -> Proven | str:
    """What a proof proves, or why it proves nothing. With a file, that the proof is of that file."""
    try:
        told = json.loads(text)
        path, sha, index, size = (told[key] for key in ("path", "sha256", "index", "size"))
        hashes = [bytes.fromhex(node) for node in told["hashes"]]
        written, pem = str(told["statement"]).encode(), str(told["key"]).encode()
        signature = b64decode(told["signature"], validate=True)
    except (ValueError, KeyError, TypeError, Error):
        return "it is no proof that this program wrote"
    statement, key = statement_in(written.decode()), public_key_in(pem)
    if statement is None or key is None or not isinstance(index, int) or not isinstance(size, int):
        return "it is no proof that this program wrote"
    if file is not None and _hash(file) != sha:
        return f"{file.name} is not the file that was sealed; its SHA-256 is another one"
    if not is_signed(key, written, signature) or key_hash(key) != statement.key:
        return "the statement is not signed by the key that it names"
    root = root_from_inclusion(Entry.of(str(path), str(sha)).leaf, index, size, hashes)
    if size != statement.entries or root is None or root.hex() != statement.root:
        return "the hashes do not lead to the root of the statement"
    return Proven(str(path), str(sha), statement)


def _hash(file: Path) -> str:
    with file.open("rb") as opened:
        return file_digest(opened, "sha256").hexdigest()
