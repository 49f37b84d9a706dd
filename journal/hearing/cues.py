"""Turns of phrase that tell of snags, of waiting, of what comes next, of parts, origins and decisions.

Common practice, no source.
"""

import re
from collections.abc import Iterable


def phrases(*rows: str) -> "re.Pattern[str]":
    """One pattern of several turns of phrase; blanks in them are blanks between words."""
    return re.compile(r"(?<!\S)(?:" + "|".join(rows) + r")(?!\S)")


# What is left loose, stands in for now, is wrong, worn or worrying.
LOOSE = phrases(
    r"(?:only |just |hand|finger) ?(?:finger|hand)? ?tight", r"(?:left|is|are|it's|still|just) (?:it |them )?loose",
    r"(?:not|isn't|aren't|haven't|hasn't|isnt|arent|havent|hasnt|never|un) ?(?:been |yet |properly )*"
    r"(?:torqued|tightened|done up|locked|split pinned|pinned|wired|bled|connected|nipped up|tight)(?: down| up)?",
    r"(?:just|only) (?:sat|sitting|resting|nipped|pinched|tacked|hung|clamped|held|hanging|laid)(?: \w+)?",
    r"nothing (?:holding|to hold)", r"tempor\w+(?: \w+)?", r"for the (?:time being|moment|minute|meantime)", r"for now",
    r"as a stand ?in", r"stand(?:s|ing)? in", r"bodge\w*", r"(?:cable|zip) ?tie[sd]?\b", r"slave (?:bolt|pin|gasket|pipe|battery)\w*",
    r"dummy \w+", r"(?:a |an )?(?:old|odd|plain|ordinary|slave|wrong|borrowed|scrap) (?:bolt|nut|screw|washer|pin)s?", r"borrowed",
    r"held (?:on |in |up |together )?(?:with|by)", r"no (?:split pin|locking|lock ?tab|tab washer|lock ?washer|grease|oil) \w+",
    r"without (?:a |the |any )?(?:split pins?|locking|lock ?tabs?|tab washers?|gasket|seal)", r"dry for now", r"not (?:been )?greased",
)  # fmt: skip
WRONG = phrases(
    r"(?:is |are |it's |was |were |has |its )?(?:\w+ )?(?:seized|siezed|cracked|frayed|perished|rotten|snapped|sheared|corroded|"
    r"scored|pitted|leaking|weeping|leaks|weeps|leaked|wept|dripping|drips|damp|split|torn|buckled|twisted|bent|worn(?: out)?|"
    r"chewed up|chewed|stripped thread|rusted(?: through)?|rusty|missing|jammed|fouling|fouls|binding|binds|rubbing|rubs|catches|catching|"
    r"sticking|sticks|stiff|noisy|chattering|smoking|arcing|flickering|flickers|loose|swollen|distorted|warped|proud|oval|ridged|"
    r"kinks|kinked|holed|porous|soft|spongy|dead|shot|knackered|blown|burnt|dented|chipped|scratched|delaminated|sagging|sagged|"
    r"wrinkled|puckered|creased|mismatched|undersize|oversize|misaligned)(?: \w+)?",
    r"a (?:bit of |little |touch of |slight |small |hairline |nasty |big )?(?:crack|leak|weep|drip|rattle|knock|squeak|ridge|lip|scratch|dent|run|sag|"
    r"hole|burr|twist|dry joint|tight spot|tight place|flat spot|lump|wobble|whine|grumble|gap|step|chip|nick|score|puncture|tear|split|stain|drag|bow|bulge)\b",
    r"(?:some|too much|lot of|bit of|slight|still|got|has|little|lots of|excessive) (?:play|slop|lift|float|rock|movement|wear|backlash|end float|run ?out|pitting|rust|corrosion|damp|knock|rot)",
    r"too (?:long|short|tight|loose|big|small|thick|thin|wide|narrow|high|low|deep|shallow|much|far|hot|rich|weak|hard|soft|bad|heavy|fat)",
    r"(?:won't|wont|wouldn't|wouldnt|doesn't|doesnt|don't|dont|didn't|didnt|never|not|isn't|isnt|can't|cant|couldn't|couldnt) (?:quite |even |really )?"
    r"(?:go|going|seat|seated|fit|fitting|line|close|closing|shut|latch|meet|hold|holding|reach|turn|move|charge|charging|spark|light|work|working|match|clear|pull|"
    r"return|engage|lift|start|run|read|come|square|true|flat|straight|right|sit|sitting|register|budge|swing|wind|catch|lock|seal|self cancel|flash|earth|go home|enter)\b(?: \w+)?",
    r"(?:thirty|forty|fifty|\w+) (?:mil|mm|thou|millimetres?|inch|inches) (?:\w+ )?(?:short|long|out|proud|low|high|over|under|thick|wide|too \w+)",
    r"(?:wrong|other) (?:hand|way|side|one|ones|size|thread|part|colour|shade|shape|pitch|length|taper|offset|angle|number|pattern|sort|type|place)",
    r"(?:needs?|wants?|want) (?:a |an |some |to be |new |another )?(?:\w+ing|looking at|doing|attention|sorting|replac\w+|new \w+|\w+ed|bush|shim|proper \w+|bit of \w+|tab washer)",
    r"(?:don't|dont|didn't|do not|not) (?:really |much )?(?:like|trust|happy|convinced|sure about|keen)", r"not (?:right|happy|good enough|good|true|square)",
    r"(?:worr(?:y|ied|ies)|bother(?:s|ed)|concern(?:s|ed)) (?:me|about|by)?", r"(?:keep|keeping) an eye", r"must(?:n't| not) forget", r"(?:don't|dont) let me forget",
    r"remind me", r"no good", r"(?:is|are|it's|that's|they're|its|thats|theyre) (?:\w+ )?scrap", r"had to file", r"open it (?:up|out)", r"by the wrong", r"lost (?:one|the|a)\b",
    r"(?:broke|broken|dropped|slipped|cross threaded|stripped the thread|rounded off)\b(?: \w+)?", r"no idea (?:why|where|what)", r"something's (?:\w+)", r"doesn't look right",
    r"(?:is|are|it's|its|feels?|felt|was|were) (?:a bit |very |quite |still |well |all )?(?:rough|loosely|like cheese|like a sponge|like \w+|brittle|hollow|filthy|scabby|thin|bare|grubby|lumpy|gritty|notchy)", r"loosely",
    r"(?:has|have|it's|its|rubber's|bond's|'s) let go(?: \w+)?", r"in (?:ribbons|pieces|tatters|bits)", r"too (?:slack|stiff|proud|rough|worn|far gone|sharp)", r"(?:doesn't|doesnt|don't|won't) do a thing", r"fail(?:s|ed)(?: its| the)?(?: \w+)? test", r"failed", r"pin ?holes?", r"not (?:very |too |really )?pleased", r"ran a bit",
    r"(?:haven't|havent|not|hasn't) (?:yet )?(?:put|fitted|got|done|bolted|connected|tightened|bled|filled) (?:the|any|a|it|them|that)(?: \w+){0,4}", r"(?:notchy|clunky|clicky|milky|cloudy|sludgy|blistered|lumpy|patchy|orange peel|crazed|faded|discoloured|tarnished)", r"nothing on it", r"more \w+ than i(?:'d)? like", r"(?:light's|lights|lamp's|light is) (?:been )?on",
    r"(?:wants?|needs?) (?:a |an |some |its |the |another )?(?:new |thicker |thinner |longer |shorter |proper |better |bigger |smaller |fresh |second |different )?\w+(?: \w+)?", r"down to (?:the|its|bare) \w+", r"(?:is|are|it's|its|they're) (?:still |a bit |all )?(?:wet|damp|oily|greasy|sticky)(?: \w+)?", r"(?:in|on) (?:with|on) (?:just |only )?(?:one|two|three|a couple of|\d) (?:bolts?|screws?|nuts?|tacks?|clips?)", r"with (?:just|only) (?:one|two|three|a) \w+",
    r"nothing(?:'s| is|s)? (?:torqued|tight|tightened|locked|pinned|done up|connected)", r"(?:one|it|that|this) (?:rocks|wobbles|knocks|drags|squeals|groans|growls)", r"(?:rocks|growls|grumbles|whines|squeals|rumbles|clonks|clunks|rattles|chatters)", r"no (?:seals?|gaskets?|split pins?|lock ?washers?|rubbers?|spring|clips?|earth|spark|charge)(?: \w+)?", r"some(?:body|one)(?:'s| had| has)? (?:put|welded|filled|cut|drilled|glued|bodged|brazed|bent|forced|ground|hacked|siliconed|painted)(?: \w+){0,3}",
    r"(?:can't|cant|couldn't) (?:get|tell|see|work)(?: \w+){0,3}", r"still (?:sitting|sat|loose|weeping|leaking|stiff|there|sticking|out|tight|dragging)(?: \w+)?",
    r"gone (?:hollow|soft|hard|brittle|flat|dead|off|through|rusty|stiff|rotten|again|missing|milky|cloudy|yellow|green)", r"(?:won't|wont|wouldn't|wouldnt|not going to|not) (?:shift|shifting|undo|come off|come out|come undone|release|free|stay|tighten)\b",
    r"(?:only|just) (?:on|in|held|fixed)(?: \w+)? (?:with|by) (?:one|two|three|four|a|\d+)", r"with (?:one|two|three|a) (?:\w+ )?(?:out of|of the|missing|short)", r"(?:not|isn't|isnt|aren't|arent|never|hasn't been|hasnt been|haven't been) (?:\w+ )?(?:checked|aimed|aligned|set up|adjusted|tested|tried|proved|signed|looked at|finished|glued|sealed|painted|balanced)(?: \w+){0,3}",
    r"(?:no|not put any|not any|isn't any|without) (?:brake |clutch )?(?:fluid|oil|water|coolant|grease|petrol|fuel|antifreeze)(?: (?:in|on|put)\b)?", r"(?:don't|dont|do not|nobody|no one) (?:anybody|anyone|let (?:anybody|anyone|anybody)|move|drive|lean|touch|start|road|press|pump|put|is to|must|use|fill)(?: \w+){0,5}",
    r"(?:got|has|there's|theres|it's got|its got|with) a (?:\w+ ){0,4}(?:in|on|at|under|across|along|round) (?:it|the|one|both|that)", r"(?:can't|cant|cannot|couldn't) find", r"(?:a|one|thing) to watch", r"(?:would|will) not have it on the road",
    r"tape on (?:it|them|the)", r"(?:elastic|rubber) band", r"with the (?:cap|cover|lid) off", r"reads? (?:\w+ ){1,4}(?:high|low|when|out|over|under|fast|slow)", r"more (?:filler|rust|hole|holes) (?:\w+ ){0,4}than", r"(?:is|are|it's|they're) lost", r"nobody (?:knows|checked|has)",
    r"on the (?:tight|loose|high|low|thin) side", r"(?:over|outside|out of|beyond|past) (?:the )?(?:limit|tolerance|spec)", r"haven't got (?:one|a|any|the)", r"havent got (?:one|a|any|the)",
)  # fmt: skip
# What takes the sting out of those: "no cracks", "not worn at all".
SOUND = re.compile(
    r"(?<!\S)(?:no|not|isn't|isnt|aren't|wasn't|wasnt|weren't|without|nothing|never|nor|hardly|used to be|was|were|had been|old one|neither)(?: \w+){0,2} $"
)

