/** Invented cases for the report's own tests: people, makers and places do not exist. */

/** Every field of the record is filled at least once. */
export const fullCase = `
casetally: 1
case:
  id: HB-0193
  accession: A-77120
  order: { system: "https://orders.example/case", value: ORD-5521 }
  encounter: { system: "https://stays.example/case", value: ENC-9087 }
  status: stopped early
  reason: { text: bleeding from the tract, codes: [{ system: "https://reasons.example", code: R7, display: tract bleeding, version: "2024" }] }
  date: 2024-03-14
  timeZone: Europe/Lisbon
  started: "23:04"
  ended: "00:49"
  kind: biliary drainage
  procedure: percutaneous transhepatic biliary drainage and stent
  category: therapeutic
  urgency: urgent
  location: { name: Intervention room 2, identifier: { system: "https://rooms.example", value: IR2 } }
  organization: { name: Sete Fontes Teaching Hospital, identifier: { system: "https://orgs.example", value: SF1 }, phone: "+351 200 000 101" }
  session: 2
patient:
  identifiers: [{ system: urn:oid:2.16.840.1.113883.19.5, value: "00481516" }]
  name: Vela Quintanar
  birthDate: 1957-08-02
  sex: female
  weight: 68.0 kg
  height: 1.62 m
  pregnant: not applicable
team:
  - { key: op, role: operator, name: Dr Ilse Branquinho, identifier: { system: "https://staff.example", value: S-11 }, organization: Interventional radiology, phone: "+351 200 000 102" }
  - { key: nurse, role: nurse, name: Tomé Arcos }
  - { key: ref, role: referrer, name: Dr Oriel Sandes, organization: Hepatology }
indication:
  text: Obstructive jaundice from a hilar stricture, cholangitis not settling
  conditions: [{ text: hilar stricture of the bile duct, codes: [{ system: "http://snomed.info/sct", code: "0000000", display: invented }] }]
  question: Can both sides be drained?
planned: biliary drainage with stent
before:
  allergies: [{ to: penicillin, reaction: rash, severity: mild }]
  labs:
    - { what: INR, value: "1.3", at: 2024-03-13T18:20 }
    - { what: creatinine, value: 88 µmol/L, at: 2024-03-13T18:20 }
  anticoagulants: [{ drug: enoxaparin, dose: 40 mg, lastDose: 2024-03-13T20:00, plan: start again after 24 hours }]
  conditions: [type 2 diabetes, { what: gallstone pancreatitis, status: resolved, since: 2019, until: 2020 }]
  consent: { status: given, by: the patient, takenBy: ref, at: 2024-03-14T22:10, note: with an interpreter }
  checklist: { signIn: "22:51", timeOut: "22:58", signOut: "00:47", note: no concerns }
  fasting: { food: 2024-03-14T14:00, clearFluids: 2024-03-14T18:00, note: sips with tablets }
  imaging: Dilated ducts in both lobes on ultrasound of 12 March
  earlierAttempts: [{ case: { system: "https://cases.example", value: HB-0188 }, date: 2024-03-12, what: endoscopic drainage, result: papilla not reached }]
  observations: Temperature 38.4, alert
after:
  labs: [{ what: bilirubin, value: 210 µmol/L, at: 2024-03-15T07:00 }]
  urine: [{ volume: 240 mL, from: 2024-03-15T01:00, to: 2024-03-15T07:00 }]
sedation: { kind: moderate sedation, by: nurse, start: "23:00", end: "00:40", monitoring: pulse oximetry and capnography, note: calm throughout, changes: [{ at: "23:50", to: deep sedation, why: restless }] }
vitals: [{ at: "23:10", what: heart rate, value: 72 bpm }]
drugs:
  - { drug: ceftriaxone, dose: 2 g, route: intravenous, at: "22:40", by: nurse, for: prophylaxis, reaction: no }
  - { drug: lidocaine, dose: 10 mL, strength: 1 %, route: local infiltration, at: "23:02", by: op, for: local anaesthesia, reaction: yes }
access:
  - { key: rightduct, site: right anterior duct, side: right, approach: intercostal, guidance: [ultrasound, fluoroscopy], passes: 3, closure: tract plugged, note: one pass through pleura suspected }
targets:
  hilum:
    what: { text: common hepatic duct, codes: [{ system: "http://snomed.info/sct", code: "1111111" }] }
    side: right
    lesion: stricture
    measures: [{ what: pressure gradient, before: 12 mmHg, after: 3 mmHg }]
    length: 22 mm
    diameter: 8 mm
    narrowingBefore: 95 %
    narrowingAfter: 30 %
    lumenBefore: 0.4 mm
    lumenAfter: 5.6 mm
    flowBefore: none
    flowAfter: slow
    pressureBefore: 22 mmHg
    pressureAfter: 9 mmHg
    success: partially successful
    note: short Bismuth type I
devices:
  needle: { kind: access needle, size: 21 G, length: 15 cm, use: used }
  stiff: { kind: guidewire, diameter: 0.035 in, length: 145 cm, description: stiff shaft, maker: Orrery Wires, takesWire: 0.018 in }
  soft: { kind: guidewire, diameter: 0.035 in, length: 145 cm }
  balloon: { kind: dilatation balloon, size: 6 mm x 40 mm, takes: 6 Fr, ratedPressure: 14 atm, use: failed }
  stent:
    kind: biliary stent
    family: stent
    codes: [{ system: "https://kinds.example", code: K2, display: metal stent }]
    maker: Halden Lumen Works
    model: Open Weave
    reference: HL-8060
    size: 8 mm x 60 mm
    material: nitinol
    implant: yes
    mri: MR conditional at 1.5 T and 3 T
    label: "(01)09506000117843(17)261231(10)1234AB"
    serial: SN-77
    manufactured: 2023-11
    identifier: { system: "https://stock.example", value: STK-4 }
    note: opened after the second balloon
  drain:
    kind: drainage catheter
    size: 8.5 Fr
    length: 35 cm
    takesWire: 0.038 in
    maker: Halden Lumen Works
    lot: D-88
    udi: "09506000117850"
    expires: 2025-10
    parts: { lock: { kind: retention thread, count: 1, length: 40 cm } }
  spheres: { kind: microspheres, size: 500-700 µm, concentration: 1 mL in 6 mL, count: 2 }
  old:
    kind: drainage catheter
    size: 8 Fr
    carried: { case: { system: "https://cases.example", value: HB-0150 }, date: 2024-01, use: HB-0150/drain, note: placed elsewhere, site: left hepatic duct, side: left }
events:
  - { at: "23:04", do: puncture, device: needle, into: right anterior duct, access: rightduct, guidance: ultrasound, by: op, depth: 7 cm }
  - { at: "23:06", do: insert, device: stiff, through: needle, across: hilum, crossed: no, result: buckled at the stricture }
  - { at: "23:08", do: exchange, device: soft, replaces: stiff, with: [needle], crossed: yes }
  - { at: "23:20", do: inflate, device: balloon, over: soft, target: hilum, pressure: 12 atm, diameter: 6 mm, duration: 60 s, note: waist gone }
  - { at: "23:30", do: deploy, device: stent, over: soft, across: hilum }
  - { at: "23:40", do: inject, device: drain, volume: 10 mL, agent: contrast, image: final, state: intact }
  - { at: "23:41", do: fracture, device: drain, part: lock, pieces: 2, state: part missing }
  - { at: "23:50", do: aspirate, device: drain, volume: 20 mL, specimen: pot1, count: 1 }
  - { at: "00:05", do: set, device: drain, to: free drainage, fixedBy: suture }
findings: [{ text: Hilar stricture of 22 mm, about: hilum, codes: [{ system: "https://findings.example", code: F1 }] }, { text: No leak }]
images: [{ key: final, study: 2.25.12345, series: 2.25.12345.1, description: last cholangiogram, at: "00:30", file: pictures/last.jpg }]
contrast: [{ agent: iohexol, concentration: 300 mg/mL, volume: 40 mL, route: into a duct or tract, at: "23:15", reaction: nausea }]
radiation: { kermaAreaProduct: 42.0 Gy·cm2, airKerma: 212 mGy, fluoroscopyTime: 15.5 min, frames: 44, peakSkinDose: 0.2 Gy, doseLengthProduct: 412.5 mGy·cm, ctDoseIndex: 9.7 mGy, earlier: [{ case: { system: "https://cases.example", value: HB-0101 }, date: 2024-03-12, airKerma: 1.20 Gy, kermaAreaProduct: 80 Gy·cm2 }], system: Room 2 C-arm, note: low frame rate }
specimens: [{ key: pot1, what: bile, from: hilum, count: 2, volume: 20 mL, appearance: cloudy, at: "23:50", sentFor: culture, container: sterile pot, identifier: { system: "https://samples.example", value: B-1 } }]
complications:
  - { what: bleeding from the tract, suspect: drain, certainty: confirmed, at: 2024-03-14T23:45, severity: moderate, grade: { scale: CIRSE 2017, grade: 2 }, device: drain, target: hilum, action: tract plugged, treatment: same session, stay: prolonged under 24 hours, harm: temporary, result: stopped }
outcome:
  overall: partially successful
  text: right side drained, left side not reached
  condition: stable, pain 2 of 10
  disposition: high-dependency ward, hourly observations
  grades: [{ scale: invented drainage scale, grade: 2, target: hilum }]
  bloodLoss: 120 mL
  followedBy: repeat
  measurements: [{ what: duct pressure, value: "9.0", unit: mmHg, target: hilum }]
left:
  - { device: drain, site: right anterior duct to common hepatic duct, side: right, set: on free drainage, tip: duodenum, lock: { solution: saline, volume: 5 mL }, depth: 12 cm, fixedBy: suture, until: { condition: bilirubin falling, date: 2 weeks }, latest: 12 weeks, note: do not clamp }
  - { device: drain, part: lock }
  - { device: soft, purpose: temporary, count: 2 }
missing:
  - { device: drain, part: lock, count: 2, searched: table and waste, by: nurse, imaging: fluoroscopy of the upper abdomen, result: nothing seen, told: patient and ward sister, at: 2024-03-15T00:40 }
aftercare:
  - { key: flush, do: Flush the drain with 10 mL saline, device: drain, every: 8 hours, for: 3 days, criteria: [{ measure: drain output, is: under, value: 50 mL, over: 24 hours, action: call room 2 }, { measure: fever, is: present, action: blood cultures }], by: ward, call: less than 50 mL in a day; call room 2, urgent: yes }
  - { do: Check bilirubin and INR, due: 48 hours, by: referrer, ifMissed: ring hepatology }
  - { do: Ask for a cholangiogram through the drain, earliest: 1 week, due: 10 days, latest: 2024-03-28, when: bilirubin is falling, by: referrer }
  - { do: Keep the dressing dry, by: patient }
advice: { ward: [Bed rest for 4 hours], referrer: [Discuss the left side at the next meeting], patient: [Do not pull on the drain], contact: Interventional radiology on +351 200 000 102 at any hour }
conclusion: Right-sided drainage and stent; bleeding controlled; left side still obstructed.
acknowledged: [{ finding: size.wire-too-big, about: balloon, reason: tested on the bench before use, by: op }]
report:
  status: amended
  version: 2
  author: op
  signedAt: 2024-03-15T08:10
  change: { of: "1", by: op, at: 2024-03-15T08:05, why: the lot number of the stent was wrong }
sources:
  - { path: devices.stiff, from: kit, at: 2024-03-14T21:40, by: Biliary drainage }
  - { path: "before.labs[1]", from: order, at: 2024-03-14T20:12 }
`;

