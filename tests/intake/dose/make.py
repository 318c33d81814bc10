"""Writes the dose reports of `objects/` and what each of them says (`objects.yaml`), from the values in this file.

Needs pydicom (3.0): python3 -m venv VENV && VENV/bin/pip install pydicom && VENV/bin/python make.py
Codes are those of DICOM PS3.16, as pydicom's own dictionary of concepts carries them: `codes.yaml` is that extract.
Everybody and everything in the objects is invented.
"""

import io
import json
from decimal import Decimal
from pathlib import Path

from pydicom.dataset import Dataset, FileMetaDataset
from pydicom.filewriter import dcmwrite, write_dataset
from pydicom.filebase import DicomBytesIO
from pydicom.sequence import Sequence
from pydicom.sr._concepts_dict import concepts
from pydicom.uid import (
    DeflatedExplicitVRLittleEndian,
    ExplicitVRLittleEndian,
    ImplicitVRLittleEndian,
)

HERE = Path(__file__).parent
OUT = HERE / "objects"
ROOT = "1.2.826.0.1.3680043.10.99999"  # invented branch
XRAY_SR = "1.2.840.10008.5.1.4.1.1.88.67"
ENHANCED_SR = "1.2.840.10008.5.1.4.1.1.88.22"
COMPREHENSIVE_SR = "1.2.840.10008.5.1.4.1.1.88.33"

BY_CODE = {code: (name, rows[code][0]) for name, rows in concepts["DCM"].items() for code in rows}
USED: dict[str, str] = {}


def code(value, scheme="DCM", meaning=None):
    item = Dataset()
    item.CodeValue = value
    item.CodingSchemeDesignator = scheme
    if scheme == "DCM" and meaning is None:
        meaning = BY_CODE[value][1]
        USED[value] = meaning
    item.CodeMeaning = meaning or value
    return item


def content(kind, concept, relation="CONTAINS", children=()):
    item = Dataset()
    if relation:
        item.RelationshipType = relation
    item.ValueType = kind
    item.ConceptNameCodeSequence = Sequence([concept if isinstance(concept, Dataset) else code(concept)])
    if kind == "CONTAINER":
        item.ContinuityOfContent = "SEPARATE"
    if children:
        item.ContentSequence = Sequence(list(children))
    return item


def num(concept, value, unit, relation="CONTAINS"):
    item = content("NUM", concept, relation)
    measured = Dataset()
    measured.MeasurementUnitsCodeSequence = Sequence([code(unit, "UCUM", unit)])
    measured.add_new(0x0040A30A, "DS", value)
    item.MeasuredValueSequence = Sequence([measured])
    return item


def coded(concept, value, relation="CONTAINS"):
    item = content("CODE", concept, relation)
    item.ConceptCodeSequence = Sequence([value if isinstance(value, Dataset) else code(value)])
    return item


def words(concept, value, relation="CONTAINS"):
    item = content("TEXT", concept, relation)
    item.TextValue = value
    return item


def uid(concept, value, relation="CONTAINS"):
    item = content("UIDREF", concept, relation)
    item.UID = value
    return item


def moment(concept, value):
    item = content("DATETIME", concept)
    item.DateTime = value
    return item


PLANES = {"single": "113622", "A": "113620", "B": "113621"}
TYPES = {"fluoroscopy": ("44491008", "SCT", "Fluoroscopy"), "acquisition": ("113611", "DCM", None)}
TOTALS = {  # of TID 10004 and TID 10007
    "doseAreaProduct": ("113722", "Gy.m2"),
    "fluoroDoseAreaProduct": ("113726", "Gy.m2"),
    "acquisitionDoseAreaProduct": ("113727", "Gy.m2"),
    "doseRp": ("113725", "Gy"),
    "fluoroDoseRp": ("113728", "Gy"),
    "acquisitionDoseRp": ("113729", "Gy"),
    "fluoroTime": ("113730", "s"),
    "acquisitionTime": ("113855", "s"),
    "frames": ("113731", "1"),
}


def accumulated(plane, totals, units):
    children = [coded("113764", PLANES[plane], "HAS CONCEPT MOD")]
    for name, value in totals.items():
        concept, unit = TOTALS[name]
        children.append(num(concept, value, units.get(name, unit)))
    return content("CONTAINER", "113702", children=children)


