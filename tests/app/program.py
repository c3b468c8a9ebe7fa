"""Runs the program under test as a user would; notes of our own invention to feed it with."""

import json
import os
import random
import subprocess

PROGRAM = os.environ["JOINTLEDGER_PROGRAM"]
AUDIT = ["audit", "--profile", "complaint", "--to", "ndjson"]

JOINTS = ["knee", "shoulder", "hip", "ankle", "wrist", "elbow"]
REMARKS = [
    "no swelling, no redness.",
    "tender over the joint line, no effusion.",
    "full range of motion without pain.",
    "flexion limited to 110 degrees.",
    "strength 5/5.",
    "stable to stress.",
    "sensation intact to light touch.",
    "not examined because of the cast.",
]
SMALL_TALK = ["keeps bees", "repairs clocks", "sings in a choir", "walks to the mill", "grows beans", "paints fences"]


def run(*words, **options):
    """The finished process; standard input, output and error are bytes."""
    options.setdefault("capture_output", True)
    return subprocess.run([PROGRAM, *map(str, words)], check=False, **options)


def note(rng, number, earlier):
    """A note as an object; now and then its exam is copied from one of `earlier`, to which it is added."""
    joint = rng.choice(JOINTS)
    if earlier and rng.random() < 0.5:
        exam = rng.choice(earlier)
    else:
        exam = " ".join(
            f"{rng.choice(['Left', 'Right'])} {rng.choice(JOINTS)}: {rng.choice(REMARKS)}" for _ in range(12)
        )
        earlier.append(exam)
    history = f"The patient {rng.choice(SMALL_TALK)}. Pain in the left {joint} for {rng.randint(2, 60)} days."
    return {
        "id": f"n{number}",
        "author": f"FW-{rng.randint(1, 3):02}",
        "patient": f"P{rng.randint(1, 40)}",
        "text": f"HISTORY: {history}\nEXAM: {exam}\nPLAN: Rest, exercises, review in three weeks.",
    }


def notes(seed, count):
    """`count` notes as lines of NDJSON, without their breaks; the same for the same seed."""
    rng = random.Random(seed)
    earlier = []
    return [json.dumps(note(rng, number, earlier)).encode() for number in range(count)]


def objects(lines):
    """The objects of NDJSON bytes."""
    return [json.loads(line) for line in lines.splitlines()]
