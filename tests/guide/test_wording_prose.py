"""A writer's text with its references told: names, numbers, fields, places; leads, titles, skeletons, "
"pieces."""

from __future__ import annotations

import pytest

from builder.findings import Place
from builder.guide.model import Prose
from builder.guide.wording import (
    Book,
    Known,
    Piece,
    generated,
    lead,
    name_of,
    opening_words,
    otherwise,
    render,
    sentence,
    skeleton,
    title,
)
from builder.quantities.quantity import read_quantity
from builder.quantities.values import Quantity
from tests.guide.wording_kit import guide_of, last_action, last_repeat

GLUE = "{glue: motor_tube, inside: thrust_seat, with: pva, for: thrust_ring, say: %s}"


def said(action: str, say: str, *before: str, repeat: str = "") -> str:
    """What a `say` of an action prints."""
    guide = guide_of(*before, action.removesuffix("}") + f', say: "{say}"}}', repeat=repeat)
    return sentence(last_action(guide), guide).text


SAYS = [
    # names stand without an article; the writer's own stands before them
    (
        "{glue: motor_tube, inside: thrust_seat, with: pva, for: thrust_ring}",
        "Run a bead of {with}, as wide as a pencil line, round the inside of the {motor_tube} {place}, for "
        "the "
        "{for}.",
        "Run a bead of white PVA glue, as wide as a pencil line, round the inside of the motor tube from 2 "
        "1/2 "
        "in (63.5 mm) "
        "to 2 3/4 in (69.8 mm) from the rear end, for the thrust ring.",
    ),
    (
        "{glue: motor_tube, inside: thrust_seat, with: pva, for: thrust_ring}",
        "Run {with} round the {glue} {inside}",
        "Run white PVA glue round the motor tube from 2 1/2 in (63.5 mm) to 2 3/4 in (69.8 mm) from the rear "
        "end.",
    ),
    (
        "{insert: motor_tube, into: body, from: rear, to: flush with rear}",
        "Push the {insert} into the {into} from the {from}, until it is {place}.",
        "Push the motor tube into the body from the rear end, until it is flush with the rear end.",
    ),
    (
        "{insert: motor_tube, into: body, from: rear, leaving out: 1 in}",
        "Slide the {motor_tube} in and leave {leaving out} of it out.",
        "Slide the motor tube in and leave 1 in (25.4 mm) of it out.",
    ),
    (
        "{insert: front_ring, into: body, from: front, to: ring_seat}",
        "Lower the {front_ring} in {place}.",
        "Lower the front ring in the ring seat, from 10 3/4 in (273 mm) to 11 in (279 mm) from the rear end.",
    ),
    (
        "{tie: line, to: eye, knot: overhand}",
        "Gather the ends of the {line} and tie each {line} to the {eye} with a {knot} knot.",
        "Gather the ends of the shroud lines and tie each shroud line to the screw eye with an overhand "
        "knot.",
    ),
    (
        "{attach: fin, onto: body, at: fin_root, hold: 3 min}",
        "Press all {fin.count} onto the {body} {at} and hold them for {hold}.",
        "Press all four onto the body from 1/4 in (6.4 mm) to 2 1/2 in (63.5 mm) from the rear end and hold "
        "them for 3 min.",
    ),
    (
        "{slide: wheel 1 and 3, over: axle, from: left, to: wheel_l, fit: tight}",
        "Press {wheel} onto the {axle}.",
        "Press wheels 1 and 3 onto the axles.",
    ),
    (
        "{sand: fin, edges: [front, tip], not: [root], with: block}",
        "Round the {edges} with the {with}, not the {not}.",
        "Round the front and tip edges with the sanding block, not the root edge.",
    ),
    (
        "{roll: body.blank, around: former, with: pva, from turn: 2, makes: body}",
        "Wind the {roll} round the {around} and brush {with} on from the {from turn} turn on, so that it "
        "makes "
        "the {makes}.",
        "Wind the blank for the body round the 2 in dowel and brush white PVA glue on from the second turn "
        "on, "
        "so that it "
        "makes the body.",
    ),
    (
        "{mark: lug_line, onto: body, at: lug_seat, angle: 45 deg}",
        "Draw the {mark} on the {onto}, {at}, at {angle}.",
        "Draw the lug line on the body, from 4 in (102 mm) to 5 1/2 in (140 mm) from the rear end, at 45°.",
    ),
    (
        "{drill: cone, at: 1 in from base, with: bit, depth: 1/2 in}",
        "Drill {depth} into the {cone}, {at}.",
        "Drill 1/2 in (12.7 mm) into the nose cone, 1 in (25.4 mm) from the base.",
    ),
    (
        "{paint: [body, cone], with: spray, coats: 2}",
        "Spray the {paint} with {with} in {coats} coats.",
        "Spray the body and nose cone with acrylic spray paint in two coats.",
    ),
    (
        "{cut: fin, from: board, along: pattern, with: [knife, mat]}",
        "Cut the {cut} along the {along} with the {with}.",
        "Cut the fins along the printed pattern with the craft knife and cutting mat.",
    ),
    ("{wait for: body, until: set}", "Let the {wait for} {until}.", "Let the body set."),
    (
        "{glue: fin, edge: root, with: pva, for: body}",
        "Brush {with} along the {edge} of a {fin}.",
        "Brush white PVA glue along the root edge of a fin.",
    ),
]