def xray_event(event):
    children = [
        coded("113764", PLANES[event["plane"]]),
        uid("113769", event["uid"]),
        moment("111526", event["started"]),
        coded("113721", code(*TYPES[event["type"]])),
        words("125203", event["protocol"]),
        coded("123014", code("818983003", "SCT", "Abdomen")),
    ]
    if "dap" in event:
        children.append(num("122130", event["dap"], event.get("dapUnit", "Gy.m2")))
    if "rp" in event:
        children.append(num("113738", event["rp"], event.get("rpUnit", "Gy")))
    children.append(num("113733", event["kvp"], "kV"))
    if "rate" in event:
        children.append(num("113791", event["rate"], "{pulse}/s"))
    if "pulses" in event:
        children.append(num("113768", event["pulses"], "1"))
    if "duration" in event:
        children.append(num("113742", event["duration"], "s"))
    children += event.get("extra", [])
    return content("CONTAINER", "113706", children=children)


def ct_event(event):
    source = content("CONTAINER", "113831", children=[num("113733", event["kvp"], "kV")])
    parameters = content("CONTAINER", "113822", children=[source])
    children = [
        words("125203", event["protocol"]),
        coded("123014", code(*event["target"])),
        coded("113820", code(event["type"])),
        uid("113769", event["uid"]),
        parameters,
    ]
    if "ctdivol" in event:
        children.append(
            content(
                "CONTAINER",
                "113829",
                children=[
                    num("113830", event["ctdivol"], "mGy"),
                    coded("113835", event["phantom"]),
                    num("113838", event["dlp"], "mGy.cm"),
                ],
            )
        )
    return content("CONTAINER", "113819", children=children)


PERSON = {"id": "00481516", "name": "Quintanar^Vela", "birthDate": "19570802", "sex": "F"}
SYSTEM = {"manufacturer": "Larkfield Imaging", "model": "Arc Nine", "station": "ROOM-2", "serial": "LF-9-0042"}
STUDY = ROOT + ".1.193"


def report(name, kind, body, person=PERSON, system=SYSTEM, study=STUDY, accession="A-77120", charset=None, **more):
    data = Dataset()
    if charset is not None:
        data.SpecificCharacterSet = charset
    data.SOPClassUID = more.get("sop", XRAY_SR)
    data.SOPInstanceUID = more.get("instance", f"{ROOT}.2.{sum(map(ord, name)) * 131 + len(name)}")
    data.StudyDate, data.StudyTime = "20240314", "090100"
    data.ContentDate, data.ContentTime = "20240314", more.get("time", "095012")
    if "zone" in more:
        data.TimezoneOffsetFromUTC = more["zone"]
    data.AccessionNumber = accession
    data.Modality = "SR"
    data.Manufacturer = system["manufacturer"]
    data.ManufacturerModelName = system["model"]
    data.StationName = system["station"]
    data.DeviceSerialNumber = system["serial"]
    data.SoftwareVersions = "1.0"
    data.ReferringPhysicianName = data.StudyID = ""
    data.ReferencedPerformedProcedureStepSequence = data.PerformedProcedureCodeSequence = Sequence([])
    data.PatientName = person["name"]
    data.PatientID = person["id"]
    data.PatientBirthDate = person["birthDate"]
    data.PatientSex = person["sex"]
    data.StudyInstanceUID = study
    data.SeriesInstanceUID = study + ".88"
    data.SeriesNumber, data.InstanceNumber = 990, 1
    data.CompletionFlag = more.get("completion", "COMPLETE")
    data.VerificationFlag = "UNVERIFIED"
    if "predecessor" in more:
        instance = Dataset()
        instance.ReferencedSOPClassUID = XRAY_SR
        instance.ReferencedSOPInstanceUID = more["predecessor"]
        series = Dataset()
        series.SeriesInstanceUID = study + ".88"
        series.ReferencedSOPSequence = Sequence([instance])
        earlier = Dataset()
        earlier.StudyInstanceUID = study
        earlier.ReferencedSeriesSequence = Sequence([series])
        data.PredecessorDocumentsSequence = Sequence([earlier])
    data.ValueType = "CONTAINER"
    data.ConceptNameCodeSequence = Sequence([code(more.get("title", "113701"))])
    data.ContinuityOfContent = "SEPARATE"
    procedure = "113704" if kind == "x-ray" else code("77477000", "SCT", "Computed Tomography X-Ray")
    scope = coded("113705", more.get("scope", "113014"))
    scope.ContentSequence = Sequence([uid("110180", study, "HAS PROPERTIES")])
    head = [
        coded("121058", procedure, "HAS CONCEPT MOD"),
        uid("121012", ROOT + ".3." + str(sum(map(ord, system["serial"]))), "HAS OBS CONTEXT"),
        words("121013", system["station"], "HAS OBS CONTEXT"),
        words("121016", system["serial"], "HAS OBS CONTEXT"),
        scope,
    ]
    data.ContentSequence = Sequence(head + body)
    return data


