"""Bad input, through the real command: one sentence a problem, at its place, and nothing else happens."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from bad import JOB, RIG, changed, contents, run, write

from drawcord.files.home import shared

# What is spoilt: the file, a passage of it and what comes in its stead, with a mark where the sentence should point;
# then words that the sentence needs: the value, and what would be right.
SYNTAX = {
    "a tab": ("rig", "  wall: 50", "¦\twall: 50", "a tab stands where only spaces may"),
    "an open bracket": ("rig", "pipe: 50}\n  bay:", "pipe: 50\n  bay¦:", "cannot be read as YAML", "line 19"),
    "an open quote": ("rig", "  wall: 50", "  wall: ¦'50", "cannot be read as YAML"),
    "a wrong indent": ("rig", "  wall: 50", " ¦wall: 50", "cannot be read as YAML", "look at indents"),
    "no colon": ("rig", "  wall: 50\n  floor", "  wall 50\n  floor thickness¦: 60\n  floor", "cannot be read as YAML"),
    "a key twice": ("rig", "  wall: 50", "  wall: 50\n  ¦wall: 60", "`wall`", "second time", "line 9, column 3"),
    "an id twice": ("rig", "  pantry:", "  ¦linen:", "`linen`", "second time", "line 17, column 3"),
    "a control character": ("rig", "name: Sketch", 'name: ¦"Ske\\x07tch"', "control character"),
    "a tag": ("rig", "name: Sketch", "name: ¦!!python/object Sketch", "`!!python/object`", "leave it out"),
    "an alias to nothing": ("rig", "name: Sketch", "name: ¦*that", "`*that` stands for nothing"),
    "an alias to itself": ("rig", "street: 600, up: floor..ceiling", "street: &a [¦*a], up: floor..ceiling", "`*a`"),
    "two documents": ("rig", "units: mm\n", "units: mm\n¦---\n", "second document"),
    "a key that is a list": ("rig", "  wall: 50", "  wall: 50\n  ¦[a]: 3", "a key must be text"),
    "a key without a name": ("job", "cores: 2", "¦: 2", "a key is missing before the colon"),
}
SCHEMA = {
    "an unknown key": ("rig", "  wall: 50", "  wall: 50\n  ¦paint: red", "`paint` is unknown", "may stand here"),
    "a misspelt key": ("rig", "door: up", "¦dor: up", "`dor` is unknown", "did you mean `door`?"),
    "a misspelt section": ("rig", "hazards:", "¦hazzards:", "`hazzards` is unknown", "did you mean `hazards`?"),
    "an unknown key of a job": ("job", "owner: {", "owner: {¦budget: 3, ", "`budget` is unknown", "excludes"),
    "a key as Python has it": ("rig", "moving parts:", "¦moving_parts:", "did you mean `moving parts`?"),
    "a missing key": ("rig", "slide: {kind: slide-out,", "¦slide: {", "`kind` is missing", "What it is"),
    "a missing key of a job": ("job", "  pv: {from: junction.pv, ", "  ¦pv: {", "`from` is missing", "it starts at"),
    "no format": ("job", "format: 1\njob", "¦job", "`format` is missing"),
    "a later format": ("rig", "format: 1", "format: ¦2", "`2` should be 1"),
    "an unknown kind": ("rig", "vent stack", "¦vent stak", "`vent stak` should be", "did you mean `vent stack`?"),
    "an unknown side": ("rig", "door: curb}", "door: ¦kerb}", "`kerb` should be", "`curb`"),
    "a date in words": ("job", "'2025-05-01'", "¦'last May'", "`last May` should be"),
    "text for a number": ("job", "cores: 2", "cores: ¦two", "`two` should be a whole number"),
    "text for a length": ("rig", "wall: 50", "wall: ¦thin", "`thin` is no length", "600 mm"),
    "text for a time": ("rig", "face: curb}", "face: curb, minutes: ¦soon}", "`soon` is no time", "15 min"),
    "text for a share": ("rig", "80 %", "¦likely", "`likely` is no share", "60 %"),
    "text for a temperature": ("job", "-20 °C", "¦cold", "`cold` is no temperature", "-20 °C"),
    "text for a current": ("job", "9 A", "¦lots", "`lots` is no current", "12.5 A"),
    "a number for text": ("job", "rig: rig.yaml", "rig: ¦7", "`7` should be text"),
    "a list for a mapping": ("job", "owner: {roof run: square}", "owner: ¦[roof run]", "a list should be a mapping"),
    "nothing for a mapping": ("job", "owner: {roof run: square}", "¦owner:", "an empty value should be a mapping"),
    "a mapping for a length": ("rig", "wall: 50", "wall: ¦{}", "a mapping is no length"),
    "not a number": ("rig", "wall: 50", "wall: ¦.nan", "`.nan` is no length"),
    "not a number in words": ("rig", "wall: 50", "wall: ¦NaN", "`NaN` is no length"),
    "not a number in a range": ("rig", "4000..4500", "¦4000..nan", "`nan` is no length"),
    "not a number as a weight": ("job", "{roof run", "{weights: {minutes: ¦nan}, roof run", "`nan` should be"),
    "infinite": ("rig", "wall: 50", "wall: ¦.inf", "`.inf` is no length"),
    "infinitely negative": ("rig", "ground: -1000", "ground: ¦-.inf", "`-.inf` is no length"),
    "infinite amperes": ("job", "9 A", "¦inf A", "`inf A` is no current"),
    "an exponent": ("rig", "wall: 50", "wall: ¦5e1", "`5e1` is no length", "600 mm"),
    "a negative size": ("rig", "wall: 50", "wall: ¦-50", "`-50` must be more than nothing"),
    "a negative depth": ("rig", "long: 500, street: 600", "long: 500, street: ¦-600", "-600 lies outside the wall"),
    "a negative current": ("job", "9 A", "¦-9 A", "`-9 A` is out of bounds", "more than 0"),
    "nothing as a size": ("rig", "roof: 2060", "roof: ¦0 mm", "`0 mm` must be more than nothing"),
    "a size of kilometres": ("rig", "length: 6000", "length: ¦6 km", "`km` in `6 km` is no unit of length"),
    "a size longer than any vehicle": ("rig", "length: 6000", "length: ¦60 m", "`60 m` is longer than any vehicle"),
    "a place a kilometre away": ("rig", "4000..4500", "¦4000..1000000", "`1000000` is longer than any vehicle"),
    "a size beyond all numbers": ("rig", "length: 6000", "length: ¦99999999999999999999", "`99999999999999999999`"),
    "an unknown unit": ("rig", "units: mm", "units: ¦yards", "`yards` should be `mm`"),
    "a unit twice": ("rig", "wall: 50", "wall: ¦50 mm mm", "`50 mm mm`"),
    "two readings": ("rig", "length: 6000", "length: ¦6,000", "`6,000` can be read in two ways", "6000"),
    "a range that runs backwards": ("rig", "4000..4500", "¦4500..4000", "`4500..4000` runs backwards"),
    "an empty range": ("rig", "4000..4500", "¦4000..4000", "`4000..4000` is empty"),
    "half a range": ("rig", "4000..4500", "¦4000..", "`4000..` is no range", "6.70..7.09 m"),
    "an unknown height": ("rig", "up: floor..900", "up: ¦floor..lid", "`lid` is no height", "ceiling"),
    "a slide that travels nowhere": ("rig", "travel: 600", "travel: ¦0", "`0` must be more than nothing"),
    "a slide that hardly travels": ("rig", "travel: 600", "travel: ¦0.4", "`0.4` must be more than nothing"),
    "a slide that travels backwards": ("rig", "travel: 600", "travel: ¦-600", "`-600` must be more than nothing"),
    "a chance beyond certainty": ("rig", "80 %", "¦180 %", "`180 %` is out of bounds", "between 0 and 100 %"),
    "a negative weight": ("job", "{roof run", "{weights: {minutes: ¦-1}, roof run", "`-1` should be 0 or more"),
    "a weight of nothing known": ("job", "{roof run", "{weights: {¦speed: 1}, roof run", "`speed`", "`minutes`"),
}
REFERENCES = {
    "a place after nothing": ("rig", "after: linen", "after: ¦linnen", "no space called linnen to measure from"),
    "a way into nothing": ("rig", "{into: stack", "{into: ¦stak", "panel opens stak, but there is no such space"),
    "a passage to nothing": ("rig", "[linen, bay]", "¦[linen, bey]", "glory_hole joins bey", "no such space"),
    "a passage to itself": ("rig", "[linen, bay]", "¦[linen, linen]", "glory_hole joins linen to itself"),
    "a tolerance for nothing": ("rig", "hazards:", "touching: {¦linen~zink: 80}\nhazards:", "linen~zink does not name two"),
    "an id of two things": ("rig", "  fan:", "  ¦stack:", "the id stack is taken already, by spaces.stack"),
    "the id of the roof": ("rig", "  flue:", "  ¦roof:", "the id roof is taken already"),
    "a terminal in no space": ("job", "in: bay", "in: ¦attic", "controller sits in attic, but there is no such space"),
    "a cable to nothing": ("job", "to: controller.pv", "to: ¦control.pv", "control.pv", "controller.pv, junction.pv"),
    "a cable to where it starts": ("job", "to: controller.pv", "to: ¦junction.pv", "ends where it starts"),
    "something found nowhere": ("job", "what: stack", "what: ¦stak", "stak is neither a space nor a passage"),
    "something removed that is not there": ("job", "  found:", "  removed: [¦stak]\n  found:", "nothing called stak"),
    "something excluded that is not there": ("job", "owner: {", "owner: {excludes: [¦stak], ", "excludes stak"),
    "a rig that is not there": ("job", "rig: rig.yaml", "rig: ¦other.yaml", "`other.yaml`", "beside this one"),
    "a rig in another folder": ("job", "rig: rig.yaml", "rig: ¦../rig.yaml", "`../rig.yaml` leads out of the folder"),
    "a rig at the root": ("job", "rig: rig.yaml", "rig: ¦/etc/passwd", "`/etc/passwd` leads out of the folder"),
    "a rig on a drive": ("job", "rig: rig.yaml", "rig: ¦'C:\\rig.yaml'", "leads out of the folder"),
    "a rig that is a folder": ("job", "rig: rig.yaml", "rig: ¦.", "there is no file `.`"),
}
GEOMETRY = {
    "a crossing outline": (
        "rig",
        "length: 6000\n  width: 2500",
        "outline: ¦[[0, 0], [6000, 2500], [6000, 0], [0, 2500]]",
        "crosses itself 3000 mm from the front and 1250 mm from the left side",
    ),
    "an outline of two corners": ("rig", "length: 6000\n  width: 2500", "outline: ¦[[0, 0], [9, 9]]", "three corners"),
    "neither outline nor length": ("rig", "shell:\n  length: 6000\n", "shell: ¦\n", "neither `outline` nor both"),
    "a roof below its ceiling": ("rig", "roof: 2060", "roof: ¦2000", "the roof at 2000 mm is not above the ceiling"),
    "a ground above the floor": ("rig", "ground: -1000", "ground: ¦10", "the ground at 10 mm is not below the floor"),
    "a space beyond the rear": (
        "rig",
        "  linen: {kind: cabinet, from front: 1000..2000",
        "  linen: {kind: cabinet, from front: 1000..2000",
    ),
}
