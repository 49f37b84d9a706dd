"""Signatures over statements, and the keys that made them."""

from hashlib import sha256

from cryptography.exceptions import InvalidSignature, UnsupportedAlgorithm
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PublicKey
from cryptography.hazmat.primitives.serialization import (
    Encoding,
    PublicFormat,
    load_pem_public_key,
)


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