def written(data, syntax=ExplicitVRLittleEndian, preamble=True, meta=True):
    implicit = syntax == ImplicitVRLittleEndian
    if not meta:
        buffer = DicomBytesIO()
        buffer.is_little_endian, buffer.is_implicit_VR = True, implicit
        write_dataset(buffer, data)
        return buffer.getvalue()
    data.file_meta = FileMetaDataset()
    data.file_meta.TransferSyntaxUID = syntax
    data.file_meta.MediaStorageSOPClassUID = data.SOPClassUID
    data.file_meta.MediaStorageSOPInstanceUID = data.SOPInstanceUID
    data.file_meta.ImplementationClassUID = ROOT + ".9"
    buffer = io.BytesIO()
    dcmwrite(buffer, data, enforce_file_format=True)
    return buffer.getvalue() if preamble else buffer.getvalue()[128:]


def event(number, plane, kind, dap, rp, **more):
    made = {
        "uid": f"{ROOT}.4.{number}",
        "plane": plane,
        "type": kind,
        "started": f"202403140{9 + number // 60 if number >= 60 else 9}{number % 60:02d}00",
        "protocol": "Drainage low" if kind == "fluoroscopy" else "Single shot",
        "dap": dap,
        "rp": rp,
        "kvp": "76.4",
        "rate": "7.5",
        "pulses": "40",
        "duration": "5.3",
    }
    made.update(more)
    return {name: value for name, value in made.items() if value is not None}


def total(values):
    return format(sum(map(Decimal, values), Decimal(0)), "f")


def planes_of(events, over=None):
    """Totals as a sound machine gives them: the sums of the events."""
    out = {}
    for plane in sorted({e["plane"] for e in events}):
        own = [e for e in events if e["plane"] == plane]
        fluoro = [e for e in own if e["type"] == "fluoroscopy"]
        shots = [e for e in own if e["type"] == "acquisition"]
        out[plane] = {
            "doseAreaProduct": total(e["dap"] for e in own),
            "fluoroDoseAreaProduct": total(e["dap"] for e in fluoro),
            "acquisitionDoseAreaProduct": total(e["dap"] for e in shots),
            "doseRp": total(e["rp"] for e in own),
            "fluoroDoseRp": total(e["rp"] for e in fluoro),
            "acquisitionDoseRp": total(e["rp"] for e in shots),
            "fluoroTime": total(e["duration"] for e in fluoro),
            "frames": total(e["pulses"] for e in shots),
        }
    return {plane: {**totals, **(over or {})} for plane, totals in out.items()}


KNOWN = {}


def put(name, data, known, **how):
    content_bytes = written(data, **how)
    (OUT / f"{name}.dcm").write_bytes(content_bytes)
    KNOWN[name] = known


def xray(name, events, planes, person=PERSON, units=None, how=None, known=None, extra=(), **more):
    body = [accumulated(plane, totals, units or {}) for plane, totals in planes.items()]
    body += [xray_event(e) for e in events]
    data = report(name, "x-ray", body + list(extra), person=person, **more)
    put(
        name,
        data,
        {
            "kind": "x-ray",
            "patient": person,
            "events": len(events),
            "planes": {
                plane: {k: {"value": v, "unit": (units or {}).get(k, TOTALS[k][1])} for k, v in totals.items()}
                for plane, totals in planes.items()
            },
            **(known or {}),
        },
        **(how or {}),
    )
    return data


