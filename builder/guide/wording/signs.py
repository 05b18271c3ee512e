"""Words by which a writer's text is judged: what counts, what commands, what warns. English, plain tables."""

from __future__ import annotations


def _set(words: str) -> frozenset[str]:
    return frozenset(words.split())


# Counting words that also have a harmless meaning.
HARMLESS_COUNTS = _set("""
    both couple double once one pair third
""")

# Short forms that are units wherever they stand.
UNIT_SIGNS = _set("""
    cm deg ft hr hrs kg lb lbs min mins ml mm oz sec secs tbsp tsp yd
""")

# Units that are other words too: "the foot of the mast", "the second ring".
UNIT_NOT_ALONE = _set("""
    cup cups d feet foot g h in l m mil mils overnight s second seconds yard yards
""")

# Behind one of these a unit is an amount: "a minute", "a few hours".
BEFORE_UNIT = _set("""
    a an another each every few half per several
""")

# Between two numbers that are one value.
RANGE_WORDS = _set("""
    by in to x
""")

# Behind "one" these are counted: "one turn".
COUNTED = _set("""
    coat coats drop drops half layer layers piece pieces quarter third time turn turns
""")

# Before "one" these make it a pronoun.
PRONOUN_BEFORE = _set("""
    another any each every no other same that the this which
""")

# Commands that are nouns too, so that "Glue on glass" is none.
NOUNS_TOO = _set("""
    bend block blow bow break brush care catch center centre change check clamp clip close coat color
    colour copy cover crease cross cut dab damp dip draw drill drop end feed file fill fit flatten fold
    form glue grip guide gum hammer hold jig knock knot label lace leave level lift light line load lock
    look loop mark mask match measure mix mount move nip notch note nudge number open pack paint paste
    peel pin pinch place plan plug point polish position press prick prime pull punch push record
    release repeat rest rinse roll rub run sand saw score scrape screw seal set shake shape shift slide
    slip slit slot smooth sort split spray spread square squeeze stack staple start stay stick stir stop
    store strip stroke swap sweep tack take tap tape tear test thread tie tilt tip touch trace transfer
    trim try tuck turn twist use wait warm wash watch wear weld work wrap
""")

# What follows a command and makes it one.
OBJECTS = _set("""
    a all an another any both each every his it its less more not one some the them these this those two
    your yourself
""")

# Nouns that a place may follow: "Glue in the slots".
STUFF = _set("""
    coat glue label lace light line mark notch paint paste slit slot tape thread wax
""")

# Commands that "that" may follow.
BEFORE_THAT = _set("""
    check ensure feel note remember see test verify
""")

# Little words between a command and its object.
PARTICLES = _set("""
    along apart aside away back down in off on onto out over round through together up
""")

# Words that begin a condition, behind which a command may stand.
CONDITIONS = _set("""
    after as before if once otherwise to unless until when whenever where while with
""")

# Adverbs before a command.
OPENING_ADVERBS = _set("""
    carefully finally first gently next now slowly then
""")

# Words behind which a clause begins.
CLAUSE_WORDS = _set("""
    and but now or then to
""")

# A person, or what of a person is hurt.
PERSONS = _set("""
    arm arms body burnt child children clothes clothing eye eyes face finger fingers hair hand hands
    lung lungs skin someone you your yourself
""")

# Tools that hurt.
SHARP_THINGS = _set("""
    awl blade blades cutter iron knife knives lamp needle needles nozzle pin pins saw saws scissors
    soldering
""")

# Words that warn only beside a person or a tool.
WEAK_WARNINGS = _set("""
    burn burns careful carefully fire hot risk sharp
""")