/** The least a record may hold. */
export const bareCase = `
casetally: 1
case: { id: X-1, status: completed, date: 2024-05-02, timeZone: Europe/Lisbon, kind: nephrostomy }
patient: { identifiers: [{ system: urn:oid:2.16.840.1.113883.19.5, value: "1" }] }
team: [{ key: op, role: operator, name: Dr Ilse Branquinho }]
indication: { text: Hydronephrosis }
report: { status: preliminary, author: op }
`;

/** Where 'none' is said for everything that can be none. */
export const noneCase = `
casetally: 1
case: { id: X-2, status: completed, date: 2024-05-02, timeZone: Europe/Lisbon, kind: nephrostomy }
patient: { identifiers: [{ system: urn:oid:2.16.840.1.113883.19.5, value: "1" }] }
team: [{ key: op, role: operator, name: Dr Ilse Branquinho }]
indication: { text: Hydronephrosis }
before: { allergies: none, anticoagulants: none }
sedation: none
drugs: none
contrast: none
radiation: none
specimens: none
complications: none
outcome: { overall: successful, bloodLoss: none }
left: none
report: { status: final, author: op, signedAt: 2024-05-02T12:00 }
`;

/** A case that was called off before it began. */
export const notDoneCase = `
casetally: 1
case: { id: X-3, status: not done, reason: fever, date: 2024-05-02, timeZone: Europe/Lisbon, kind: nephrostomy }
patient: { identifiers: [{ system: urn:oid:2.16.840.1.113883.19.5, value: "1" }], name: Aro Lint }
team: [{ key: op, role: operator, name: Dr Ilse Branquinho }]
indication: { text: Hydronephrosis }
report: { status: final, author: op, signedAt: 2024-05-02T12:00 }
`;
