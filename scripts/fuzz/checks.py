"""What the service may answer to anything at all, and what it is asked about; loaded by schemathesis."""

import base64
import os
import random

import schemathesis

RECORD = open(os.environ["FUZZ_RECORD"], encoding="utf-8").read()
IDS = {"/v1/outbox/": os.environ["FUZZ_ITEM"], "/v1/drafts/": os.environ["FUZZ_DRAFT"], "/v1/fhir/": "Patient"}
# One worker asks in the same order each time, so these are the same each time.
chance = random.Random(7)


@schemathesis.check
def no_fault(ctx, response, case):
    """A fault is never what a request asked for; 503 is one of the service's answers where it says when to come again."""
    if response.status_code < 500:
        return None
    if response.status_code == 503 and "retry-after" in response.headers:
        return None
    raise AssertionError(f"{response.status_code} without being told when to come again")


def spoilt():
    """A record that is nearly right: some of it is cut out, twice, or swapped for what was somewhere else."""
    text = RECORD
    for _ in range(chance.randrange(3)):
        at, other = chance.randrange(len(text)), chance.randrange(len(text))
        length = chance.choice([1, 3, 20, 200])
        text = text[:at] + text[other : other + chance.choice([0, length])] + text[at + chance.choice([0, length]) :]
    return text


@schemathesis.hook
def before_call(ctx, case, kwargs):
    """Half of the requests are about something that there is: made-up ids and texts are turned away at the door."""
    if chance.random() < 0.5:
        return
    for begin, one in IDS.items():
        for name in ("id", "type"):
            if case.path.startswith(begin) and name in (case.path_parameters or {}):
                case.path_parameters[name] = one
    if chance.random() < 0.5:
        case.query = {}
    if case.media_type == "application/yaml":
        # Bytes go as they are; text would be written as a string of YAML.
        case.body = spoilt().encode("utf-8")
    if case.path == "/v1/fhir/$process-case":
        data = base64.b64encode(spoilt().encode("utf-8")).decode("ascii")
        binary = {"resourceType": "Binary", "contentType": "application/yaml", "data": data}
        case.body = {"resourceType": "Parameters", "parameter": [{"name": "record", "resource": binary}]}
