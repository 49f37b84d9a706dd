"""`terms.yaml`: what people say for the things and acts of the trade."""

from typing import Annotated

from pydantic import AfterValidator, BeforeValidator

from journal.records.fields import Named, Slug, Text, Written, as_list, refuse
from journal.words.names import nearest
from journal.words.text import listed
from journal.words.vocabulary import Act

Words = Annotated[tuple[Text, ...], BeforeValidator(as_list)]


class Thing(Written):
    """One thing by all its `names`, and its `parts`, which are not the whole of it. `in_` is the
    subsystem it lies in, `of` words that the name of its component holds, the most fitting first; the
    register of a car decides which of them there is."""

    names: Words
    parts: Words = ()
    in_: Slug
    of: Words


class Dialect(Written):
    """What other people mean: `by` are the words they are known by, `means` what their words are here."""

    by: Words = ()
    means: Named[Text] = Named()


def _by_act(told: Named[Words]) -> Named[Words]:
    """Words stand under acts, and under nothing else."""
    known = [act.value for act in Act]
    for name in told.names():
        if name not in known:
            meant = nearest(name, known)
            way = f"write {meant}" if meant else f"use one of {listed(known, 'or')}"
            raise refuse("bad-word", f'has no act "{name}"', help=way)
    return told


ByAct = Annotated[Named[Words], AfterValidator(_by_act)]


class Terms(Written):
    """What people say: the `things`; the `american` words; what dictation mishears, and what was said;
    `weak` words that alone say too little; `nothing`, words that name no component; verbs and nouns by
    the act they tell; `irregular` verbs by base, past and participle."""

    things: tuple[Thing, ...] = ()
    american: Dialect = Dialect()
    misheard: Named[Text] = Named()
    weak: Words = ()
    nothing: Words = ()
    acts: ByAct = Named()
    irregular: tuple[Words, ...] = ()
    nouns: ByAct = Named()

    def with_own(self, own: "Terms") -> "Terms":
        """These terms and those of a workshop, whose own stand first."""
        return Terms.model_construct(
            things=own.things + self.things,
            american=Dialect.model_construct(
                by=own.american.by + self.american.by,
                means=_joined(own.american.means, self.american.means),
            ),
            misheard=_joined(own.misheard, self.misheard),
            weak=own.weak + self.weak,
            nothing=own.nothing + self.nothing,
            acts=_together(own.acts, self.acts),
            irregular=own.irregular + self.irregular,
            nouns=_together(own.nouns, self.nouns),
        )


def _joined(first: Named[str], second: Named[str]) -> Named[str]:
    return Named([*first, *((name, said) for name, said in second if name not in first)])


def _together(first: Named[Words], second: Named[Words]) -> Named[Words]:
    names = dict.fromkeys([*first.names(), *second.names()])
    return Named((n, (*(first.get(n) or ()), *(second.get(n) or ()))) for n in names)