@pytest.mark.parametrize(("action", "say", "expected"), SAYS)
def test_a_writers_sentence(action: str, say: str, expected: str) -> None:
    assert said(action, say) == expected


MARKED = "{mark: rear_line, onto: motor_tube, at: start of rear_seat, around: yes}"
SLIDE = "{slide: rear_ring, over: motor_tube, from: rear, to: rear_line}"


@pytest.mark.parametrize(
    ("say", "expected"),
    [
        ("Push it down to {place}.", "Push it down to the rear line."),
        ("Push it down to the {place}.", "Push it down to the rear line."),
        ("Slide it over the tube, {place}.", "Slide it over the tube, to the rear line."),
        ("Slide it until it meets {to}.", "Slide it until it meets the rear line."),
    ],
)
def test_a_mark_as_a_place_follows_the_word_before(say: str, expected: str) -> None:
    assert said(SLIDE, say, MARKED) == expected


def test_copies_in_a_repeat_are_told_one_at_a_time() -> None:
    glue = "{glue: fin, edge: root, with: pva, for: body}"
    say = "Brush {with} on the {fin}."
    assert said(glue, say, repeat="repeat: fin") == "Brush white PVA glue on the fin."
    assert said(glue, say) == "Brush white PVA glue on the fins."


def prose(text: str) -> Prose:
    """A text as the reader hands it on, of one line."""
    at = Place("guide.yml", 1, 1, len(text))
    pieces: list[str | tuple[str, Place]] = []
    for i, part in enumerate(text.replace("}", "{").split("{")):
        if part:
            pieces.append((part, at) if i % 2 else part)
    return Prose(text, at, tuple(pieces))


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("{body.length} long", "12 in (305 mm) long."),
        ("{play} of play", "0.020 in (0.51 mm) of play."),  # 0.020 x 25.4 = 0.508
        # 2 + 2 x (4 x 0.010) = 2.080 in: a diameter keeps its own fineness; 52.832 mm
        ("{body.outside} across", "2.080 in (52.8 mm) across."),
        ("{fin.count} of them", "Four of them."),
        ("{body.count} of it", "One of it."),
        ("the {fin}", "The fins."),
        ("the {fin 2}", "The fin 2."),
        ("each {fin}", "Each fin."),
        ("the {cone.shoulder}", "The shoulder of the nose cone."),
        ("the {deck.under}", "The underside."),
        ("the {sail.low}", "The low hole."),
        ("the {scissors}", "The scissors."),
        ("the {nothing}", "The {nothing}."),  # it has its own finding
        ("Is it {body.length}?", "Is it 12 in (305 mm)?"),
    ],
)
def test_a_text_without_an_action(text: str, expected: str) -> None:
    guide = guide_of("{wait for: body, until: set}")
    assert render(prose(text), guide).text == expected


def test_a_title_has_no_full_stop() -> None:
    guide = guide_of("{wait for: body, until: set}", title='"leave the {body} to set"')
    assert title(next(guide.every_step()), guide).text == "Leave the body to set"


def test_what_to_do_when_it_is_off() -> None:
    guide = guide_of(
        "{verify: cone, slides out of: body, else: Sand the {cone.shoulder} until it does.}".replace(
            "Sand the {cone.shoulder} until it does.", '"Sand the {cone.shoulder} until it does."'
        )
    )
    told = otherwise(last_action(guide), guide)
    assert told is not None and told.text == "Sand the shoulder of the nose cone until it does."
    guide = guide_of("{wait for: body, until: set, if missed: No harm.}")
    told = otherwise(last_action(guide), guide)
    assert told is not None and told.text == "No harm."
    guide = guide_of("{wait for: body, until: set}")
    assert otherwise(last_action(guide), guide) is None


ANY = "{sand: fin, with: block}"


@pytest.mark.parametrize(
    ("repeat", "expected"),
    [
        ("repeat: fin", "For each of the four fins:"),
        (
            "repeat: fin\n        around: body",
            "For each of the four fins, spaced evenly round the body (0, 90, 180 and 270 deg):",
        ),
        (
            "repeat: line\n        around: body",  # 360 / 8 = 45
            "For each of the eight shroud lines, spaced evenly round the body (0, 45, 90, 135, 180, 225, 270 "
            "and 315 deg):",
        ),
        (
            "repeat: line\n        around: canopy corners",
            "For each of the eight shroud lines, at the corners of the canopy in turn:",
        ),
        ("repeat: wheel 1 and 3", "For wheels 1 and 3 in turn:"),
        (
            "repeat: axle\n        at: [start of lower, 4 in to 5 1/2 in from rear]",
            "For each of the two axles, 2 1/2 in (63.5 mm) from the rear end, and from 4 in (102 mm) to 5 "
            "1/2 "
            "in (140 mm) "
            "from the rear end in turn:",
        ),
    ],
)
def test_the_line_above_a_repeat(repeat: str, expected: str) -> None:
    guide = guide_of(ANY.replace("fin", "axle") if "at:" in repeat else ANY, repeat=repeat)
    if "at:" in repeat:
        guide = guide_of("{attach: axle, onto: body}", repeat=repeat)
    assert lead(last_repeat(guide), guide).text == expected


