"""HL7 v2.5.1 messages that hl7apy makes, with its own escapes, come back whole."""

import base64

import pytest
from hl7apy.core import Message
from hl7apy.v2_5_1 import FT, ST, TX

from inputs import holds_the_notes, ledger, notes, read

TYPES = {"FT": FT, "TX": TX, "ST": ST}

# hl7apy escapes the escape character of commands that stand in a value, so that line breaks go in afterwards, in place
# of a character for private use.
BREAK = "\ue000"
BREAKS = {"br": ("FT", "\\.br\\"), "hex": ("ST", "\\X0A\\"), "repeats": ("TX", "~"), "base64": ("ED", "")}


def escaped(text, kind):
    return TYPES[kind](text.replace("\n", BREAK)).to_er7()


def values(note, way):
    """Pairs of OBX-2 and OBX-5 that stand for the text of a note."""
    kind = BREAKS[way][0]
    if kind != "ED":
        return [(kind, escaped(note["text"], kind))]
    data = base64.b64encode(note["text"].encode()).decode()
    return [("ED", f"^TEXT^plain^Base64^{data}")]


def with_breaks(made, way):
    return made.replace(BREAK, BREAKS[way][1])


def fill(message, observations, pairs):
    for number, (kind, value) in enumerate(pairs, 1):
        obx = observations().add_segment("OBX")
        obx.obx_1 = str(number)
        obx.obx_2 = kind
        obx.obx_3 = "11506-3^Progress note^LN"
        obx.obx_5 = value
        obx.obx_11 = "F"


def header(message, note, control):
    message.msh.msh_3 = "CLINIC"
    message.msh.msh_7 = "20310304101500"
    message.msh.msh_10 = control
    message.msh.msh_11 = "P"
    message.msh.msh_18 = "UNICODE UTF-8"


def mdm(note, pairs):
    message = Message("MDM_T02", version="2.5.1")
    header(message, note, "C" + note["id"])
    message.msh.msh_9 = "MDM^T02^MDM_T02"
    message.evn.evn_2 = "20310304"
    message.pid.pid_3 = note["patient"] + "^^^CLINIC^MR"
    message.txa.txa_2 = "PN"
    message.txa.txa_4 = note["date"].replace("-", "")
    message.txa.txa_9 = note["author"] + "^NAME"
    message.txa.txa_12 = note["id"] + "^CLINIC"
    fill(message, lambda: message.add_group("MDM_T02_OBXNTE_SUPPGRP"), pairs)
    return message


def oru(note, pairs):
    message = Message("ORU_R01", version="2.5.1")
    header(message, note, "C" + note["id"])
    message.msh.msh_9 = "ORU^R01^ORU_R01"
    result = message.add_group("ORU_R01_PATIENT_RESULT")
    patient = result.add_group("ORU_R01_PATIENT")
    patient.pid.pid_3 = note["patient"] + "^^^CLINIC^MR"
    order = result.add_group("ORU_R01_ORDER_OBSERVATION")
    order.obr.obr_3 = note["id"] + "^CLINIC"
    order.obr.obr_7 = note["date"].replace("-", "")
    order.obr.obr_32 = note["author"]
    fill(message, lambda: order.add_group("ORU_R01_OBSERVATION"), pairs)
    return message


@pytest.mark.parametrize("make", [mdm, oru])
@pytest.mark.parametrize("way", ["br", "hex", "repeats", "base64"])
def test_messages_come_back_whole(make, way):
    made = [make(note, values(note, way)) for note in notes()]
    plain = with_breaks("\r".join(message.to_er7() for message in made), way).encode()
    framed = with_breaks("".join(message.to_mllp() for message in made), way).encode()
    batch = b"FHS|^~\\&|CLINIC\rBHS|^~\\&|CLINIC\r" + plain + f"\rBTS|{len(made)}\rFTS|1\r".encode()
    for data in (plain, framed, batch, plain.replace(b"\r", b"\n"), plain.replace(b"\r", b"\r\n")):
        holds_the_notes(read(data, "--from", "hl7"))
    holds_the_notes(read(batch))


def test_fields_are_carried_through_as_they_came():
    message = mdm(notes()[0], values(notes()[0], "br"))
    answer = read(message.to_er7().encode())[0]
    for segment in ("msh", "evn", "pid", "txa"):
        for field in getattr(message, segment).children:
            name = field.name.replace("_", "-")
            if name != "MSH-1":
                assert answer[name] == field.to_er7(), name


def test_an_observation_a_line_is_the_same_text():
    note = next(note for note in notes() if "\n\n" not in note["text"].strip("\n") and "\n" in note["text"])
    text = note["text"].strip("\n")
    pairs = [("TX", escaped(line, "TX")) for line in text.split("\n")]
    answer = read(mdm(note, pairs).to_er7().encode())[0]
    assert ledger(answer) == ledger(read(text.encode(), "--from", "text")[0])


def test_character_sets():
    note = {**notes()[0], "id": "latin", "text": "EXAM\nRight knee: flexion 120° – full."}
    for charset, codec in (("8859/1", "latin-1"), ("8859/15", "iso-8859-15"), ("GB 18030-2000", "gb18030")):
        text = note["text"] if codec == "gb18030" else note["text"].replace("–", "-")
        message = mdm({**note, "text": text}, values({**note, "text": text}, "br"))
        message.msh.msh_18 = charset
        answer = read(with_breaks(message.to_er7(), "br").encode(codec))[0]
        assert ledger(answer) == ledger(read(text.encode(), "--from", "text")[0])
