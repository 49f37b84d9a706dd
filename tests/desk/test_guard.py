"""Who is answered and who is not.

The attacks are those of the OWASP cheat sheets "Cross-Site Request Forgery Prevention" (checking the
origin with standard headers, custom request headers, fetch metadata) and of DNS rebinding as RFC 6761
and the Fetch Metadata specification (W3C) let it be told apart.
"""

import pytest

from journal.desk.app import WAYS
from journal.desk.guard import BODY, COOKIE, HEADERS, names_of
from journal.desk.keys import FormTokens
from tests.desk.asking import HERE, HOST, LAN, Asked, browser_for

CHANGES = [(way.method, way.path) for way in WAYS if way.method != "GET"]


@pytest.mark.parametrize("host", [HOST, "localhost:7411", "LOCALHOST:7411", "[::1]:7411"])
def test_host__a_name_of_the_desk_is_answered(desk: Asked, host: str) -> None:
    assert 200 == desk.browser.get("/", headers={"host": host}).status_code


@pytest.mark.parametrize(
    "host",
    ["desk.example:7411", "127.0.0.1", "127.0.0.1:80", "127.0.0.1:7411.desk.example", "", "0.0.0.0:7411",
     "localhost.desk.example:7411", LAN, "user@127.0.0.1:7411"],
)  # fmt: skip
def test_host__any_other_name_hears_nothing(desk: Asked, host: str) -> None:
    answer = desk.browser.get("/", headers={"host": host})
    assert (403, b"") == (answer.status_code, answer.content)


def test_host__two_names_are_none(desk: Asked) -> None:
    answer = desk.browser.get("/", headers=[("host", HOST), ("host", HOST)])
    assert 403 == answer.status_code


def test_names__of_port_80_go_without_it_too() -> None:
    assert {
        "127.0.0.1",
        "127.0.0.1:80",
        "localhost",
        "localhost:80",
        "[::1]",
        "[::1]:80",
    } == names_of(("127.0.0.1", "::1"), 80)


@pytest.mark.parametrize(
    "path", ["/", "/tern/index.html", "/style.css", "/_/live.js", "/nothing", "/phone"]
)
def test_headers__stand_on_every_answer(desk: Asked, path: str) -> None:
    answer = desk.browser.get(path)
    assert HEADERS == {name: answer.headers.get(name) for name in HEADERS}
    assert "server" not in answer.headers


def test_headers__stand_on_what_is_refused(desk: Asked) -> None:
    answer = desk.browser.get("/", headers={"host": "desk.example"})
    assert HEADERS == {name: answer.headers.get(name) for name in HEADERS}


@pytest.mark.parametrize(
    ("site", "mode", "dest", "status"),
    [
        ("none", "navigate", "document", 200),  # typed, or from a bookmark
        ("same-origin", "cors", "empty", 200),
        ("cross-site", "navigate", "document", 200),  # a link in a message
        ("cross-site", "no-cors", "image", 403),
        ("cross-site", "no-cors", "script", 403),
        ("same-site", "cors", "empty", 403),  # another port of this computer
        ("cross-site", "navigate", "iframe", 403),
    ],
)
def test_pages_elsewhere__show_nothing_of_the_desk(
    desk: Asked, site: str, mode: str, dest: str, status: int
) -> None:
    told = {"sec-fetch-site": site, "sec-fetch-mode": mode, "sec-fetch-dest": dest}
    assert status == desk.browser.get("/tern/index.html", headers=told).status_code


@pytest.mark.parametrize(("method", "path"), CHANGES)
@pytest.mark.parametrize(
    ("headers", "status"),
    [
        ({}, 403),
        ({"origin": "https://desk.example"}, 403),
        ({"origin": "null"}, 403),
        ({"origin": "http://127.0.0.1:9999"}, 403),
        ({"origin": "https://127.0.0.1:7411"}, 403),
        ({"origin": HERE, "sec-fetch-site": "cross-site"}, 403),
        ({"origin": HERE, "sec-fetch-site": "same-site"}, 403),
        ({"origin": HERE}, 409),
        ({"origin": HERE, "x-journal-token": "0" * 64}, 409),
        ({"origin": HERE, "x-journal-token": FormTokens().token_for("here")}, 409),
    ],
)
def test_change__without_our_page_and_its_token_there_is_none(
    desk: Asked, method: str, path: str, headers: dict[str, str], status: int
) -> None:
    path = path.replace("{draft}", "draft-0001").replace("{id}", "0" * 32).replace("{car}", "tern")
    assert status == desk.browser.request(method, path, headers=headers).status_code


