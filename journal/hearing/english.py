"""Whether a talk is in English: by the share of its commonest words against those of neighbours.

The tables hold words of everyday grammar, from memory; words that two of the languages share are left out.
"""

from journal.hearing.tokens import Token

_ENGLISH = frozenset(
    """
    the and of to a is was it that i we you he she they this these those with for from on at by be been are
    were has have had having do does did done not no
    but if so then than there here what which who when where
    how why all some any more most other another as or because after before about into over under out up
    down off just only very too also again now got get getting put took take taken went go going come came
    my our your his her their its it's i've i'm i'll i'd we've we're we'll that's there's don't didn't can't
    won't isn't wasn't doesn't couldn't haven't would could should will can may might must need needs today
    tomorrow yesterday morning hours hour back new old one two three four five six both each fitted removed
    cleaned checked bolts nuts front rear left right side
    """.split()
)
_OTHERS = (
    frozenset(
        """
    der das und ich ist nicht ein eine einen einem einer mit
    auf für von dem den des im zu zum zur wir sie es
    auch noch wieder haben habe hatte hat sind wurde wurden werden aber oder wie dann heute gestern morgen
    stunden stunde neu neue neuen alte alten vorne hinten
    links rechts nach bei aus über durch schon mal jetzt
    weil dass sich kann muss ganz gut eingebaut ausgebaut
    le la les un une des du et est sont dans pour avec
    sur pas ne que qui ce cette ces je nous vous il elle ils
    j'ai c'est mais ou où donc puis aussi très bien
    plus moins après avant encore tout tous fait été avons ont
    aux au en heures heure aujourd'hui hier demain
    neuf neuve neuves vieux vieille avant arrière gauche droite
    d'un d'une l'ai qu'il n'est
    het een ik niet met van op voor er zijn heb hebben heeft werd ook nog maar dan als bij uit door naar
    om te wij jij zij dat dit deze die wel geen uur uren vandaag gisteren nieuwe oude achter
    gedaan gemaakt weer vervangen
    el los las una unos y con por para pero como muy más está del al se lo hoy ayer horas
    """.split()
    )
    - _ENGLISH
)
# Fewer words than this may be all of the trade, with no grammar in them.
_FEW = 12


def is_english(tokens: tuple[Token, ...]) -> bool:
    """Whether most of what holds the sentences together is English."""
    words = [token.text for token in tokens if token.text[0].isalpha()]
    english = sum(word in _ENGLISH for word in words)
    others = sum(word in _OTHERS for word in words)
    if others > english:
        return False
    return len(words) < _FEW or english * 10 >= len(words)
