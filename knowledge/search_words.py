"""Words for the parts of a machine in other languages, with what packs in English call them.

They are only tried for a word that nothing known has, so that a pack in another language is found by its own words.
"""

from __future__ import annotations

from knowledge.names import fold

_SPOKEN = {
    "free arm": "freiarm, bras libre, braccio libero, brazo libre, vrije arm, wolne ramie, friarm, свободный рукав",
    "hand crank": "hand cranked, handkurbel, kurbel, manivelle, manovella, manivela, handslinger, zwengel, korba, "
    "ручной, ручная, handvev, vev, håndsveiv",
    "treadle": "tretgestell, tretmaschine, fußantrieb, pédale, pedale, a pedali, pedal, pedales, trapmachine, trap, "
    "pedał, ножная, ножной, trampa, trampmaskin",
    "electric": "elektrisch, elektrische, électrique, elettrica, elettrico, eléctrica, eléctrico, elektryczna, "
    "электрическая, elektrisk, motorised, motorized",
    "shuttle": "schiffchen, schiff, navette, navetta, lanzadera, schuit, schuitje, czółenko, челнок, skyttel",
    "vibrating": "schwingschiff, schwingend, vibrante, oscillante, vibrant",
    "transverse": "querschwingend, transversal, transversale, trasversale",
    "rotary hook": "umlaufgreifer, greifer, crochet rotatif, crochet, gancho rotativo, grijper, chwytacz, griparm",
    "bobbin": "spule, canette, bobina, spolina, spoel, spoeltje, bębenek, szpulka, шпулька, spole",
    "round": "rund, ronde, rond, rotonda, redonda, okrągła, круглая",
    "boat shaped": "bootsförmig, forme bateau",
    "needle": "nadel, aiguille, ago, aguja, naald, igła, игла, nål",
    "zigzag": "zickzack, zigzagsteek, zygzak, зигзаг, sicksack",
    "three quarter": "3/4, dreiviertel, trois quarts, driekwart, tre quarti, tres cuartos, trzy czwarte",
    "fiddle bed": "violinbett, geigenform, vioolvorm, violon",
    "flat bed": "flachbett, plateau plat, vlakbed",
    "wooden case": "holzkoffer, holzkasten, coffret bois, houten kist, custodia legno, caja madera",
    "toy": "kindernähmaschine, jouet, giocattolo, juguete, speelgoed",
    "patcher": "cobbler, schuster, schuhmacher, cordonnier, calzolaio, zapatero, schoenmaker",
}
SAYINGS: dict[tuple[str, ...], tuple[str, ...]] = {
    tuple(fold(spoken).replace("/", " ").split()): tuple(english.split())
    for english, others in _SPOKEN.items()
    for spoken in others.split(", ")
}
"""Folded words as people say them, and the words to look for instead."""
LONGEST_SAYING = max(map(len, SAYINGS))