def test_token__is_of_one_device_and_one_run() -> None:
    tokens = FormTokens()
    assert tokens.holds("here", tokens.token_for("here"))
    assert not tokens.holds("phone", tokens.token_for("here"))
    assert not FormTokens().holds("here", tokens.token_for("here"))


def test_body__is_bounded_before_it_is_read_and_while_it_comes(desk: Asked) -> None:
    told = desk.token()
    much = b"x" * (BODY + 1)
    assert 413 == desk.browser.post("/_/api/key", content=much, headers=told).status_code
    named = desk.browser.post("/_/api/key", headers={**told, "content-length": "many"}, content=b"")
    assert 413 == named.status_code


@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE", "PATCH", "OPTIONS", "TRACE"])
def test_methods__of_a_page_are_to_read_it(desk: Asked, method: str) -> None:
    answer = desk.browser.request(method, "/tern/index.html", headers=desk.token())
    assert 405 == answer.status_code
    assert "access-control-allow-origin" not in answer.headers


# Phones.


def test_phone__without_a_key_nothing_is_answered_whatever_is_asked(phone_desk: Asked) -> None:
    phone = browser_for(phone_desk.desk, LAN, "192.168.7.31")
    for path in ("/", "/tern/index.html", "/nothing", "/phone", "/_/live", "/_/api/token", "/style.css",
                 "/?key=", "/?key=wrong", "/?key=a&key=b"):  # fmt: skip
        answer = phone.get(path)
        assert (403, b"") == (answer.status_code, answer.content), path


def test_phone__the_key_lets_one_device_in_once(phone_desk: Asked) -> None:
    devices = phone_desk.desk.rules.devices
    assert devices is not None
    key = devices.new_key()
    first, second = (browser_for(phone_desk.desk, LAN, f"192.168.7.{n}") for n in (31, 32))
    answer = first.get(f"/?key={key}")
    assert (303, "/") == (answer.status_code, answer.headers["location"])
    cookie = answer.headers["set-cookie"]
    assert cookie.startswith(f"{COOKIE}=")
    assert {"HttpOnly", "Path=/", "SameSite=strict"} <= set(cookie.split("; "))
    assert 200 == first.get("/").status_code
    assert 403 == second.get(f"/?key={key}").status_code
    assert 403 == second.get("/").status_code


def test_phone__a_new_key_ends_the_one_before(phone_desk: Asked) -> None:
    devices = phone_desk.desk.rules.devices
    assert devices is not None
    before, _ = devices.new_key(), devices.new_key()
    assert (
        403 == browser_for(phone_desk.desk, LAN, "192.168.7.31").get(f"/?key={before}").status_code
    )


def test_phone__sees_no_key_and_gives_none(phone_desk: Asked) -> None:
    devices = phone_desk.desk.rules.devices
    assert devices is not None
    phone = browser_for(phone_desk.desk, LAN, "192.168.7.31")
    phone.get(f"/?key={devices.new_key()}")
    assert 403 == phone.get("/phone").status_code
    token = phone.get("/_/api/token").json()["token"]
    told = {"origin": f"http://{LAN}", "x-journal-token": token}
    for path in ("/_/api/key", "/_/api/away"):
        assert 403 == phone.post(path, headers=told).status_code


def test_phone__is_let_in_after_the_desk_was_started_again_until_sent_away(
    phone_desk: Asked,
) -> None:
    devices = phone_desk.desk.rules.devices
    assert devices is not None
    kept = devices.let_in(devices.new_key())
    assert kept
    again = type(devices)(devices._file)
    assert again.knows(kept)
    assert kept not in devices._file.read_text()
    assert 0o600 == devices._file.stat().st_mode & 0o777
    assert 200 == phone_desk.browser.post("/_/api/away", headers=phone_desk.token()).status_code
    assert not devices.knows(kept)
    assert not type(devices)(devices._file).knows(kept)


def test_phone__page_on_this_computer_shows_the_address_and_says_that_nothing_is_encrypted(
    phone_desk: Asked,
) -> None:
    devices = phone_desk.desk.rules.devices
    assert devices is not None
    page = phone_desk.browser.get("/phone").text
    assert f"http://{LAN}/?key={devices.key}" in page
    assert "not encrypted" in page


def test_phone__a_desk_without_phones_answers_no_other_computer(desk: Asked) -> None:
    assert 403 == browser_for(desk.desk, HOST, "192.168.7.31").get("/").status_code
