"""Hazards of the trade and the caution that each prints, in the three parts of ANSI Z535.6: hazard,
consequence, avoidance.

The signal words are those of ANSI Z535.4: DANGER will, WARNING could cause death or serious injury; CAUTION
could cause minor or moderate injury; NOTICE is for property alone and carries no alert symbol. The level of
each row is our judgement of the usual case, by those definitions. Worded for readers of 9 to 15; the
avoidance leaves the last word to the label, the rules of the place and an adult in charge. No row says that
anything is without risk.
"""

from __future__ import annotations

from collections.abc import Iterable

import msgspec

from builder.trade.match import plain
from builder.trade.signals import SIGNAL_WORD as SIGNAL_WORD
from builder.trade.signals import Level as Level


class Hazard(msgspec.Struct, frozen=True):
    """One hazard and its caution.

    hazard, consequence, avoidance: whole sentences, the avoidance in the form of a command.
    gear: keys of the protective gear that it asks for. ventilate: fresh air is needed.
    adult: an adult does it or stands beside the builder. covers: hazards whose caution this one already says.
    """

    key: str
    level: Level
    hazard: str
    consequence: str
    avoidance: str
    gear: tuple[str, ...]
    ventilate: bool
    adult: bool
    covers: tuple[str, ...]
    sources: tuple[str, ...]


def _row(
    key: str,
    level: Level,
    hazard: str,
    consequence: str,
    avoidance: str,
    *sources: str,
    gear: tuple[str, ...] = (),
    ventilate: bool = False,
    adult: bool = False,
    covers: tuple[str, ...] = (),
) -> Hazard:
    return Hazard(
        key,
        level,
        hazard,
        consequence,
        avoidance,
        gear,
        ventilate,
        adult,
        covers,
        ("z535_4", *(sources or ("common_practice",))),
    )


