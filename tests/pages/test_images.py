"""Every image of every page of the demonstration: words for who cannot see it, its size, its turn."""

import re
from pathlib import Path

import pytest

from journal.words.vocabulary import Reader
from tests.published import CONTENT, archive_for, pages

READERS = (Reader.WORKSHOP, Reader.OWNER, Reader.PUBLIC)
FILES = frozenset(
    name.casefold() for file in CONTENT.glob("*/photos/**/*.*") for name in (file.name, file.stem)
)


def _images(text: str) -> list[dict[str, str]]:
    tags = re.findall(r"<img\s[^>]*>", text)
    return [dict(re.findall(r'([\w-]+)="([^"]*)"', tag)) for tag in tags]


def _pages(reader: Reader) -> tuple[tuple[Path, str], ...]:
    return tuple((page, page.read_text(encoding="utf-8")) for page in pages(archive_for(reader)))


@pytest.mark.parametrize("reader", READERS)
def test_image__is_described_measured_and_decoded_in_its_own_time(reader: Reader) -> None:
    wrong = [
        (page.name, image)
        for page, text in _pages(reader)
        for image in _images(text)
        if not (
            {"src", "alt", "width", "height"} <= image.keys() and image.get("decoding") == "async"
        )
    ]
    assert [] == wrong


@pytest.mark.parametrize("reader", READERS)
def test_alt__is_never_the_name_of_a_file(reader: Reader) -> None:
    assert len(FILES) > 40
    told = {image["alt"].casefold() for _, text in _pages(reader) for image in _images(text)}
    assert set() == told & FILES
    assert [] == [alt for alt in told if re.search(r"\.(jpe?g|png|webp|tiff?|hei[cf])\b", alt)]


@pytest.mark.parametrize("reader", READERS)
def test_image__that_stands_alone_in_a_link_says_where_it_leads(reader: Reader) -> None:
    """An empty `alt` is for what words beside it say already."""
    for page, text in _pages(reader):
        for link in re.findall(r"<a\s[^>]*>(?:(?!</a>).)*<img(?:(?!</a>).)*</a>", text, re.S):
            words = re.sub(r"<[^>]*>", "", link).strip()
            assert words or all(image["alt"] for image in _images(link)), (page.name, link)


@pytest.mark.parametrize("reader", READERS)
def test_page__fetches_at_most_one_picture_before_all_others(reader: Reader) -> None:
    for page, text in _pages(reader):
        images = _images(text)
        first = [image for image in images if image.get("fetchpriority") == "high"]
        assert len(first) <= 1, page.name
        assert not first or images[0] == first[0], page.name
        if page.name != "contact.html" and page.parent.name != "contact":
            waits = [image for image in images if image.get("loading") == "lazy"]
            assert len(images) == len(waits) + len(first), page.name
