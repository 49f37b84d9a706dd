"""Recordings as the desk lets them be heard: films and sounds of a car, by names that were read.

They are answered in pieces, as a browser asks for them that goes to a moment (RFC 9110, section 14).
"""

import os
from pathlib import PurePosixPath

from starlette.requests import Request
from starlette.responses import FileResponse, Response

from journal.desk.asking import Way, car_named, said
from journal.desk.desk import Desk
from journal.reading.files import leads_out

# What a browser plays, and the words of a talk that lie beside it. Anything else is only fetched.
_KINDS = {
    ".mp4": "video/mp4", ".m4v": "video/mp4", ".mov": "video/quicktime", ".webm": "video/webm",
    ".mkv": "video/x-matroska", ".3gp": "video/3gpp", ".m4a": "audio/mp4", ".mp3": "audio/mpeg",
    ".aac": "audio/aac", ".wav": "audio/wav", ".flac": "audio/flac", ".ogg": "audio/ogg",
    ".oga": "audio/ogg", ".opus": "audio/ogg", ".amr": "audio/amr", ".vtt": "text/vtt",
    ".srt": "text/plain", ".txt": "text/plain",
}  # fmt: skip
_OTHER = "application/octet-stream"
# A browser plays a film on a page that it makes itself, which may fetch nothing but the film.
_PLAYED = (
    "default-src 'none'; media-src 'self'; style-src 'unsafe-inline'; base-uri 'none'; "
    "form-action 'none'; frame-ancestors 'none'"
)


async def get_recording(desk: Desk, request: Request) -> Response:
    """A recording, or the piece of it that is asked for."""
    car, file = car_named(desk, request), request.path_params["file"]
    if car is None or file not in (car.file.recording_files or ()):
        return said("There is no such recording.", 404)
    path = f"{car.file.name}/recordings/{file}"
    if leads_out(desk.root, path) is not None or not os.path.isfile(desk.root / path):
        return said("The recording is not there any more.", 404)
    kind = _KINDS.get(PurePosixPath(file).suffix.lower(), _OTHER)
    return FileResponse(
        desk.root / path, media_type=kind, filename=PurePosixPath(file).name,
        content_disposition_type="attachment" if kind == _OTHER else "inline",
        headers={"content-security-policy": _PLAYED, "cache-control": "private, no-cache"},
    )  # fmt: skip


WAYS: tuple[Way, ...] = (Way("GET", "/{car}/recordings/{file:path}", get_recording),)
