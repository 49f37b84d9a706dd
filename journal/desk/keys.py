"""Who may ask: a one-time key for a phone, what the phone keeps instead of it, and tokens of forms."""

import hmac
import json
import os
from collections.abc import Callable
from hashlib import sha256
from pathlib import Path
from secrets import token_bytes, token_urlsafe
from threading import Lock

# What the workshop's own computer is called among the devices.
HERE = "here"
# A shop has a few phones; what is older makes room.
MOST_DEVICES = 20


class Devices:
    """The phones that were let in, each by what it keeps in a cookie; of that only the hash is kept.

    They stay let in when the desk is started again, until they are all sent away.
    """

    def __init__(self, file: Path) -> None:
        self._file = file
        self._lock = Lock()
        self._known = _known(file)
        self._key = ""

    def new_key(self) -> str:
        """A key that lets one device in, once; the one before lets nobody in any more."""
        with self._lock:
            self._key = token_urlsafe(16)
            return self._key

    @property
    def key(self) -> str:
        """The key that lets the next device in; a new one where the last was used up."""
        return self._key or self.new_key()

    def let_in(self, key: str) -> str | None:
        """What a device keeps that came with the key, which is used up; None for any other key."""
        with self._lock:
            if not self._key or not hmac.compare_digest(key.encode(), self._key.encode()):
                return None
            self._key = ""
            kept = token_urlsafe(32)
            self._known = (*self._known, _hash(kept))[-MOST_DEVICES:]
            self._write()
            return kept

    def knows(self, kept: str) -> bool:
        """Whether this was given to a device that is still let in."""
        return bool(kept) and _hash(kept) in self._known

    @property
    def count(self) -> int:
        """How many devices are let in."""
        return len(self._known)

    def send_away(self) -> None:
        """Let none of the devices in any more."""
        with self._lock:
            self._known, self._key = (), ""
            self._write()

    def _write(self) -> None:
        self._file.parent.mkdir(parents=True, exist_ok=True)
        part = self._file.with_suffix(".part")
        with open(part, "w", encoding="utf-8", opener=_private) as out:
            json.dump(self._known, out)
            out.flush()
            os.fsync(out.fileno())
        part.replace(self._file)


class FormTokens:
    """Tokens without which nothing is changed: a page of ours has one, and a page of anybody else
    cannot read it. They hold for one device and one run of the desk."""

    def __init__(self, secret: Callable[[int], bytes] = token_bytes) -> None:
        self._secret = secret(32)

    def token_for(self, device: str) -> str:
        """The token of a device."""
        return hmac.new(self._secret, device.encode(), sha256).hexdigest()

    def holds(self, device: str, token: str) -> bool:
        """Whether a token is that of this device."""
        return hmac.compare_digest(self.token_for(device).encode(), token.encode())


def _hash(kept: str) -> str:
    return sha256(kept.encode()).hexdigest()


def _known(file: Path) -> tuple[str, ...]:
    try:
        told = json.loads(file.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        # There is none yet, or it is damaged: a phone scans the code once more.
        return ()
    return tuple(t for t in told if isinstance(t, str)) if isinstance(told, list) else ()


def _private(path: str, flags: int) -> int:
    return os.open(path, flags, 0o600)