# What is awaited from others.
WAITING = phrases(
    r"wait(?:ing)? (?:for|on|to hear|till|until)", r"(?:still )?waiting", r"(?:hasn't|hasnt|haven't|havent|not|isn't|isnt|aren't|never|didn't|didnt|don't) "
    r"(?:yet |even |actually )?(?:come|came|arrived?|turned up|turn up|here|back|heard|been delivered|got here|shown up|ready)(?: back| yet)?",
    r"still (?:not here|no sign|no \w+|at the|away|with the|out at|on order|outstanding)", r"no sign of", r"on (?:back ?)?order", r"back ?ordered",
    r"(?:they|he|she|castlebank|it'll|they'll|he'll|she'll|itll|theyll|hell) (?:said|says|reckons?|reckoned|thinks?|promised|told me|told us|can|will|be|post|send|ring|let)"
    r"(?: \w+){0,4} (?:monday|tuesday|wednesday|thursday|friday|saturday|next week|tomorrow|week|weeks|fortnight|days|month|post|back|know|here|ready|by then)",
    r"(?:they|they're|he's|she's|theyre|hes) (?:are )?(?:sending|posting|making|doing|having|getting|looking|going to send)(?: \w+){0,3}",
    r"due (?:on|in|back|by|next|monday|tuesday|wednesday|thursday|friday)?", r"promised (?:for|by|them|it|me|us)?", r"chas(?:e|ed|ing)(?: \w+){0,2}",
    r"(?:ring|call|get back to|let|write back to|phone) (?:me|us)(?: back| know)?", r"(?:two|three|four|five|six|ten|couple of|\d+) (?:weeks?|days?|months?)(?: away| yet| at least| wait| he said| they said| she said)",
    r"(?:should|will|ought to|meant to|supposed to|'ll) (?:be|come|arrive|get)(?: \w+)? (?:here|back|in|by|on|monday|tuesday|wednesday|thursday|friday|next|tomorrow|this week)",
    r"(?:in|by|with) the (?:post|carrier)", r"(?:be|coming|come|back|here|ready|arriving) (?:on |by |next |this )?(?:monday|tuesday|wednesday|thursday|friday|saturday|week|tomorrow|end of)",
    r"(?:up to|ask|asking|asked|depends on|until|till) (?:her|him|mrs|mr|miss|mister|the owner|owner|the customer|the client)\b(?: \w+){0,3}", r"hear(?:d)? (?:back|nothing|from)",
    r"(?:said|says|reckons|reckon|reckoned|promised) (?:it'll be |they'll be |by |on |for |about |maybe |next )*(?:monday|tuesday|wednesday|thursday|friday|saturday|the week|week|end of|a week|a fortnight|two weeks|three weeks|ten days)",
    r"(?:wants?|like) (?:a |to see a )?(?:photograph|picture|photo|sample|price)(?: first| before)?", r"(?:hasn't|hasnt|haven't|havent|not) (?:yet )?(?:said|decided|told|answered|replied|rung|called|agreed|confirmed|made up)(?: \w+){0,2}", r"(?:they'll|he'll|she'll|theyll|they'd|he'd|she'd|theyd|will|would|to) (?:post|mail|send|ship|make|cut|do|drop|bring|collect|deliver|pick|quote|ring|call|let) (?:\w+ )?(?:it|them|one|me|us|a|another|the|some|up|off)",
    r"(?:they|he|she) wants? another (?:week|fortnight|month|day)", r"(?:can|will|'ll|could) have (?:it|them|one) (?:by |on |back )?(?:monday|tuesday|wednesday|thursday|friday|saturday|next|tomorrow)", r"by (?:monday|tuesday|wednesday|thursday|friday|saturday)", r"been with (?:them|him|her)", r"(?:i've|we've|ive|weve|i|we|edith's|jonah's|miriam's) asked", r"(?:are|is) (?:still )?(?:sending|posting|making|getting)", r"(?:two|three|four|five|six|eight|ten|\d+) (?:weeks?|months?) on (?:that|those|it)", r"(?:he|she|they) said (?:he'd|she'd|they'd|he would|they would)(?: \w+)?", r"got to have the \w+ before",
    r"on (?:its|their|the) way", r"com(?:es|ing) (?:on |by |with |next |in )?(?:the |a )?(?:carrier|post|monday|tuesday|wednesday|thursday|friday|saturday|next week|week|van|courier)", r"still (?:at|with|out)(?: \w+)?", r"till (?:they|he|she) (?:find|finds|get|gets|come|comes|can|send|sends|ring|rings|say|says|make|makes)", r"(?:i have|i've|we've|ive|weve|we have) asked(?: \w+){0,3}", r"(?:that's|that is|thats) (?:for|down to|up to) (?:jonah|miriam|edith|him|her|them|the \w+)",
    r"none (?:till|until|before)", r"(?:be|it's|its|that's|thats|another|about|least|say|says|said|takes?|for|maybe|than|two to|be about) (?:a |an |another |about |at least )?(?:\w+ )?(?:days|weeks|fortnight|months)(?! ago| in| late| old| on)", r"end of (?:the |next )?(?:month|week)", r"till (?:the )?\w+(?:'s| is| are|s)? (?:back|here|in|come)", r"back from",
    r"(?:is|are|it's|they're) (?:still )?(?:away|at the \w+ers|with the \w+ers)", r"not till (?:\w+)",
)  # fmt: skip

