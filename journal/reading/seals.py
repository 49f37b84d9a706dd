"""The seals of a car, and the hashes of the files that they answer for."""

from hashlib import sha256
from pathlib import Path

from cryptography.exceptions import InvalidSignature, UnsupportedAlgorithm
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PublicKey
from cryptography.hazmat.primitives.serialization import (
    Encoding,
    PublicFormat,
    load_pem_public_key,
)

from journal.records.seal import (
    ENTRIES,
    PUBLIC_KEY,
    SIGNATURE,
    STATEMENT,
    Seal,
    entries_in,
    statement_in,
)

FOLDER = "seals"


def read_seals(folder: Path) -> tuple[Seal, ...]:
    """The seals in a folder by name. What cannot be read as one is there with what can be read of it."""
    names = (path.name for path in folder.glob("*") if path.is_dir())
    return tuple(_seal(folder / name) for name in sorted(names) if not name.startswith("."))


def key_hash(key: Ed25519PublicKey) -> str:
    """The name of a public key: SHA-256 of its DER form (RFC 8410), in hexadecimal."""
    return sha256(key.public_bytes(Encoding.DER, PublicFormat.SubjectPublicKeyInfo)).hexdigest()


def is_signed(key: Ed25519PublicKey | None, statement: bytes, signature: bytes) -> bool:
    """Whether a signature over a statement is by this key (RFC 8032, Ed25519)."""
    if key is None:
        return False
    try:
        key.verify(signature, statement)
    except InvalidSignature:
        return False
    return True


def public_key_in(pem: bytes) -> Ed25519PublicKey | None:
    """The Ed25519 key that a PEM text holds, or None."""
    try:
        key = load_pem_public_key(pem)
    except (ValueError, UnsupportedAlgorithm):
        return None
    return key if isinstance(key, Ed25519PublicKey) else None


def _seal(folder: Path) -> Seal:
    written = _bytes(folder / STATEMENT)
    statement = statement_in(written.decode("utf-8", errors="replace"))
    listed = _bytes(folder / ENTRIES).decode("utf-8", errors="replace")
    key = public_key_in(_bytes(folder / PUBLIC_KEY))
    named = statement is not None and key is not None and key_hash(key) == statement.key
    signed = named and is_signed(key, written, _bytes(folder / SIGNATURE))
    return Seal(folder.name, statement, entries_in(listed), signed)


def _bytes(file: Path) -> bytes:
    return file.read_bytes() if file.is_file() else b""
