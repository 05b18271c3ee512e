"""The checks that reading itself makes: what each says, why, an example that fails, and the mend.

They stand before all others: what could not be read was not built on paper either, and what follows from
that is told beneath.
"""

from __future__ import annotations

import msgspec


class Slip(msgspec.Struct, frozen=True):
    """One check of the reader. `example` is a piece of a guide that it refuses, `mend` the same set right."""

    name: str
    what: str
    why: str
    example: str
    mend: str


SLIPS: tuple[Slip, ...] = (
    # the file and its text
    Slip("unreadable", "A file cannot be read.", "Nothing in it can be used.",
         "a guide saved as UTF-16", "Save it as UTF-8 text, under the name that is asked for."),
    Slip("control-character", "An invisible control character stands in the text.",
         "YAML cannot read past it, and nobody can see it.",
         "title: Two tubes<NUL>", "title: Two tubes"),
    Slip("too-large", "A file, a text or a word is longer than can be meant.",
         "Work is bounded, so that a slip of the keyboard cannot stop the machine.",
         "title: (twenty thousand signs)", "Write it shorter, or split the guide."),
    Slip("too-deep", "Brackets, or sums that rest on sums, go deeper than can be meant.",
         "A bracket was probably left open; a long chain of sums cannot be followed by hand.",
         "size: [[[[ ...", "Close the brackets; write one of the sums as a plain number."),
    Slip("too-many", "There are more steps, actions, routes or findings than anyone could work through.",
         "Every route is built on paper, and no class gets to the end of so many.",
         "four choices of two options each", "Leave out a choice, or split the guide."),
    Slip("yaml", "A line is not YAML.", "Nothing there can be used until it can be read.",
         "{name: craft knife, one per: 2 builders", "{name: craft knife, one per: 2 builders}"),
    Slip("alias", "An alias, an anchor or a merge key stands in a guide.",
         "It is the same text in two places, so a fault in it would be shown in the wrong line.",
         "front_ring: *rear_ring", "front_ring: {like: rear_ring}"),
    Slip("tag", "A YAML tag stands in a guide.", "A guide holds no code and no types of its own.",
         "title: !!str Two tubes", "title: Two tubes"),
    Slip("comment", "A number stands behind the sign that begins a comment.",
         "YAML drops it without a word.", "{wait for: fin #2, until: set}", "{wait for: fin 2, until: set}"),
    Slip("braces", "Braces stand in a field that is no sentence, or doubled ones in a sentence.",
         "YAML reads them as a list of pairs.", "at: {{ seat }}", "at: seat"),
    # the shape of entries
    Slip("shape", "A list stands where pairs belong, or the other way round.",
         "What it means could only be guessed.", "actions: {cut: fin}", "actions: [{cut: fin}]"),
    Slip("duplicate-key", "A key is written twice in one place.", "YAML would silently keep one of the two.",
         "{length: 3 in, length: 4 in}", "{length: 4 in}"),
    Slip("unknown-key", "A key is none that the entry may have.", "What is written there would be ignored.",
         "{lenght: 3 in}", "{length: 3 in}"),
    Slip("missing-value", "A key has no value, often because a comma inside braces ended it.",
         "What follows the comma became a name of its own.",
         "{else: Cut it off, glue it again}", '{else: "Cut it off, glue it again"}'),
    Slip("missing-field", "A field that cannot be done without is not there.",
         "The bench would not know what to do, or how large a thing is.",
         "{glue: fin, for: body}", "{glue: fin, with: pva, for: body}"),
    Slip("two-verbs", "Two verbs stand in one action.",
         "One action is one thing done; the bench would not see the second.",
         "- {glue: fin, with: pva, attach: fin, onto: body}",
         "- {glue: fin, with: pva}\n- {attach: fin, onto: body}"),
    Slip("missing-dash", "A step, a stage or a choice begins inside another.",
         "The two would be read as one.",
         "- stage: Fins\n  id: cut_fins", "- stage: Fins\n- id: cut_fins"),
    Slip("verb-first", "An action does not begin with its verb.", "Read aloud, it is a sentence.",
         "{into: tube, insert: ring}", "{insert: ring, into: tube}"),
    Slip("caution-part", "A caution lacks one of its parts.",
         "A caution tells what it is, what it does, and how to keep out of its way.",
         "{level: warning, hazard: The blade is sharp.}",
         "{level: warning, hazard: The blade is sharp., consequence: It cuts deep., avoidance: Cut away from "
         "you.}"),
    Slip("picture-alt", "A picture has no text alternative.", "Whoever cannot see it learns nothing from it.",
         "picture: grip.png", "picture: grip.png\nalt: Two fingers hold the ring."),
    # numbers
    Slip("number", "A number, a size, a time or a count cannot be read, or is not what belongs there.",
         "A wrong length or time is found only at the bench.", "length: 31/4 in", "length: 3 1/4 in"),
    Slip("sum-cycle", "A sum comes back to itself.", "Sums that wait for one another have no value.",
         "{a: b + 1 in, b: a - 1 in}", "{a: 3 in, b: a - 1 in}"),
    # names
    Slip("bad-id", "An id has signs that an id may not have, or is a word with a meaning of its own.",
         "An id is small letters, digits and underscores, and begins with a letter.",
         "Fin Jig: {name: jig}", "fin_jig: {name: jig}"),
    Slip("duplicate-id", "Two things have one id.",
         "A name that means two things cannot be told apart in a step.",
         "tools: {ring: {}}, parts: {ring: {}}", "tools: {gauge: {}}, parts: {ring: {}}"),
    Slip("unknown-name", "A name is that of nothing in the guide.",
         "What is not on a list cannot be bought, made or found.", "{insert: rign, into: tube}",
         "{insert: ring, into: tube}"),
    Slip("unknown-verb", "An action begins with a word that is no verb of a guide.",
         "The dry run cannot carry it out.", "{push: ring, into: tube}", "{insert: ring, into: tube}"),
    Slip("wrong-sort", "A name is that of something else than belongs there: a tool for a material.",
         "It could not do what is asked of it.", "{glue: fin, with: pencil}", "{glue: fin, with: pva}"),
    Slip("like-cycle", "Parts copy one another.", "What they would borrow is written nowhere.",
         "{a: {like: b}, b: {like: a}}", "{a: {form: ring}, b: {like: a}}"),
    Slip("word", "A word is none of those that the field knows.", "It would mean nothing.",
         "form: tueb", "form: tube"),
    Slip("place", "A place is none that a builder could find.", "Every place is measured from something.",
         "at: 1 in from the left edge", "at: 1 in from left"),
)  # fmt: skip

NAMES = tuple(slip.name for slip in SLIPS)
