"""The workshop's key: made once, kept outside the content, read by nobody else."""

import os
from pathlib import Path

from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey
from cryptography.hazmat.primitives.serialization import (
    Encoding,
    NoEncryption,
    PrivateFormat,
    PublicFormat,
    load_pem_private_key,
)

from journal.words.wrong import WrongCall

_OTHERS = 0o077


def make_key(file: Path) -> Ed25519PrivateKey:
    """Make a key and write it where only its owner may read it.

    Raises WrongCall when a file is there, or its folder cannot be written.
    """
    key = Ed25519PrivateKey.generate()
    pem = key.private_bytes(Encoding.PEM, PrivateFormat.PKCS8, NoEncryption())
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        handle = os.open(file, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    except FileExistsError:
        raise WrongCall(f"{file} is there already; a key is never written over") from None
    except OSError as fault:
        raise WrongCall(f"{file} cannot be written: {fault.strerror}") from fault
    with os.fdopen(handle, "wb") as opened:
        opened.write(pem)
    return key


def read_key(file: Path, *, keep_out_of: Path) -> Ed25519PrivateKey:
    """The key in a file.

    Raises WrongCall when there is none, when it lies inside the content folder, where it would be
    copied and published with the rest, or when others may read it.
    """
    if file.resolve().is_relative_to(keep_out_of.resolve()):
        raise WrongCall(f"the key {file} lies inside the content folder; keep it elsewhere")
    if not file.is_file():
        raise WrongCall(f"there is no key at {file}; make one with journal make-key")
    if os.name == "posix" and file.stat().st_mode & _OTHERS:
        raise WrongCall(f"others may read the key {file}; take that away with chmod 600")
    try:
        key = load_pem_private_key(file.read_bytes(), password=None)
    except (ValueError, TypeError):
        key = None
    if not isinstance(key, Ed25519PrivateKey):
        raise WrongCall(f"{file} holds no key for seals; make one with journal make-key")
    return key


def public_pem(key: Ed25519PrivateKey) -> bytes:
    """The public half as a PEM text, for everybody."""
    return key.public_key().public_bytes(Encoding.PEM, PublicFormat.SubjectPublicKeyInfo)
