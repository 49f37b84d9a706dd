"""Closing a bag: a folder with its payload in `data/` becomes a bag, signed by the workshop."""

from collections.abc import Sequence
from pathlib import Path

from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

from journal.outputs.bag.layout import (
    ALGORITHMS,
    BAGIT,
    DECLARATION,
    INFO,
    PAYLOAD,
    READ_ME,
    files_below,
    hashes_below,
    info_text,
    manifest,
    manifest_text,
    oxum,
    tag_manifest,
)
from journal.outputs.keys import public_pem
from journal.outputs.staging import put

# The signature lies beside the bag's own files: it says who closed it, the manifests say over what.
SIGNED, SIGNATURE, KEY = "signed/bag.txt", "signed/bag.sig", "signed/workshop.pem"
SIGNED_HEADING = "Bag of a restoration journal, form 1"


def close_bag(folder: Path, info: Sequence[tuple[str, str]], key: Ed25519PrivateKey) -> None:
    """Write the declaration, the manifests, the labels and the signature around the payload."""
    payload = files_below(folder, PAYLOAD)
    hashes = hashes_below(folder, payload)
    put(folder, BAGIT, DECLARATION.encode())
    for algorithm in ALGORITHMS:
        put(folder, manifest(algorithm), manifest_text(hashes, algorithm).encode())
    labels = (*info, ("Payload-Oxum", oxum(folder, payload)))
    put(folder, INFO, info_text(labels).encode())
    statement = signed_text(folder).encode()
    put(folder, SIGNED, statement)
    put(folder, SIGNATURE, key.sign(statement))
    put(folder, KEY, public_pem(key))
    tags = tuple(p for p in files_below(folder) if not p.startswith(f"{PAYLOAD}/"))
    tag_hashes = hashes_below(folder, tags)
    for algorithm in ALGORITHMS:
        put(folder, tag_manifest(algorithm), manifest_text(tag_hashes, algorithm).encode())


def signed_text(folder: Path) -> str:
    """What is signed: the hashes of the declaration, the labels and the payload manifests, and of the
    page for people where there is one."""
    page = (READ_ME,) if (folder / READ_ME).is_file() else ()
    names = (BAGIT, INFO, *(manifest(algorithm) for algorithm in ALGORITHMS), *page)
    hashes = hashes_below(folder, names)
    return f"{SIGNED_HEADING}\n" + "".join(f"{hashes[n]['sha256']}  {n}\n" for n in names)
