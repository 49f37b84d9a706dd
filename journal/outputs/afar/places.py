"""A place that is told by an address, and the little that is asked of it: list, read, write, take away.

Whatever fsspec knows can be such a place. What lies there may have been put by anybody: a path that would
lead out of a folder is refused before anything is made of it.
"""

import os
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from datetime import datetime
from typing import Any, NamedTuple

from journal.outputs.sheets.disk import refusal
from journal.words.wrong import WrongCall

# Places that show a file while it is written; it is written under another name first.
_SHOWING = frozenset({"file", "local", "sftp", "ssh"})
_TAGS = ("ETag", "etag", "md5Hash", "content_md5", "sha256")
_TIMES = ("mtime", "LastModified", "last_modified", "updated", "modified", "created")


class Mark(NamedTuple):
    """By what a file that has not changed is known without reading it: its size, a tag that its place
    gives to its content, and else when it was changed, in ns. A place may tell neither."""

    size: int
    tag: str
    changed: int | None


class Place:
    """A folder by its address. Raises WrongCall for what cannot be reached, with the reason."""

    def __init__(self, address: str) -> None:
        self.address = address.rstrip("/")
        try:
            from fsspec.core import url_to_fs
        except ImportError:
            raise WrongCall(
                f"{address} needs what is not installed; install it with pip install "
                "'restoration-journal[cluster]'"
            ) from None
        try:
            self._system, root = url_to_fs(self.address, use_listings_cache=False)
        except (ImportError, ValueError) as fault:
            raise WrongCall(f"{address} cannot be reached: {fault}") from None
        self._root = str(root).rstrip("/")
        kinds = self._system.protocol
        told = (kinds,) if isinstance(kinds, str) else kinds
        self._kind, self._shows = told[0], bool(_SHOWING & {*told})

    def __reduce__(self) -> tuple[type["Place"], tuple[str]]:
        return Place, (self.address,)

    def names(self) -> dict[str, bool]:
        """What lies at the top by name, in order, and whether it is a folder; nothing of what is hidden."""
        with self._refusing("read"):
            try:
                found = self._system.ls(self._root, detail=True)
            except FileNotFoundError:
                return {}
        told = {self._below(one["name"]): one["type"] == "directory" for one in found}
        return {name: told[name] for name in sorted(told) if name and name[0] != "."}

    def files(self, below: str) -> dict[str, Mark]:
        """All files below a folder by path, in order."""
        self._system.invalidate_cache()
        with self._refusing("read", below):
            found = self._system.find(f"{self._root}/{below}", detail=True)
        return {path: _mark(told) for path, told in sorted(self._plain(found))}

    def _plain(
        self, found: Mapping[str, Mapping[str, Any]]
    ) -> Iterable[tuple[str, Mapping[str, Any]]]:
        for name, told in found.items():
            path = self._below(name)
            if told.get("islink"):
                raise WrongCall(
                    f"{self.address}/{path} is a link; put the file itself in its place"
                )
            yield path, told

    def read(self, paths: Iterable[str]) -> dict[str, bytes]:
        """The bytes of files; those that are not there are left out."""
        wanted = {f"{self._root}/{path}": path for path in paths}
        if not wanted:
            return {}
        found = self._system.cat([*wanted], on_error="return")
        # One file alone comes by itself from some places.
        held = found if isinstance(found, dict) else {next(iter(wanted)): found}
        read = {self._below(name): data for name, data in held.items()}
        for path, data in read.items():
            if isinstance(data, Exception) and not isinstance(data, FileNotFoundError):
                raise WrongCall(f"{self.address}/{path} cannot be read: {data}") from data
        return {path: data for path, data in read.items() if isinstance(data, bytes)}

    def write(self, path: str, data: bytes) -> None:
        """Write a file; it appears whole."""
        with self._refusing("written", path):
            self._write(f"{self._root}/{path}", data)

    def _write(self, file: str, data: bytes) -> None:
        if not self._shows:
            self._system.pipe_file(file, data)
            return
        folder, _, name = file.rpartition("/")
        self._system.makedirs(folder, exist_ok=True)
        part = f"{folder}/.{name}.part"
        self._system.pipe_file(part, data)
        self._system.mv(part, file)

    def remove(self, path: str) -> None:
        """Take a file away, if it is there."""
        with self._refusing("taken away", path):
            try:
                self._system.rm_file(f"{self._root}/{path}")
            except FileNotFoundError:
                return

    def holds(self, other: "Place") -> bool:
        """Whether another place is this one or lies in it."""
        return self._kind == other._kind and f"{other._inside}/".startswith(f"{self._inside}/")

    @property
    def _inside(self) -> str:
        """The path that tells what lies in what; links are followed where that can be known."""
        return os.path.realpath(self._root) if self._kind == "file" else self._root

    @contextmanager
    def _refusing(self, what: str, path: str = "") -> Iterator[None]:
        try:
            yield
        except OSError as fault:
            told = f"{self.address}/{path}".rstrip("/")
            raise WrongCall(f"{told} cannot be {what}: {refusal(fault)}") from fault

    def _below(self, name: str) -> str:
        """A path relative to the place."""
        path = str(name).strip("/").removeprefix(self._root.strip("/")).strip("/")
        parts = path.split("/") if path else []
        if {"", ".", ".."} & {*parts} or {"\\", "\0"} & {*path}:
            raise WrongCall(f"{self.address} holds {path!r}, which names no file here; rename it")
        return path


def _mark(told: Mapping[str, Any]) -> Mark:
    tag = next((str(told[key]) for key in _TAGS if told.get(key)), "")
    changed = next((told[key] for key in _TIMES if told.get(key)), None)
    return Mark(int(told.get("size") or 0), tag, _in_ns(changed))


def _in_ns(changed: object) -> int | None:
    if isinstance(changed, str):
        try:
            changed = datetime.fromisoformat(changed)
        except ValueError:
            return None
    if isinstance(changed, datetime):
        changed = changed.timestamp()
    return int(changed * 1_000_000_000) if isinstance(changed, int | float) else None
