"""What a page shows is told in values: texts, whole numbers, what is marked up, and records of these."""

from msgspec import Struct


class Value(Struct, frozen=True, tag="\0{}".format, array_like=True, gc=False):
    """A record that comes to stand in the values of a page.

    As bytes it is its tag and then its fields in order (`outputs.kept.pack.printed`). The tag is the name
    of its class behind a character that no text has, so that no texts in a row are taken for a record.
    No two of these classes have one name; a record is never taken apart by place. It is made of what was
    there before it, so that none is part of a circle that the collector would have to look for.
    """