# What comes next, and is not done.
NEXT = phrases(
    r"(?:i'm|we're|im|i am|we are|it's|he's|she's|jonah's|edith's|miriam's|were|is|are) (?:\w+ )?(?:going to|gonna)(?: \w+)", r"(?:i'll|we'll|ill|that'll|thatll|jonah'll|edith'll) (?!be honest|tell|give you|say|admit|never|bet)\w+",
    r"tomorrow", r"next (?:week|job|thing|time|monday|tuesday|wednesday|thursday|friday|saturday)", r"that's next", r"next is", r"(?:need|needs|want|wants|have|has|got|ought|still|left|remember|plan is|plan's|try) to (?!be honest|say|know|hear|see)\w+",
    r"on (?:monday|tuesday|wednesday|thursday|friday|saturday)", r"first thing", r"(?:thats|that's) for (?:monday|tomorrow|next|another|thursday|friday|tuesday|wednesday)", r"must \w+", r"(?:to do|jobs?) (?:list|for)",
    r"(?:will|shall) (?:be )?(?:\w+ing|\w+)", r"then (?:it's|its|it'll|we|i) (?:can|will|go|need|paint|fit|the)", r"before it (?:goes|leaves|moves)", r"after (?:easter|christmas|the weekend)",
)  # fmt: skip