def main():
    one = [
        event(1, "single", "fluoroscopy", "0.00012310", "0.0041"),
        event(2, "single", "fluoroscopy", "0.00098000", "0.0302", duration="61.0"),
        event(3, "single", "acquisition", "0.00240000", "0.0800", rate=None, pulses="12", duration="4.0"),
        event(4, "single", "fluoroscopy", "0.00102000", "0.0417", duration="88.2"),
    ]
    xray("single", one, planes_of(one))
    two = [
        event(11, "A", "fluoroscopy", "0.00110000", "0.0500", duration="120.0"),
        event(12, "B", "fluoroscopy", "0.00070000", "0.0300", duration="95.0"),
        event(13, "A", "acquisition", "0.00330000", "0.1210", pulses="45", duration="11.0"),
        event(14, "B", "acquisition", "0.00210000", "0.0955", pulses="45", duration="11.0"),
    ]
    xray("biplane", two, planes_of(two), zone="+0100")
    xray("implicit", one, planes_of(one), how={"syntax": ImplicitVRLittleEndian})
    xray("deflated", one, planes_of(one), how={"syntax": DeflatedExplicitVRLittleEndian})
    xray("no-preamble", one, planes_of(one), how={"preamble": False})
    xray("bare", one, planes_of(one), how={"meta": False})
    xray("enhanced", one, planes_of(one), sop=ENHANCED_SR)
    xray("comprehensive", one, planes_of(one), sop=COMPREHENSIVE_SR)
    xray("zero-events", [], {"single": {k: "0" for k in planes_of(one)["single"]}})
    xray("partial", one, planes_of(one), completion="PARTIAL")
    xray("disagrees", one, planes_of(one, {"doseAreaProduct": "0.0952310"}))

    no_totals = {"single": {"fluoroTime": "154.5"}}
    xray("no-totals", one, no_totals, known={"summed": {"doseAreaProduct": total(e["dap"] for e in one)}})
    gap = [*one[:3], {k: v for k, v in one[3].items() if k != "dap"}]
    xray("no-totals-gap", gap, no_totals)

    small = [
        event(21, "single", "fluoroscopy", "1231.0", "4.1", dapUnit="mGy.cm2", rpUnit="mGy"),
        event(22, "single", "acquisition", "33000.0", "120.0", dapUnit="mGy.cm2", rpUnit="mGy", pulses="9"),
    ]
    xray(
        "other-units",
        small,
        {"single": {"doseAreaProduct": "34231.0", "doseRp": "124.1", "fluoroTime": "0.0883", "frames": "9"}},
        units={"doseAreaProduct": "mGy.cm2", "doseRp": "mGy", "fluoroTime": "min"},
    )
    xray(
        "unknown-unit",
        one,
        {"single": {"doseAreaProduct": "45.231", "doseRp": "0.1560"}},
        units={"doseAreaProduct": "Rad.furlong2"},
    )
    xray("two-totals", one, {"single": planes_of(one)["single"]}, extra=[accumulated("single", planes_of(one)["single"], {})])

    secret = [num(code("LF-77", "99LARK", "Detector air gap index"), "12", "1")]
    kept_apart = [{**one[0], "extra": secret}, *one[1:]]
    data = report("private", "x-ray", [accumulated("single", planes_of(one)["single"], {})] + [xray_event(e) for e in kept_apart])
    block = data.private_block(0x0021, "LARKFIELD DOSE 1", create=True)
    block.add_new(0x01, "LO", "\x1b[2Jprivate")
    block.add_new(0x02, "OB", b"\xff\xfe\x00\x01" * 8)
    put("private", data, {**KNOWN["single"]})

    other = {"id": "00990017", "name": "Ferreiro^Duarte", "birthDate": "19830111", "sex": "M"}
    xray("other-patient", one, planes_of(one), person=other, accession="A-99001", study=ROOT + ".1.500")
    for name, charset, written_name in (
        ("utf8", "ISO_IR 192", "Šimůnková^Žofie"),
        ("latin1", "ISO_IR 100", "Müller-Núñez^Zoë"),
        ("japanese", ["", "ISO 2022 IR 87"], "Yamada^Tarou=山田^太郎=やまだ^たろう"),
        ("korean", ["", "ISO 2022 IR 149"], "Hong^Gildong=洪^吉洞=홍^길동"),
    ):
        xray(name, one, planes_of(one), person={**PERSON, "name": written_name}, charset=charset)
    hostile = {**PERSON, "name": "Quint\x1b[31manar^Vela"}
    xray("acting-name", one, planes_of(one), person=hostile)

    early = one[:2]
    first = ROOT + ".2.7001"
    xray("sent-early", early, planes_of(early), instance=first, time="091500")
    xray("sent-again", one, planes_of(one), instance=ROOT + ".2.7002", predecessor=first)
    more = [
        event(31, "single", "fluoroscopy", "0.00030000", "0.0100", duration="20.0"),
        event(32, "single", "acquisition", "0.00050000", "0.0200", pulses="3"),
    ]
    xray("second-part", more, planes_of(more), scope="113016", time="101500")
    xray("overlapping", [one[3], *more], planes_of([one[3], *more]), time="102000")
    second = {"manufacturer": "Larkfield Imaging", "model": "Arc Four", "station": "ROOM-5", "serial": "LF-4-0007"}
    xray("second-system", more, planes_of(more), system=second)
    xray("undefined-lengths", one, planes_of(one))
    undefined()

    abdomen = ("818983003", "SCT", "Abdomen")
    scans = [
        {"uid": f"{ROOT}.5.1", "protocol": "Scout", "target": abdomen, "type": "113805", "kvp": "100"},
        {"uid": f"{ROOT}.5.2", "protocol": "Planning", "target": abdomen, "type": "113804", "kvp": "120",
         "ctdivol": "8.41", "phantom": "113691", "dlp": "252.30"},
        {"uid": f"{ROOT}.5.3", "protocol": "Needle", "target": abdomen, "type": "113806", "kvp": "120",
         "ctdivol": "11.02", "phantom": "113691", "dlp": "133.70"},
    ]
    for name, dlp in (("ct", "386.00"), ("ct-no-total", None)):
        children = [num("113812", "3", "{events}")] + ([num("113813", dlp, "mGy.cm")] if dlp else [])
        body = [content("CONTAINER", "113811", children=children)] + [ct_event(s) for s in scans]
        ct_system = {"manufacturer": "Larkfield Imaging", "model": "Ring 64", "station": "CT-1", "serial": "LF-R-0001"}
        put(name, report(name, "ct", body, system=ct_system), {
            "kind": "ct", "patient": PERSON, "events": 3,
            **({"doseLengthProduct": {"value": dlp, "unit": "mGy.cm"}} if dlp else {}),
            "scans": [{k: s[k] for k in ("ctdivol", "dlp") if k in s} for s in scans],
            "dlpOfScans": total(s["dlp"] for s in scans if "dlp" in s),
        })

    for unused in ("121014", "121015", "113855"):
        code(unused)
    whole = (OUT / "single.dcm").read_bytes()
    (OUT / "truncated.dcm").write_bytes(whole[: len(whole) * 2 // 3])
    KNOWN["truncated"] = {"error": "dose-report.damaged"}
    xray("other-report", one, planes_of(one), sop=ENHANCED_SR, title="121181", known={"error": "dose-report.other-report"})
    image = Dataset()
    image.SOPClassUID, image.SOPInstanceUID = "1.2.840.10008.5.1.4.1.1.12.1", ROOT + ".2.1"
    image.Modality, image.PatientID = "XA", PERSON["id"]
    image.Rows = image.Columns = 4
    image.BitsAllocated = image.BitsStored = 8
    image.HighBit, image.PixelRepresentation, image.SamplesPerPixel = 7, 0, 1
    image.PhotometricInterpretation = "MONOCHROME2"
    image.add_new(0x7FE00010, "OB", bytes(16))
    put("image", image, {"error": "dose-report.other-object"})

    (HERE / "objects.yaml").write_text(
        "# Written by make.py from its input values.\n" + json.dumps(KNOWN, indent=1, ensure_ascii=False) + "\n"
    )
    (HERE / "codes.yaml").write_text(
        "# Codes and meanings of DICOM PS3.16, as pydicom (3.0) carries them; written by make.py.\n"
        + json.dumps(dict(sorted(USED.items())), indent=1)
        + "\n"
    )


def example():
    """The dose report of the case in examples/intake."""
    ours = [
        event(41, "single", "fluoroscopy", "0.00021400", "0.0071", duration="58.0"),
        event(42, "single", "acquisition", "0.00009600", "0.0034", pulses="6"),
        event(43, "single", "fluoroscopy", "0.00038200", "0.0122", duration="96.5"),
    ]
    body = [accumulated("single", planes_of(ours)["single"], {})] + [xray_event(e) for e in ours]
    person = {"id": "SB-204417", "name": "Penhallow^Marit", "birthDate": "19620927", "sex": "F"}
    data = report("example", "x-ray", body, person=person, study=ROOT + ".1.640", accession="SB24-5506", zone="+0000")
    (HERE / "../../../examples/intake/dose.dcm").resolve().write_bytes(written(data))


def undefined():
    """The same again with every sequence and item of undefined length."""
    from pydicom import dcmread

    path = OUT / "undefined-lengths.dcm"
    data = dcmread(path)

    def visit(dataset):
        for element in dataset:
            if element.VR == "SQ":
                element.is_undefined_length = True
                for item in element.value:
                    item.is_undefined_length_sequence_item = True
                    visit(item)

    visit(data)
    data.save_as(path)


main()
example()
