"""The sentences of a workshop: `{it}` is the component, `{n}` some number. Ours, and about nobody."""

PLACES = (
    "bin A-{n}", "bin C-{n}", "bin F-{n}", "bench {n}, top shelf", "tray T-{n}", "panel rack, hook {n}",
    "loft, box {n}", "cupboard K, shelf {n}",
)  # fmt: skip

FOUND = (
    "worn on one side only, the other as new", "sound, nothing but old grease", "one thread pulled, the rest clean",
    "light rust where the paint let go, none of it deep", "scored in one place, {it} otherwise straight",
    "an old repair, neatly done", "weeping at the joint, dry elsewhere", "stiff, and free again after an hour in paraffin",
    "no cracks under dye", "two marks of a chisel, long ago", "within what the manual allows, just",
    "shows a maker's date that agrees with the car", "out of true, by eye already", "hard and shiny with age",
)  # fmt: skip
FOUND = tuple(words.replace("{it}", "it is") for words in FOUND)

SNAGS = (
    "The {it}: one stud to be drawn and replaced before it goes back", "Look at the {it} again once weight is on",
    "A rattle from the {it} that nobody has found yet", "The {it} want a clip the works had and we do not",
    "Thread on the {it} to be chased and gauged", "A weep at the {it}, wiped dry and marked with chalk",
    "The {it} touch something on full lock", "The finish of the {it} does not match its neighbour in daylight",
)  # fmt: skip

CLEARED = (
    "Drawn, replaced, gauged", "Looked at with the weight on, as it should be", "Found: a loose clip, now tight",
    "Dry after a night and a road test", "Chased, gauged and greased", "Clear by 6 mm on full lock",
    "Done again and seen in daylight",
)  # fmt: skip

GAUGES = (
    "dial gauge", "feelers", "micrometer", "bore gauge", "straight edge and feelers", "meter on the bench",
    "vernier, three places", "torque wrench, checked this year",
)  # fmt: skip

MISFITS = (
    "the holes are {n} thou out", "a thread that is not ours", "for the later car", "cast too thick at the flange",
    "two of one side in a packet for both", "rusty in its packet",
)  # fmt: skip
MISFITS = tuple(words.replace("{n}", "forty") for words in MISFITS)

UPGRADES = (
    "A modern one for the {it}, hidden in the old case, because the car will be driven",
    "The {it} in a metal that does not rust, for use in all weathers",
    "Harder wearing {it}, which the owner asked for after last summer",
)

ADVICE = (
    "The works' one if the car is shown, this one if it is driven", "Either will do, and both can be undone",
    "Keep the old ones in their box, with the tag on",
)  # fmt: skip

PROOFS = (
    "As the manual has it", "Held for ten minutes", "Dry, quiet and straight", "Gone round twice, nothing moved",
    "Good from cold and when warm", "Tried by both of us",
)  # fmt: skip

REMOVED = (
    "The {it} came away after {n} minutes of patience and no heat.",
    "It took two of us to lift the {it} clear, and nothing was forced.",
    "Photographed the {it} from all sides before a spanner went near.",
    "Every nut on the {it} came undone, which I had not dared to hope.",
    "Tagged the {it} in pencil and put the fixings in a bag of their own.",
    "Cut {n} of the fixings of the {it} and saved all the rest.",
)

CLEANED = (
    "Cleaned the {it} in the tank, then again with a brush where the tank does not reach.",
    "Under the dirt the {it} still had works paint, which we left where it holds.",
    "Degreased the {it}, and the rinse ran clear at the third go.",
    "Blew the {it} dry and looked at every face of it under the lamp.",
    "A morning of scraping: the {it} gave up {n} grams of old compound.",
)

WORKED = (
    "Did one half of the {it} first, so that the other half could be copied.",
    "The {it} now sit as they did, which the old paint line shows.",
    "Took no more off the {it} than what was loose, and wrote down how much that was.",
    "Set the {it} up on the bench and went round them {n} times, a little each time.",
    "The first try on the {it} did not please me, so it was done again.",
    "Kept every scrap that came off the {it} in a tray, with the date on it.",
)

MEASURED = (
    "Measured the {it} warm and cold, and the two agree.",
    "Read the {it} in three places, twice, by two people.",
    "The figure for the {it} is inside the book by little, so it stands and is watched.",
    "Checked the gauge against its setting piece before the {it}, and after.",
)

TRIED = (
    "Tried the {it} in place without sealant, to see what touches.",
    "A dry run for the {it}; {n} minutes to put in, two to take out again.",
    "Offered up the {it} and drew round it with chalk.",
)

FITTED = (
    "The {it} went back with new locking, and a dab of paint on every nut that was pulled up.",
    "Fitted the {it} dry, checked that they move, then for good.",
    "New fixings under the {it}, old ones in their bag in case anybody asks.",
    "Pulled up the {it} in three rounds, crosswise, the last one with the wrench.",
    "It went in the first time, so we took the {it} out again to see why. Nothing was wrong.",
)

PROVED = (
    "Tried the {it} on the road, {n} miles by the odometer, and once more the next morning.",
    "The {it} did what they should from cold, and again when all was warm.",
    "Went round the {it} after the road test with a dry rag: nothing on it.",
    "Somebody else looked at the {it} without being told what to look for.",
)

LOOKED = (
    "Had a look at the {it} while the car was up.",
    "Nothing new at the {it}; the chalk mark is where it was.",
    "The {it} are {n} weeks on and look like the day they went in.",
    "Shone a lamp along the {it} and felt behind with a hand.",
)

