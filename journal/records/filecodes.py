"""The codes of problems with files as such and with their form; `codes` holds the others."""

from typing import NamedTuple


class Explanation(NamedTuple):
    """What a code means, and why it matters."""

    meaning: str
    why: str


FILE_CODES: dict[str, Explanation] = {
    # Files and their form.
    "unreadable-file": Explanation(
        "The file is there and the computer will not open it.",
        "Nothing that stands in it can be used until it opens.",
    ),
    "not-utf8": Explanation(
        "The file holds bytes that are not text in the encoding UTF-8.",
        "A guess would turn some letters into others, and nobody would notice for years.",
    ),
    "not-text": Explanation(
        "The file holds zero bytes, which no text has: it is damaged, or a file of another kind.",
        "A damaged file read as text would look whole and not be.",
    ),
    "file-too-large": Explanation(
        "The file is far larger than what is written in a journal ever is, and nothing of it is read.",
        "It is most often a file of another kind under a wrong name, and reading it could take hours.",
    ),
    "no-words": Explanation(
        "The file of a talk holds no words at all.",
        "There is nothing to hear in it, and no sheet is made of it.",
    ),
    "no-webvtt-line": Explanation(
        "A file with the ending .vtt does not begin with the line WEBVTT.",
        "It is read all the same, but any player of such files refuses it.",
    ),
    "bad-cue-time": Explanation(
        "The time of some words of a talk cannot be read, is impossible, or is missing.",
        "The words are kept, and nobody can go to the place in the recording at which they were said.",
    ),
    "link-not-followed": Explanation(
        "A link stands where a file or folder belongs, and leads out of the content folder, to a folder, "
        "or nowhere.",
        "What lies elsewhere is in no copy of the journal, and could be anything on the computer.",
    ),
    "bad-file-name": Explanation(
        "The name of a file or folder cannot be printed, is very long, or cannot name a car.",
        "Whatever is called by it would be found on one computer and lost on the next.",
    ),
    "hidden-character": Explanation(
        "A character that nobody sees stands in a text: a mark that turns the direction of writing, a "
        "joiner, a control character, or a pile of accents.",
        "With it a page could show another number than the one that is written; the pages leave it out.",
    ),
    "no-front-matter": Explanation(
        "A sheet starts with its date and the rest of its front matter between two lines of ---.",
        "Without it nobody can tell on what day, and on what part of the car, the work was done.",
    ),
    "stray-file": Explanation(
        "A file that is no sheet lies in the folder of the sheets.",
        "A sheet saved under a wrong ending would be missing from the record without a word.",
    ),
    "sheet-name-twice": Explanation(
        "Two sheet files have the same name in different folders.",
        "A sheet is called by its name, in links and in corrections, so a name must mean one sheet.",
    ),
    "no-register": Explanation(
        "The car has no register.yaml, the list of components that the ledger answers for.",
        "Without it the ledger has no lines, and no work can be booked to a component.",
    ),
    "no-cars": Explanation(
        "The content folder has a workshop and no car file.",
        "There is nothing to keep a journal of yet.",
    ),
    "bad-picture": Explanation(
        "A photograph is there, but it cannot be read as a picture.",
        "What cannot be shown is no evidence, so the ledger does not count it.",
    ),
    "misnamed-picture": Explanation(
        "The ending of a photograph's name is that of another format than the one its bytes are in.",
        "It is shown all the same, but in twenty years another program may go by the name and fail.",
    ),
    "taken-later": Explanation(
        "By the camera's clock a photograph was taken after the day of the sheet that tells of it.",
        "A sheet cannot know a photograph of later; one of the two days is wrong, and a buyer who "
        "finds it will doubt the others.",
    ),
    # YAML.
    "bad-yaml": Explanation(
        "The lines of keys and values cannot be read from this place on.",
        "The file is left out as a whole, since what follows could mean anything.",
    ),
    "yaml-alias": Explanation(
        "A value starts with & or *, which in YAML name another place of the file.",
        "Everything in a journal stands where it is read; a text may start so when it is in quotes.",
    ),
    "yaml-tag": Explanation(
        "A value starts with !, which in YAML changes what kind of value it is.",
        "The journal takes every value as the text that was written; put it in quotes to keep the !.",
    ),
    "too-long": Explanation(
        "One value or key has more text than anything in a journal.",
        "It is most often a quote that was never closed, or something pasted by mistake.",
    ),
    "too-deep": Explanation(
        "The keys are nested far deeper than anything in a journal is.",
        "It is most often indentation that has slipped, so that lines belong to the wrong thing.",
    ),
    "key-twice": Explanation(
        "The same key stands twice in one place; only the first one is used.",
        "One of the two lines is lost, and it may be the one that was meant.",
    ),
    "loose-words": Explanation(
        "Inside braces a comma ends a value, and the words after it have no key of their own.",
        "They would be lost: {found: worn, scored} says only that it was worn.",
    ),
    "empty-entry": Explanation(
        "A name was written where an entry belongs, and nothing after the colon.",
        "A line that was begun and not finished would vanish from the record.",
    ),
    "unknown-key": Explanation(
        "This key is not one that may stand here.",
        "What is written under a key that nobody knows would never reach a ledger or a page.",
    ),
    "missing-key": Explanation(
        "A key that must be there is not.",
        "Without it the thing cannot be understood, and it is left out.",
    ),
    "wrong-shape": Explanation(
        "A list, a set of keys or a plain text stands where another of the three belongs.",
        "The value cannot be read as what it should be, and is left out.",
    ),
}