# fmt: off
HAZARDS = (
    # Edges and points
    _row("blade", "warning", "The blade is very sharp.",
         "It can cut you deeply.",
         "Cut on a mat or with the work held down. Keep your other hand behind the edge and cut away from"
         " your body. Make several light cuts. Cover or park the blade when you put it down. Ask the adult"
         " in charge first.",
         covers=("scissors",)),
    _row("scissors", "caution", "Scissors have sharp edges and points.",
         "They can cut or pinch your fingers.",
         "Keep your fingers out of the way of the edges. Cut sitting or standing still. Pass them handles"
         " first."),
    _row("point", "caution", "The point is sharp.",
         "It can prick your skin or hurt an eye.",
         "Point it away from yourself and others. Push slowly, with nothing of you behind the work. Put it"
         " away after use."),
    _row("punch", "caution", "A punch closes hard.",
         "It can pinch or cut your fingers.",
         "Keep your fingers away from the jaws. Set it on the table when you press down."),
    _row("pinch", "caution", "The jaws close with force.",
         "They can pinch your fingers.",
         "Hold the tool by its handles. Close it slowly and keep your fingers out of the gap."),
    _row("glass", "caution", "Glass can break into sharp pieces.",
         "The pieces can cut you.",
         "Hold it by the edge and set it on something soft. Tell an adult if it breaks, and leave the"
         " pieces alone."),
    # Flying and moving things
    _row("eye", "warning", "Small bits can fly off.",
         "They can hurt your eyes badly.",
         "Wear eye protection marked Z87.1 or as your local rules ask. Keep your face away from the work.",
         "school_eye_protection", "z87_1", gear=("eye protection",)),
    _row("machine", "warning", "The machine moves fast and does not stop at once.",
         "It can catch hair, sleeves or fingers, and throw bits at your eyes.",
         "Use it only with an adult beside you and as its manual says. Tie back hair and sleeves. Clamp"
         " the work. Wear eye protection. Unplug it before you change a part.",
         "school_eye_protection", "common_practice", gear=("eye protection",), adult=True, covers=("eye",)),
    _row("strike", "caution", "A hammer blow can miss.",
         "It can bruise or break a finger.",
         "Hold the nail with pliers or a strip of card. Start with light taps. Keep others at arm's"
         " length."),
    _row("snap", "caution", "Stretched elastic stores energy.",
         "It can snap back and sting your skin or hurt an eye.",
         "Keep your face out of its line. Stretch it slowly, only as far as the step asks, and never point"
         " it at anyone."),
    _row("projectile", "warning", "This throws things hard enough to hurt.",
         "A hit can injure an eye.",
         "Never aim at people or animals. Clear the space in front. Wear eye protection. Launch it only when"
         " an adult says so.",
         "school_eye_protection", "common_practice", gear=("eye protection",), adult=True),
    _row("heavy", "caution", "This load is heavy.",
         "It can strain your back or crush toes and fingers.",
         "Lift it with someone else. Bend your knees. Keep fingers and feet from under it."),
    # Heat and electricity
    _row("hot", "caution", "The tool and what it melts are hot, and stay hot.",
         "They can burn your skin.",
         "Touch neither until they have cooled. Spread melted glue with a stick, never a finger. Stand the"
         " tool on its rest. Keep cold water close: cool a burn at once and tell an adult.",
         "school_hot_glue"),
    _row("flame", "warning", "An open flame sets other things alight.",
         "It can burn you badly and start a fire.",
         "Light it only with an adult beside you. Tie back hair and sleeves. Clear away paper and"
         " solvents. Keep water or an extinguisher close. Follow the fire rules of the place.",
         adult=True),
    _row("electric", "warning", "This tool runs on mains electricity.",
         "A damaged lead or wet hands can give a shock that kills.",
         "Let an adult check the lead and plug. Keep water away. Pull the plug, not the lead, when you"
         " finish.",
         adult=True),
    _row("battery", "caution", "A battery whose ends are joined by metal gets hot.",
         "It can burn you or leak.",
         "Connect it last. Keep loose metal away from its ends. Take it off at once if it feels warm."),
    # What is breathed, swallowed or touched
    _row("fumes", "caution", "The vapour of this product is breathed in.",
         "It can make you dizzy or sore in the throat.",
         "Open windows or work outdoors, as the label says. Keep your face back. Close the lid. Go to"
         " fresh air and tell an adult if you feel unwell.",
         "lhama", "school_art_guidelines", ventilate=True),
    _row("flammable", "warning", "This liquid and its vapour catch fire easily.",
         "A spark or flame can set them alight and burn you badly.",
         "Keep flames, sparks and hot tools away. Open windows or work outdoors. Close the lid. Follow the"
         " label, with an adult in charge.",
         "school_art_guidelines", "common_practice", ventilate=True, adult=True),
    _row("spray", "warning", "The can is under pressure, and its mist burns easily and is breathed in.",
         "It can hurt your eyes and lungs, burst when heated, or catch fire.",
         "Spray outdoors or where the air is drawn away, as the label says, with an adult in charge. Wear"
         " eye protection. Stand with the wind behind you. Keep flames, sparks and heat away.",
         "school_art_guidelines", "school_eye_protection", "common_practice", gear=("eye protection",),
         ventilate=True, adult=True, covers=("fumes", "flammable")),
    _row("oily_rags", "warning", "A cloth that is wet with oil grows hot by itself as it dries.",
         "It can start a fire hours later and burn you.",
         "Give every oily cloth to the adult in charge at once. Lay it flat outdoors or put it under water."
         " Never leave one in a heap or a bin.",
         adult=True),
    _row("dust", "caution", "Sanding makes fine dust.",
         "It can make you cough and sting your eyes.",
         "Sand gently, away from your face. Wipe the dust up with a damp cloth; do not blow it. Keep the"
         " air fresh.",
         ventilate=True),
    _row("fine_dust", "warning", "This dust is fine enough to reach deep into the lungs.",
         "It can harm your lungs and eyes.",
         "Let an adult do it, outdoors or with dust drawn away. Wear a dust mask and eye protection, as"
         " the label says.",
         "school_eye_protection", "common_practice", gear=("dust mask", "eye protection"), ventilate=True,
         adult=True, covers=("dust",)),
    _row("skin", "caution", "Uncured resin or solvent on the skin is harmful.",
         "It can give you a rash that returns for life.",
         "Wear the gloves that the label names, and eye protection. Wash it off with soap and water at"
         " once.",
         "school_eye_protection", "common_practice", gear=("gloves", "eye protection")),
    _row("bonds", "warning", "This glue sticks skin and eyelids together in seconds.",
         "It can injure your eyes and tear your skin.",
         "Let an adult apply it, with fresh air. Wear eye protection. Keep it off cotton and wool: they"
         " can get hot. Never pull bonded skin apart; soak it in warm soapy water and get help as the label"
         " says.",
         "school_instant_glue", "memory", gear=("eye protection",), ventilate=True, adult=True,
         covers=("fumes",)),
    _row("small_parts", "warning", "Small parts can be swallowed or breathed in.",
         "A young child can choke on them.",
         "Keep the parts away from children under 3. Count them back into the box at the end.",
         "cfr16_1501"),
    _row("balloon", "warning", "Balloons, whole or burst, can block the airway.",
         "Children under 8 can choke on them.",
         "Keep them away from young children. Let an adult blow them up. Throw broken pieces away at once."
         " Ask about latex allergy.",
         "cfr16_1500_19", "common_practice", adult=True),
    _row("magnet", "warning", "Strong magnets pull together, even inside the body.",
         "Swallowed ones can kill.",
         "Let an adult count them out and back. Keep them from young children and out of every mouth. If one"
         " is swallowed, get medical help at once.",
         "cfr16_1262", adult=True),
    _row("coin_cell", "warning", "A coin cell that is swallowed burns from inside.",
         "It can kill a child within hours.",
         "Let an adult count the cells out and back. Screw the holder shut. If one is swallowed, get medical"
         " help at once.",
         "cfr16_1263", adult=True),
    # Light
    _row("sun", "danger", "Sunlight through a lens or a telescope is far stronger than the eye can bear.",
         "One look at the Sun will burn the eye and can blind you for good. It does not hurt while it"
         " happens.",
         "Never look at the Sun or near it, with or without the instrument. Point it only where the adult"
         " in charge says. Cap both ends when you set it down: sunlight through a lens can set things"
         " alight.",
         "memory", adult=True, covers=("focus",)),
    _row("focus", "caution", "A lens gathers sunlight to a hot spot.",
         "It can burn skin, or set paper alight.",
         "Keep lenses out of sunlight. Cover them when they are not in use.",
         "memory"),
    _row("laser", "warning", "A laser beam is strong even when it looks dim.",
         "It can harm the eye for good.",
         "Never look into the beam or point it at anyone. Follow its label, with an adult in charge.",
         "memory", adult=True),
    # Cords, and the flight itself
    _row("cord", "warning", "A long cord can loop round a neck or a foot.",
         "It can strangle a young child, or trip someone.",
         "Keep cords off the floor and away from necks. Wind up loose ends. Keep them from young children."),
    _row("motor", "warning", "A rocket motor holds fuel that burns fiercely.",
         "It can burn you badly and start a fire.",
         "Let an adult keep and handle it, as the maker's instructions say. Keep it from heat and flame."
         " Never open, cut, drill or reuse one.",
         "national_code", "nfpa_1122", adult=True),
    _row("launch", "warning", "A rocket in flight is fast, and its motor is hot.",
         "It can hit someone, burn them or start a fire.",
         "Leave launching to the responsible adult, who follows the national model rocket safety code, the"
         " motor maker's instructions and local rules. Stay behind the line that they set.",
         "national_code", "nfpa_1122", adult=True, covers=("motor",)),
    # Property alone
    _row("stain", "notice", "This product stains.",
         "It does not wash out of clothes or wood once it is dry.",
         "Cover the table, wear an apron or old clothes, and wipe up spills while they are wet."),
    _row("surface", "notice", "Blades, drills and glue go through the work.",
         "They mark the table beneath.",
         "Put a cutting mat or a piece of scrap board under the work."),
    _row("damp", "notice", "Card and paper take up water.",
         "A damp tube swells, and its layers come apart.",
         "Store the work flat in a dry place, away from sunny windows and radiators."),
)
# fmt: on

_BY_KEY = {row.key: row for row in HAZARDS}


def hazard(key: str) -> Hazard | None:
    """The hazard with this key, or None."""
    return _BY_KEY.get(plain(key).replace(" ", "_"))


def uncovered(keys: Iterable[str]) -> tuple[str, ...]:
    """The hazards whose cautions are to be printed: in the given order, once each, without those that
    another covers."""
    wanted = tuple(dict.fromkeys(keys))
    covered = {other for key in wanted if (row := _BY_KEY.get(key)) for other in row.covers}
    return tuple(key for key in wanted if key not in covered)
