"""The page that is read first: whole in itself, and its commands bear the bag out."""

import base64
import hashlib
import json
import re
import shutil
import subprocess
from pathlib import Path

import html5lib

from journal.outputs.bag.verify import verify_bag
from journal.reading.signatures import key_hash
from journal.words.spoken import spoken
from tests.outputs.packing import KEY, MORE, back_date, pack, put_car
from tests.tern import put_file


def page_of(bag: Path) -> str:
    return (bag / "READ-ME-FIRST.html").read_text(encoding="utf-8")


def test_page__is_whole_in_itself_and_every_link_leads_somewhere(bag: Path) -> None:
    text = page_of(bag)
    tree = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parse(text)
    assert [] == list(tree.iter("script"))
    links = [a.get("href") for a in tree.iter("a")]
    assert {"data/dossier.pdf", "data/archive/index.html"} <= set(links)
    assert [] == [link for link in links if not (bag / link).exists()]
    assert "http:" not in text
    assert "https:" not in text


def test_page__allows_its_own_style_and_nothing_else(bag: Path) -> None:
    text = page_of(bag)
    (style,) = re.findall(r"<style>(.*?)</style>", text, re.DOTALL)
    digest = base64.b64encode(hashlib.sha256(style.encode()).digest()).decode()
    assert (
        f"default-src 'none'; style-src 'sha256-{digest}'; base-uri 'none'; form-action 'none'"
        == re.search(r'Security-Policy" content="([^"]*)"', text)[1]
    )


def commands(bag: Path) -> list[str]:
    """The commands for Linux, in the order of the page."""
    tree = html5lib.parse(page_of(bag), namespaceHTMLElements=False)
    return [code.text for code in tree.iter("code") if code.get("data-on") == "linux"]


def run(command: str, bag: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        ["bash", "-o", "pipefail", "-c", command], cwd=bag, capture_output=True, text=True
    )


def test_commands_of_the_page__bear_out_a_good_bag(bag: Path) -> None:
    lists, signature, signed, key, seal, as_sealed = commands(bag)
    assert "Good.\n" == run(lists, bag).stdout
    assert "Signature Verified Successfully" in run(signature, bag).stdout
    checked = run(signed, bag)
    assert (0, 5) == (checked.returncode, checked.stdout.count(": OK"))
    assert "READ-ME-FIRST.html: OK" in checked.stdout
    assert run(key, bag).stdout.rstrip().endswith(key_hash(KEY.public_key()))
    assert "Signature Verified Successfully" in run(seal, bag).stdout
    assert "Good.\n" == run(as_sealed, bag).stdout


def test_commands_of_the_page__find_what_was_changed(bag: Path) -> None:
    lists, signature, signed, _, seal, as_sealed = commands(bag)
    back_date(bag)
    assert "2024-03-08-off.md: FAILED" in run(as_sealed, bag).stdout
    assert "2024-03-08-off.md: FAILED" in run(lists, bag).stdout
    with (bag / "bag-info.txt").open("a") as file:
        file.write("Bag-Size: large\n")
    assert "bag-info.txt: FAILED" in run(signed, bag).stdout
    for command, file in ((signature, "signed/bag.txt"), (seal, "data/seals/0001/statement.txt")):
        (bag / file).write_text((bag / file).read_text() + "\n")
        assert 0 != run(command, bag).returncode


def test_words_on_the_page__are_those_of_the_key_by_the_rule_that_stands_there(bag: Path) -> None:
    tree = html5lib.parse(page_of(bag), namespaceHTMLElements=False)
    groups = [li for ol in tree.iter("ol") if ol.get("class") == "words" for li in ol.iter("li")]
    told = tuple(" ".join("".join(li.itertext()).split()) for li in groups)
    digest = key_hash(KEY.public_key())
    assert spoken(bytes.fromhex(digest)) == told[:16]
    (text,) = (p.text for p in tree.iter("p") if p.get("class") == "soft")
    words = {int(n): word for n, word in re.findall(r"(\d+) (\w+)", text)}
    by_hand = [int(digest[n : n + 4], 16) for n in range(0, 64, 4)]
    assert [f"{words[n // 1024]} {n % 1024:04}" for n in by_hand] == list(told[:16])


def test_page_of_a_car_without_seals__tells_of_none(tmp_path: Path) -> None:
    root = put_car(tmp_path / "content")
    shutil.rmtree(root / "tern" / "seals")
    bag = pack(root, tmp_path / "tern")
    assert "data/seals" not in page_of(bag)
    assert 4 == len(commands(bag))
    assert verify_bag(bag).good


def test_what_is_written_in_the_car_file__cannot_break_the_page(tmp_path: Path) -> None:
    root = put_car(tmp_path / "content")
    hostile = MORE.replace("Aldermoor Tern", '"</title><script>alert(1)</script>"')
    put_file(root, "tern/car.yaml", hostile.encode())
    shutil.rmtree(root / "tern" / "seals")
    bag = pack(root, tmp_path / "tern")
    assert "<script" not in page_of(bag)
    json.loads((bag / "data/vehicle.jsonld").read_text())
    json.loads((bag / "data/provenance.json").read_text())
