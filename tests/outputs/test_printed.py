"""The print of what a page shows: the same for equal values, others wherever a page could differ."""

from copy import deepcopy
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from markupsafe import Markup

from journal.outputs.kept.pack import printed
from journal.pages.charts import Mark
from journal.pages.links import Ref
from journal.pages.progress import StepMark
from journal.pages.words import Figure

# Few, so that two draws are often alike but for one of them.
words = st.sampled_from(["", "a", "Ref", "None", "1", "<b>"])
plain = st.one_of(
    words,
    words.map(Markup),
    st.none(),
    st.booleans(),
    st.integers(-2, 2),
    st.builds(Ref, words, st.none() | words),
    st.builds(Figure, words, words),
)
values = st.recursive(
    plain,
    lambda inner: (
        st.lists(inner, max_size=3).map(tuple) | st.dictionaries(words, inner, max_size=2)
    ),
    max_leaves=4,
)


@given(values, values)
def test_two_values__are_printed_alike_when_they_are_the_same(one: object, other: object) -> None:
    # What Python shows of a value tells its type, the types in it and their order; `==` does not.
    assert (repr(one) == repr(other)) is (printed(one) == printed(other))


@given(values)
def test_value__is_printed_alike_whatever_objects_it_is_made_of(value: object) -> None:
    assert printed((value, value)) == printed((value, deepcopy(value)))


@pytest.mark.parametrize(
    ("one", "other"),
    [
        (True, 1), (False, 0), (None, ""), (1, "1"), ("", ()),
        ("<b>", Markup("<b>")), ("1", ("1",)), ((), {}), (("a", "b"), {"a": "b"}),
        (Ref("a"), ("a", None)), (Ref("a"), ("Ref", "a", None)), (Ref("a"), Ref("a", "")),
        (Figure("a", "b"), Ref("a", "b")), (Mark("a", "b"), StepMark("a", "b")),
        ({"a": 1, "b": 2}, {"b": 2, "a": 1}), ((("a",), "b"), ("a", ("b",))), ("a", "b"),
    ],
)  # fmt: skip
def test_values_that_pages_show_in_another_way__have_other_prints(
    one: object, other: object
) -> None:
    assert printed(one) != printed(other)


@pytest.mark.parametrize("value", [Fraction(1, 2), object(), 1j, ValueError("wrong")])
def test_what_no_page_shows__is_refused(value: object) -> None:
    kind = type(value).__name__
    with pytest.raises(TypeError, match=f"{kind} is nothing that a page shows"):
        printed({"a": (value,)})