SET = (
    "Set the {it} anew, a little at a time, and tried between.",
    "Took up what had settled in the {it} and locked them again.",
    "The {it} had moved by a hair, which is what they do in the first {n} miles.",
)

SENT = (
    "Counted the {it} out to the van, with a list in the box and a copy here.",
    "The {it} went off today with a note of what must stay as it is.",
    "Packed the {it} myself; the last lot came back rattling.",
)

CAME_BACK = (
    "The {it} are back and were counted on the bench before the driver left.",
    "Nice work on the {it}, and the edges are still sharp.",
    "Checked the {it} against the old photographs, and nothing was rounded off.",
)

ORDERED = (
    "Ordered for the {it}; they say {n} days, so I say twice that.",
    "Rang round for the {it}, and took the ones that could send a picture.",
    "Nobody had the {it} on the shelf, so a day went into asking.",
)

CAME = (
    "What came for the {it} was laid beside the old ones and measured, and it will do.",
    "The new {it} fit, after a burr of {n} thou was stoned off.",
    "Good castings for once: the {it} went on without a file.",
)

WRONG = (
    "What came for the {it} does not fit and goes back tomorrow.",
    "Two hours with the wrong {it}, until I believed it.",
    "The box said {it}; what was in it did not.",
)

DECIDED = (
    "Talked about the {it} with the owner at the bench, with both on the table.",
    "The owner rang about the {it} and had read up on it. Decided, and written down here.",
    "Laid out what can be done about the {it} and what each way means in twenty years.",
)

OPENINGS = (
    "A short day on the car, with the doors open for once.",
    "Frost on the inside of the windows until ten, so the first hour went into the stove.",
    "Everything for today was laid out last night, which makes all the difference.",
    "Rain on the roof all day, and nobody minded being under the car.",
    "Started with the list on the wall and got to the third line of it.",
    "The yard was full, so the car stayed on the stands and we worked from below.",
    "A day that looks like nothing on paper and moved the whole job on.",
    "First thing, went over what was done last time and found it as it was left.",
    "Both lifts taken, so the bench it was.",
    "Quiet in the shop, and a good light until four.",
)

ASIDES = (
    "I would rather do this once a year too often than find out on a hill. The book gives a figure for a new "
    "part and none for an old one, so we keep to the new one and say so where we cannot.",
    "There is always one fixing that somebody replaced with whatever was in the tin. This time it was a bolt "
    "from a gate. It has gone on the board with the others, and its place has the right one again.",
    "The paint underneath tells the order in which the works did things: first the bracket, then the colour, "
    "then the clip. We shall do it in the same order, since any other way leaves a line.",
    "Wrote the sizes on the wall, then here, because walls get painted. The difference between the two sides is "
    "less than I can explain and more than I like, and it was there when the car came in.",
    "The apprentice asked why we do not simply fit a new one. Because this one is the car's, it can be saved, and "
    "the new one is worse. That took an hour to show and was an hour well spent.",
    "Some sealant where there should be a gasket, and a gasket where there should be a shim. Somebody meant well. "
    "All of it is out, and what goes back is what the parts list shows.",
    "A part that has been apart before has its own marks: centre pops, a letter, a dab of red. I copied them all "
    "before cleaning, for they go when the dirt goes, and they are the only ones who were there.",
    "Left the torque for tomorrow, when the other wrench is back from its check. There is a red tag on it until "
    "then, and the tag is on the list, so that nobody drives it out by mistake.",
    "By three it was clear that it would not be finished, so we stopped at a point where everything has its tag "
    "and nothing is half tight. That is worth more than an evening.",
    "For those who come after us: the two look the same and are not. The longer one goes to the front, and it will "
    "go into the back as well, quite happily, until the road is rough.",
    "Cleared the bench, swept, and found the washer that was missing on Monday. It was under the vice, where all "
    "washers go. Counted again: now everything is there.",
    "We have done this the same way on three cars, and on each of them it has held. It may be luck. It is "
    "written down here so that the next one can say.",
)

FOR_WORKSHOP = (
    "We were slow on this. Next time the jig comes out first, and the car goes on it before lunch.",
    "Do not lend out the long reamer again; it came back with a chip, and nobody said so.",
    "That took twice what I had written in the estimate, and I do not think it can all be charged.",
    "Look at how this was quoted. The margin went into the second set of parts.",
)

FOR_OWNER = (
    "You asked whether it could wait until spring: it can, but not until the one after.",
    "There is a choice to be made here before the end of the month; both ways are laid out on the bench.",
)

LINKS = (
    "What we did about it before stands in [an earlier sheet]({sheet}).",
    "See [the day it came apart]({sheet}) for how it was.",
    "This goes on from [where we left off]({sheet}).",
)

STAGES = {
    "as-found": "as it was found", "during": "on the bench", "evidence": "with the gauge on it",
    "as-finished": "as it went back", "stripped": "taken down",
}  # fmt: skip

SEEN = (
    "A grey casting with a ring of studs, lying on brown paper", "A hand in a blue glove holding a small steel part",
    "Dark metal with a bright scratched patch, lit from the left", "A row of bolts on a tray, each beside a paper tag",
    "A curved painted panel with a chalk line along its edge", "The dial of a gauge above a round shaft",
    "Two parts of the same shape side by side, one rusty, one clean", "A view from below of pipes along a black frame",
    "A bench with a vice, a lamp and an open box", "A shiny rim with a reflection of the window in it",
)  # fmt: skip