ORDERED = phrases(
    r"(?:i've |ive |we've |i |just |jonah |miriam |edith )?ordered", r"(?:placed|put in|put) (?:an|the) order", r"(?:rang|phoned|called|emailed|rung|wrote to) (?:\w+ ){1,4}(?:for|about|and ordered|to order)", r"bought (?:a|two|some|the|three|four|another)\b",
)  # fmt: skip
ARRIVED = phrases(
    r"(?:arrived|turned up|delivered|came in the post|came this morning|came today|came on \w+|came from|come from|came in from|came (?:yesterday|monday|tuesday|wednesday|thursday|friday)|came (?:first thing|with the (?:post|van|courier|carrier))|"
    r"came back|come back|postman brought|courier brought|courier dropped|parcel (?:from|came|today)|landed|showed up|are here|is here|came out of (?:its|the|their) (?:bag|box))",
)  # fmt: skip
SENT_BACK = phrases(
    r"(?:sent|sending|send|going|went|posted|taking|took|goes|gone) (?:it |them |both |that |those |the \w+ |them both )?(?:straight )?back\b(?! (?:on|in|together|up))", r"they'll have (?:it|them) back", r"(?:return|returned|returning) (?:it|them|the|those|both)",
)  # fmt: skip
MISFIT = phrases(
    r"(?:doesn't|doesnt|don't|dont|didn't|didnt|won't|wont|wouldn't|wouldnt|not) (?:quite |even )?(?:fit|go on|go in|seat|go home|line up|match|reach|meet|clear|go through|enter|sit|screw in|go over|pass)", r"too (?:long|short|tight|loose|big|small|thick|thin|wide|narrow|deep|fat)",
    r"(?:wrong) (?:hand|size|thread|part|colour|shade|shape|pitch|length|taper|ones?|one|offset|angle|side)", r"had to (?:file|open|ease|bend|dress|drill|ream|fettle|trim|cut|slot|persuade)", r"(?:forty|\w+) (?:mil|mm|thou) (?:short|long|out|under|over)",
    r"off cent(?:re|er)", r"not the right", r"no good", r"nowhere near", r"rubbish", r"out of true", r"out of round", r"undersize", r"oversize", r"miles out",
)  # fmt: skip
GOOD_FIT = phrases(
    r"fit(?:s|ted)? (?:straight|perfectly|lovely|a treat|beautifully|first time|like|well|nicely|fine|really well|spot on)", r"(?:drops?|dropped|went|goes|go|slid|pushed|slides) (?:straight |right )?(?:in|on|home)(?: (?:like|a treat|perfectly|lovely|beautifully|nicely|sweet|first|with|no|without))",
    r"(?:spot|bang) on", r"like it was made for it", r"good fit", r"measured? up", r"no argument", r"perfect",
)  # fmt: skip

