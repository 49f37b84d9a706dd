"""The codes of problems: what each one means, and why it matters to the car.

A code is the word in brackets in a message. It is defined here once; `journal check --explain`
prints what stands here.
"""

from journal.records.filecodes import FILE_CODES, Explanation

CODES: dict[str, Explanation] = {
    **FILE_CODES,
    # Values.
    "bad-date": Explanation(
        "A date is not written as year-month-day, or the calendar has no such day.",
        "05/03/24 is one day in one country and another elsewhere; 2024-03-05 is the same everywhere.",
    ),
    "bad-number": Explanation(
        "A number is not written in plain figures with a decimal point.",
        "A comma can mean thousands or tenths, and the ledger must not guess which.",
    ),
    "out-of-range": Explanation(
        "A number or a day lies outside what it can be: a share above 1, a count below 0, the year 3024.",
        "It is a slip of the pen that would throw the figures out.",
    ),
    "bad-quantity": Explanation(
        "A quantity of a bench sum cannot be read, has no unit, or is of another kind than was asked for.",
        "A sum that took a pressure for a length, or thou for mm, would come to nonsense without a word.",
    ),
    "no-answer": Explanation(
        "What is given to a bench sum is each possible and cannot be together.",
        "Any figure that it came to would look like an answer and be none.",
    ),
    "bad-stretch": Explanation(
        "When something is to be looked at again is not told as a distance, a time or both.",
        "Nobody could say when it is due, and a nut that was to be tightened stays as it is.",
    ),
    "bad-moment": Explanation(
        "A moment in a recording is not told as minutes and seconds from its start.",
        "Nobody could find the place again without listening to the whole of it.",
    ),
    "bad-word": Explanation(
        "Only certain words may stand here, and this is not one of them.",
        "The ledger counts by these words, so each must mean one thing.",
    ),
    "bad-name": Explanation(
        "A short name is written in lower-case words joined by hyphens.",
        "It names files and pages, and must work on every computer.",
    ),
    "bad-address": Explanation(
        "The place where an archive will be reached is not the web address of a folder, with http:// "
        "or https:// before it.",
        "The links of the feed start with it, and whoever follows them would come to nothing.",
    ),
    # Names that are not known.
    "unknown-component": Explanation(
        "The register has no component of this name.",
        "Work booked to it would reach no line of the ledger.",
    ),
    "unknown-sum": Explanation(
        "There is no bench sum of this name.",
        "Nothing could be worked out from what is given to it.",
    ),
    "unknown-subsystem": Explanation(
        "Neither the trade's list nor the workshop's own has this subsystem.",
        "Hours and work booked to it would appear in no branch of the car.",
    ),
    "unknown-hand": Explanation(
        "No one of these initials works here.",
        "A record must say who did the work and who checked it, for certain.",
    ),
    "unknown-supplier": Explanation(
        "The workshop has no supplier under this short name.",
        "The part's source would be lost, and the supplier's record with it.",
    ),
    "unknown-paper": Explanation(
        "No paper of the car has this short name.",
        "The paper is called as evidence, and nobody could find it.",
    ),
    "unknown-paper-file": Explanation(
        "The scan that is named does not lie among the car's papers.",
        "Whoever opens the archive would find no paper behind the claim.",
    ),
    "unknown-part": Explanation(
        "A line of work names a part that no sheet has under parts:.",
        "The part would never count as fitted, and its price and source would not be on the component.",
    ),
    "unknown-photo": Explanation(
        "The photograph does not lie where the sheet says.",
        "It would be missing from the page, and the component loses its evidence.",
    ),
    "unknown-recording": Explanation(
        "The recording does not lie in the car's folder recordings/.",
        "Whoever wants to hear what was said there would find no sound to the moment.",
    ),
    "unknown-sheet": Explanation(
        "A correction names a sheet that the car does not have.",
        "A correction must lead back to what it corrects.",
    ),
    "unknown-snag": Explanation(
        "A snag is cleared or put off that nobody raised before.",
        "The one that was meant stays open, and may stop the handover.",
    ),
    "unknown-recheck": Explanation(
        "A re-check is ticked off that no sheet asked for before.",
        "The one that was meant goes on being due, and would be told as late.",
    ),
    "unknown-link": Explanation(
        "A link in the text names no sheet of this car and is no whole address.",
        "A reader who follows it would find nothing.",
    ),
    "no-alt-text": Explanation(
        "A photograph, or the scan of a paper, that the owner may see has no alt: text.",
        "A reader who cannot see it is read these words in its place. They say what is seen, as one "
        "would on the telephone, and not what it means; the caption stands beside the picture anyway.",
    ),
    "picture-in-text": Explanation(
        "A picture stands in the text of the sheet.",
        "Photographs belong under photos:, where they are told of a component and only reach the "
        "readers they are for.",
    ),
    "bad-block": Explanation(
        "A block that only some readers may see is not marked clearly.",
        "The whole text is kept to the workshop until it is mended, so that nothing private gets out.",
    ),
    # Days, hours, shares.
    "date-differs": Explanation(
        "The date in the sheet and the one in its file name are not the same.",
        "The sheet counts on the date in it; one of the two is wrong.",
    ),
    "before-booking-in": Explanation(
        "The sheet is dated before the car came in.",
        "It is most often a slip in the year, and puts the work in the wrong place in the story.",
    ),
    "since-after-sheet": Explanation(
        "A line says since: with a day after the day of its own sheet.",
        "What is told cannot have become true later than it was told.",
    ),
    "whose-hours": Explanation(
        "Hours stand without initials, and more than one hand works here.",
        "They could be charged at anyone's rate.",
    ),
    "day-too-long": Explanation(
        "One hand has more than 24 hours on one day.",
        "No day is that long, so some of the hours belong to another day or are wrong.",
    ),
    "limit-empty": Explanation(
        "A limit is given without its least and without its most.",
        "The reading cannot be inside or outside of it.",
    ),
    "limits-crossed": Explanation(
        "The lower end of a limit lies above the upper one.",
        "No reading could keep it.",
    ),
    "conforms-why": Explanation(
        "A conformity other than the usual one is stated without a reason.",
        "A buyer will ask why this item counts for more, or less, than others of its kind.",
    ),
    "departure-incomplete": Explanation(
        "The item departs from the works specification, and the line leaves out why, who decided, "
        "or the way back.",
        "This is what the owner agreed to and what the next keeper needs to undo it.",
    ),
    "retained-of-another": Explanation(
        "A share of original material is given for an item that the works did not fit.",
        "Only first-fit items hold original material of this car, so the share counts for nothing.",
    ),
    "two-places": Explanation(
        "One line says both original: and came-off: of the item that came off.",
        "It is either the works' own item or another one; the ledger must know which.",
    ),
    "private-work": Explanation(
        "A sheet that only the workshop reads tells of work on the car.",
        "The owner's ledger would not know of that work and give other figures than ours.",
    ),
    "unconfirmed-draft": Explanation(
        "Lines that were heard in a talk stand in the sheet, and nobody has confirmed them yet.",
        "A machine has put them there from spoken words, and mishears. What nobody has read over is no "
        "record: it counts for nothing, and only the workshop sees the sheet until somebody has.",
    ),
    "no-plate": Explanation(
        "The car's file says that the public sees the registration plate, and no plate is written.",
        "Nothing can be shown; or the plate was left out by mistake.",
    ),
    "private-in-archive": Explanation(
        "A finished archive holds something that its reader may not see, written on that line.",
        "The archive is searched before it takes the place of the one before, which then stays as "
        "it is.",
    ),
    # Parts, outwork, snags.
    "part-out-of-order": Explanation(
        "A part arrived before it was ordered, or was fitted or returned before it arrived.",
        "One of the two days is wrong, and lead times are reckoned from them.",
    ),
    "more-returned-than-received": Explanation(
        "More of a part went back to the supplier than had come in.",
        "Goods and money are reckoned from these counts; the return is left out until they agree.",
    ),
    "more-received-than-ordered": Explanation(
        "More of a part is here than was ordered.",
        "Either the supplier sent too many and will want them back, or one of the counts is wrong.",
    ),
    "credit-above-price": Explanation(
        "Credits for a part come to more than its price and carriage.",
        "Nobody gives back more than was paid; the credit is left out until the figures agree.",
    ),
    "rate-without-currency": Explanation(
        "A part has a rate of exchange and no currency that it could be the rate of.",
        "The price is taken as it stands in the workshop's own currency, and may be far too high.",
    ),
    "due-before-sent": Explanation(
        "A lot of outwork is due back on a day before it went out.",
        "It would stand as overdue from the first day on.",
    ),
    "more-back-than-sent": Explanation(
        "More items came back from outwork than were out.",
        "The count is what shows that nothing was left behind at the plater's.",
    ),
    "snag-raised-twice": Explanation(
        "A snag is raised under a name that is open already.",
        "Two snags under one name cannot be cleared one by one.",
    ),
    "snag-cleared-twice": Explanation(
        "A snag is cleared or put off that was cleared before.",
        "Either it was not cleared the first time, or another snag is meant and stays open.",
    ),
    "recheck-asked-twice": Explanation(
        "A re-check is asked for under a name that is open already.",
        "Two re-checks under one name cannot be ticked off one by one.",
    ),
    "recheck-done-twice": Explanation(
        "A re-check is ticked off that was done before.",
        "Either it was not done the first time, or another one is meant and goes on being due.",
    ),
    # Proving, and what safety hangs on.
    "unknown-proof": Explanation(
        "A proof is recorded under a name that is not asked for.",
        "The proof that was meant stays open and stops the handover.",
    ),
    "whose-proof": Explanation(
        "A proof is recorded under a short name that several subsystems of the sheet ask for.",
        "One road test may prove the brakes and not the steering; the record must say which it was.",
    ),
    "proof-says-both": Explanation(
        "A proof is said not to apply to this car, and has a result all the same.",
        "One of the two is not so, and a proof must not be dropped by mistake.",
    ),
    "proof-asked-already": Explanation(
        "A proof of the workshop's own has the name of one that is on the list.",
        "Its words would never be shown, since those of the list stand.",
    ),
    "same-eyes": Explanation(
        "The second pair of eyes is that of the hand who did the work.",
        "We see what we meant to do; only somebody else sees what was done.",
    ),
    "threads-not-degreased": Explanation(
        "Threads are locked by a compound, and nothing says that they were degreased first.",
        "On an oily thread a compound does not hold as it should, and nobody can see it later.",
    ),
    "locking-used-again": Explanation(
        "A split pin or tab washer is used again, or is not said to be new.",
        "They are bent once; bent again they crack, and let go on the road.",
    ),
    "too-old-to-fit": Explanation(
        "A thing that ages was older on the day it was fitted than its life in the register.",
        "Rubber grows old on the shelf as well; a hose or tyre that looks new may fail.",
    ),
    # Contradictions of the ledger: two lines that cannot both be true.
    "already-there": Explanation(
        "A line puts the first-fit item in its place, and it is there already.",
        "If another item has come, it cannot be the very one that the works fitted.",
    ),
    "two-first-fit": Explanation(
        "Two different items in one place are both said to be the one that the works fitted.",
        "The works fitted one; until it is settled which, the line is shown as disputed.",
    ),
    "refit-of-gone": Explanation(
        "The works' own item goes back although it was scrapped, exchanged or lost.",
        "A buyer will ask what is really there; until it is settled the line is shown as disputed.",
    ),
    "displaced-twice": Explanation(
        "The original is said to come off, and it came off before.",
        "The item that comes off now is another one, or the earlier line is wrong.",
    ),
    "not-original": Explanation(
        "An item is kept as the original, and what was there is known to be another one.",
        "A box marked original with a copy in it is how false claims start.",
    ),
    "retained-rises": Explanation(
        "More original material is left in an item than there was before.",
        "Original metal can only be lost, so one of the two shares is wrong.",
    ),
    "work-after-gone": Explanation(
        "There is work on an item that was scrapped, exchanged or lost.",
        "The work must have been done to another item, and the ledger does not know of it.",
    ),
    "work-on-absent": Explanation(
        "There is work on a component of which nothing is there.",
        "Something was fitted or found that the ledger does not know of.",
    ),
    "removed-twice": Explanation(
        "The item is taken off although it is off already.",
        "A fitting in between was not written down, or the wrong component is named.",
    ),
    "fitted-while-out": Explanation(
        "The item is fitted while it is counted out for work.",
        "It was not counted back, or it is not the item that went out.",
    ),
    "proved-unfitted": Explanation(
        "The item is proved while it is off the car, or only tried in place.",
        "A proof counts for what is fitted for good.",
    ),
    # Readings, keepers and the odometer.
    "unit-differs": Explanation(
        "The same dimension on the same component was read in units that measure different things.",
        "The two readings cannot be set beside each other, and one of the units is a slip.",
    ),
    "keeper-backwards": Explanation(
        "A keeper is said to leave a car before the day of coming to it.",
        "The chain of keepers is part of what the car is worth, and breaks at this line.",
    ),
    "odometer-backwards": Explanation(
        "The odometer reads less in a sheet than it did before.",
        "Either a reading is a slip, or another instrument went in that nobody booked.",
    ),
    # Money and the owner's statements.
    "no-rate": Explanation(
        "Hours to be charged are of a hand none of whose rates holds yet on that day.",
        "They would be missing from the owner's statement without a word.",
    ),
    "no-exchange-rate": Explanation(
        "A price is in another currency, and what one unit of it cost is not written down.",
        "The rate of another day is another price, so none is guessed.",
    ),
    "statement-backwards": Explanation(
        "A statement ends before it starts, or is issued before its period is over.",
        "Nobody could say which days it states.",
    ),
    "statement-overlap": Explanation(
        "Two statements hold the same day.",
        "Work on that day could be charged twice.",
    ),
    "statement-gap": Explanation(
        "Days between two statements, or between booking in and the first one, are in none.",
        "The owner cannot tell whether those days were forgotten or are still to come.",
    ),
    "statement-sum": Explanation(
        "The figures of an issued statement do not add up to its total.",
        "What was issued stands; a figure in it that is changed later makes it worthless as proof.",
    ),
}