def test_a_lead_names_the_marks_of_the_copies() -> None:
    guide = guide_of(
        "{mark: front_axle, onto: deck, under: end of overhang, across: yes}",
        "{mark: back_axle, onto: deck, under: start of far_part, across: yes}",
        "{attach: bearing, onto: deck, under: its mark}",
        repeat="repeat: bearing\n        at: [front_axle, back_axle]",
    )
    expected = "For each of the two bearings, on the front axle line and the back axle line in turn:"
    assert lead(last_repeat(guide), guide).text == expected


def test_pieces_name_what_they_were_taken_from() -> None:
    guide = guide_of("{glue: motor_tube, inside: thrust_seat, with: pva, for: thrust_ring}")
    assert generated(last_action(guide), guide).pieces == (
        Piece("Put "),
        Piece("white PVA glue", "name", "pva"),
        Piece(" inside the "),
        Piece("motor tube", "name", "motor_tube"),
        Piece(", from "),
        Piece("2 1/2 in (63.5 mm)", "number", "motor_tube.thrust_seat"),
        Piece(" to "),
        Piece("2 3/4 in (69.8 mm)", "number", "motor_tube.thrust_seat"),
        Piece(" from the rear end."),
    )


def test_what_the_dry_run_knows_is_told() -> None:
    guide = guide_of("{glue: body, inside: where front_ring will sit, with: pva, for: front_ring}")
    lo, hi = read_quantity("2 3/8 in"), read_quantity("2 1/2 in")
    assert isinstance(lo, Quantity) and isinstance(hi, Quantity)
    known = {"inside": Known(lo, hi, "rear")}
    assert generated(last_action(guide), guide, known=known).text == (
        "Put white PVA glue inside the body, where the front ring will sit: from 2 3/8 in (60.3 mm) to 2 "
        "1/2 in "
        "(63.5 mm) from the rear end."
    )


def test_a_book_words_as_its_guide_does() -> None:
    guide = guide_of(MARKED, SLIDE)
    book = Book(guide)
    for action in next(guide.every_step()).each_action():
        assert generated(action, book) == generated(action, guide)


def test_names_in_the_plural() -> None:
    things = guide_of(ANY).things
    assert [
        name_of(things[id], n)
        for id, n in (("fin", 1), ("fin", 4), ("knife", 2), ("bit", 2), ("scissors", 2))
    ] == ["fin", "fins", "craft knives", "1/16 in bits in a pin vice", "scissors"]


SKELETONS = [
    (
        "{glue: motor_tube, inside: thrust_seat, with: pva, for: thrust_ring}",
        "Put {with} inside the {glue} {place}, for the {for}.",
    ),
    (
        "{insert: thrust_ring, into: motor_tube, from: front, to: thrust_seat}",
        "Push the {insert} into the {into} from the {from}, {place}.",
    ),
    (
        "{attach: fin, onto: body, at: fin_root, hold: 3 min}",
        "Set the {attach} on the {onto} {place} and hold it for {hold}.",
    ),
    (
        "{cut: fin, from: board, along: pattern, with: knife}",
        "Cut the {cut} from the {from} along the {along} with the {with}.",
    ),
    ("{wait for: body, until: set}", "Let the {wait for} {until}."),
    ("{tie: line, to: eye, knot: overhand}", "Tie the {tie} to the {to} with a {knot} knot."),
    (
        "{glue: fin, edge: root, with: pva, for: body}",
        "Put {with} along the {edge} of the {glue}, for the {for}.",
    ),
    ("{glue: fin, fillet to: body, with: pva}", "Put {with} where the {glue} meets the {fillet to}."),
    ("{verify: axle, turns in: bearing, else: Mend it.}", "Check that the {verify} turns in the {turns in}."),
]


@pytest.mark.parametrize(("action", "expected"), SKELETONS)
def test_a_skeleton_to_start_from(action: str, expected: str) -> None:
    assert skeleton(last_action(guide_of(action))) == expected


@pytest.mark.parametrize(
    "action",
    [
        "{glue: fin, fillet to: body, with: pva}",
        "{cut: mast, with: saw}",
        "{drill: sail, at: [low, high], with: punch}",
        "{screw: eye, into: cone}",
        "{mark: a_line, onto: body, at: lug_seat}",
        "{mark: a_spot, onto: deck, top: 1 in from front}",
        "{wait for: body, for: 20 min}",
        "{insert: cone, into: body, from: front}",
    ],
)
def test_a_sentence_begins_with_one_of_its_opening_words(action: str) -> None:
    guide = guide_of(action)
    told = generated(last_action(guide), guide).text
    assert told.partition(" ")[0].lower() in opening_words(last_action(guide))