ORIGINS: tuple[tuple[str, "re.Pattern[str]"], ...] = (
    ("old-stock", phrases(r"new old stock", r"old stock", r"nos", r"n o s", r"(?:still )?in (?:its|the|their) (?:original|maker's|makers|period) (?:box|wrapping|packet|grease|paper|wrapper)", r"never been (?:fitted|used|on a car)", r"genuine (?:old|unused)")),
    ("pattern", phrases(r"(?:a |the )?(?:repro|reproduction|reproductions|pattern|remade|re made|re-made|aftermarket copy|copy)(?: \w+)?", r"later pattern")),
    ("period-used", phrases(r"second ?hand", r"second-hand", r"(?:a |the )?(?:good )?used (?:one|ones|item)", r"(?:off|from|out of) (?:a |an |the |his |that )?(?:scrapped|breaker's|breakers|breaker|donor|scrap|spares|parts|dead|crashed|other|another) ?(?:car|one|yard|\w+)?", r"donor", r"autojumble", r"swap meet", r"junkyard", r"salvage")),
    ("first-fit", phrases(r"(?:the |its |it's |our )?(?:own )?original(?:s| one| ones)?(?: \w+){0,3} (?:back|went back|goes back|refitted|reused|again)", r"(?:its|the car's|cars) own \w+", r"(?:put|fitted) the original", r"the original (?:one |ones |\w+ )?(?:went|goes|going|is going) back", r"(?:back )?(?:in|on) with the original")),
    ("made", phrases(r"(?:made|make|making|turned|turned up|folded up|folded|knocked up|fabricated|cut) (?:up )?(?:a |an |two |new |us a |it a |the |four |both |pair of )+(?:new )?\w+(?: (?:ones?|\w+))?(?: (?:out of|from|to|in))?", r"(?:one|ones|which|that) (?:i|we|edith|jonah|miriam) made", r"(?:i|we|edith|jonah|miriam) made (?:it|them|that|the|a|new)")),
    ("upgrade", phrases(r"upgrade[ds]?", r"uprated", r"conversion", r"electronic ignition", r"alternator", r"(?:in )?stainless(?: steel)?", r"hardened (?:valve )?seats?", r"copper.nickel", r"copper nickel", r"cunifer", r"led (?:bulbs?|lamps?)", r"silicone hoses?", r"spin ?on", r"radials?", r"halogen")),
    ("service", phrases(r"modern (?:seal|bearing|hose|belt|rubber|equivalent|one|ones|\w+)", r"service (?:part|item|replacement)s?", r"off the shelf (?:bearing|seal|belt)s?")),
)  # fmt: skip

