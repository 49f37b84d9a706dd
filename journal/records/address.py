"""Where the archive of a car will be reached: a web address for each reader."""

import re
from typing import Annotated
from urllib.parse import urlsplit

from pydantic import BeforeValidator, WithJsonSchema
from pydantic_core import PydanticCustomError

from journal.records.fields import Written, refuse, scalar
from journal.words.vocabulary import Reader

# What an address may not hold as it stands (RFC 3987, section 2.2), and the dot of a masked number.
_UNFIT = re.compile(r'[\x00-\x20\x7f-\x9f<>"{}|\\^`•]')


def _web_address(value: object) -> str:
    """The address of a folder on a web server, ending in `/`."""
    text = scalar(value, "a web address")
    try:
        parts = urlsplit(text)
        whole = parts.scheme in ("http", "https") and bool(parts.hostname) and parts.port != 0
    except ValueError:
        whole = False
    if not whole or _UNFIT.search(text):
        raise _refused("a whole web address", text)
    if "@" in parts.netloc:
        raise _refused("a web address without a name and a password", text)
    if parts.query or parts.fragment or parts.path.endswith(".html"):
        raise _refused("the web address of a folder", text)
    return text.rstrip("/#?") + "/"


def _refused(wanted: str, text: str) -> PydanticCustomError:
    return refuse(
        "bad-address", f'must be {wanted}, found "{text}"',
        help="write where the folder of the archive will be reached, such as https://tern.example/journal/",
    )  # fmt: skip


WebAddress = Annotated[
    str,
    BeforeValidator(_web_address),
    WithJsonSchema({"type": "string", "format": "iri", "pattern": "^https?://"}),
]


class Addresses(Written):
    """Where the archive of one car for each reader will be reached; absent where it is on no server.

    Each is the address of the folder that holds the car's front page, and ends in `/`. The public is
    told its own alone. The next keeper's archive is handed over and is on no server.
    """

    workshop: WebAddress | None = None
    owner: WebAddress | None = None
    public: WebAddress | None = None

    def of(self, reader: Reader) -> str | None:
        """The address of one reader's archive, or None.

        There is none either where a name or a number was taken out of it, as out of every text that
        the public reads: what is left leads nowhere.
        """
        address = {
            Reader.WORKSHOP: self.workshop,
            Reader.OWNER: self.owner,
            Reader.KEEPER: None,
            Reader.PUBLIC: self.public,
        }[reader]
        return None if address is None or _UNFIT.search(address) else address
