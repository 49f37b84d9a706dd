from journal.words.groups import grouped, grouped_by_each


def test_grouped__keeps_the_order_of_things_and_of_first_keys() -> None:
    assert {"p": ("pad", "pin"), "n": ("nut",)} == grouped(["pad", "nut", "pin"], lambda w: w[0])


def test_grouped__of_nothing_is_nothing() -> None:
    assert {} == grouped([], len)


def test_grouped_by_each__puts_a_thing_under_each_of_its_keys_once() -> None:
    found = grouped_by_each(["nut", "tin", "ebb"], iter)
    assert ("nut", "tin") == found["n"] == found["t"]
    assert ("ebb",) == found["b"]


def test_grouped_by_each__leaves_out_what_has_no_key() -> None:
    assert {} == grouped_by_each(["nut"], lambda _: ())