DECIDED = phrases(
    r"(?:said|says|say|saying) (?:yes|no|go ahead|she'd|he'd|she wants|he wants|do it|to (?:go|leave|keep|do|fit|use|put|have|get)|she's happy|he's happy|that's fine|it's fine|leave it|keep|okay|ok)(?: \w+){0,4}", r"(?:agreed|decided|okayed|ok'd|approved|confirmed|signed off|chose|chosen|picked|has decided|settled on|plumped for)(?: \w+){0,4}",
    r"(?:he|she|mrs \w+|mr \w+|mister \w+|miss \w+|owner|customer|client)(?:'s)? (?:definitely |really |still )?(?:wants|doesn't want|doesnt want|would like|prefers|rather have|asked for|happy (?:with|to)|likes|doesn't mind|doesnt mind|chose|decided|agreed)(?: \w+){0,5}",
    r"(?:gave|given) (?:us |me )?the (?:go ahead|nod|okay)", r"(?:got|had) the (?:go ahead|nod|okay)",
)  # fmt: skip


FOUND_SOUND = phrases(
    r"no (?:cracks?|pitting|wear|corrosion|rust|play|damage|scoring|marks|ridge|leaks?|sign of \w+)(?: \w+)?", r"(?:looks?|looking|is|are|it's|they're|theyre|was|were) (?:really |all |pretty |perfectly |still |quite |very |absolutely |dead )?(?:good|fine|sound|perfect|lovely|true|round|straight|clean|like new|as new|in good order|in good nick|spot on|within limits?|all right|alright|ok|okay)(?: \w+)?",
)  # fmt: skip


def joined(words: Iterable[str]) -> str:
    """Words joined by blanks."""
    return " ".join(words)
