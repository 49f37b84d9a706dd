"""The order in which files of an archive appear: a page comes after what it shows, and the page that leads
to all others comes last."""


def turn(path: str) -> tuple[bool, bool, bool, str]:
    """What sorts paths by their turn: what pages show, pages, front pages of cars, the front page."""
    return (is_page(path), path.rpartition("/")[2] == "index.html", path == "index.html", path)


def is_page(path: str) -> bool:
    """Whether a file has links that a reader follows."""
    return path.endswith(".html")
