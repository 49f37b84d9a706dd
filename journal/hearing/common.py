"""Everyday words, which are no misheard term of the trade."""

COMMON = frozenset(
    """
    a able about above across actually after afternoon again ago ah all almost alone along already also
    although always am an and another any anybody anyone anything anyway apart are around as ask asked
    at ate away back bad be because become been before began behind being below beside best better
    between big bit bits black blue both bottom bought boy bring brought but buy by bye call called came
    can can't cannot car careful carry cause cents certain change cheap child children clear close cold
    come comes coming complete cos could couldn't course cup cut dad day days dead deal dear decided did
    didn't different do does doesn't dog doing done don't down drink drive dry during each early easy
    eat eight eighteen eighty either eleven else end enough er especially even evening ever every
    everybody everyone everything exactly except expect eye face fact fair far fast feel feet fell few
    fifteen fifty find fine finish finished first five fit fits follow food for forget forty found four
    fourteen free friday friend from front full fun funny gave get gets getting give given gives giving
    glad go goes going gone gonna good got great green ground had hadn't half hand hands hang happen
    happened hard has hasn't hate have haven't having he he'd he'll he's head hear heard heat heavy held
    hell hello help her here hers hey him his hit hold home hope hot hour hours house how however
    hundred i i'd i'll i'm i've idea if in inside instead into is isn't it it'll it's its itself job
    just keep kept kind knew know known lady large last late later laugh learn least leave left less let
    let's letter life light like likely line list little live long look looked looking looks lot lots
    love lovely low luck lunch made main make makes making man many march mark matter may maybe me mean
    means meant men might mind mine minute minutes miss mister monday money month months more morning
    most mother move much mum must my name near nearly neat need needed needs never new next nice night
    nine nineteen ninety no nobody none nor not nothing now number o'clock of off offer often oh ok okay
    old on once one ones only open or order other others ought our out outside over own pair part parts
    past pay people per perhaps phone pick piece place plenty point poor possible pretty price probably
    promise proper properly put question quick quickly quite rain ran rather reach read ready real
    really reason red remember rest right ring road room round rubbish run said same saturday saw say
    saying says second see seem seemed seems seen send sent set seven seventeen seventy several shall
    she she'd she's shop short should shouldn't show side simple since sit six sixteen sixty size small
    so some somebody someone something sometimes soon sorry sort sound spend spent spot stand start
    started stay still stood stop stopped story straight strange strong stuff such sun sunday suppose
    sure table take taken takes taking talk tea tell ten than thank thanks that that'll that's the their
    them then there there's these they they'd they'll they're they've thing things think thirteen thirty
    this those though thought thousand three through thursday till time times tired to today together
    told tomorrow tonight too took top touch toward town tried trouble true try trying tuesday turn
    turned twelve twenty two um uh under until up upon us use used usual usually van very wait waited
    waiting walk wall want wanted wants warm was wasn't watch water way we we'd we'll we're we've
    weather wednesday week weeks weekend weight well went were weren't wet what what's when where
    whether which while white who whole whose why will wind window wish with without woman won't wonder
    word words work worked working works world worry worse worst worth would wouldn't write wrong year
    years yeah yes yesterday yet you you'd you'll you're you've young your bloke flake spanner hammer
    chisel millimetre millimetres millimeter reset mug drift taste truck garage rust dust paste grease
    penny shed ladder bucket rag tin biscuit kettle dinner lorry ruler vice stove weld paint
    """.split()
)
