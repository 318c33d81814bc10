/**
 * Concepts of the dose templates, by their code in DICOM's own scheme (DCM): PS3.16, annex D, and the template named
 * beside each. The tests hold code and meaning against the dictionary that pydicom carries.
 */
export const concepts = {
  report: '113701', // X-Ray Radiation Dose Report: TID 10001, TID 10011
  procedure: '121058', // Procedure reported
  scope: '113705', // Scope of Accumulation
  observerUid: '121012', // Device Observer UID: TID 1004
  observerName: '121013', // Device Observer Name
  observerMaker: '121014', // Device Observer Manufacturer
  observerModel: '121015', // Device Observer Model Name
  observerSerial: '121016', // Device Observer Serial Number
  accumulated: '113702', // Accumulated X-Ray Dose Data: TID 10002
  plane: '113764', // Acquisition Plane
  doseAreaProduct: '113722', // Dose Area Product Total: TID 10007
  doseRp: '113725', // Dose (RP) Total
  fluoroDoseAreaProduct: '113726', // Fluoro Dose Area Product Total: TID 10004
  acquisitionDoseAreaProduct: '113727', // Acquisition Dose Area Product Total
  fluoroDoseRp: '113728', // Fluoro Dose (RP) Total
  acquisitionDoseRp: '113729', // Acquisition Dose (RP) Total
  fluoroTime: '113730', // Total Fluoro Time
  frames: '113731', // Total Number of Radiographic Frames
  acquisitionTime: '113855', // Total Acquisition Time
  event: '113706', // Irradiation Event X-Ray Data: TID 10003
  eventUid: '113769', // Irradiation Event UID
  started: '111526', // DateTime Started
  eventType: '113721', // Irradiation Event Type
  protocol: '125203', // Acquisition Protocol
  target: '123014', // Target Region
  eventDoseAreaProduct: '122130', // Dose Area Product
  eventDoseRp: '113738', // Dose (RP)
  kvp: '113733', // KVP
  pulseRate: '113791', // Pulse Rate
  pulses: '113768', // Number of Pulses
  duration: '113742', // Irradiation Duration
  ctAccumulated: '113811', // CT Accumulated Dose Data: TID 10012
  ctEvents: '113812', // Total Number of Irradiation Events
  ctDlp: '113813', // CT Dose Length Product Total
  ctAcquisition: '113819', // CT Acquisition: TID 10013
  ctType: '113820', // CT Acquisition Type
  ctParameters: '113822', // CT Acquisition Parameters
  ctSource: '113831', // CT X-Ray Source Parameters
  ctDose: '113829', // CT Dose
  ctDoseIndex: '113830', // Mean CTDIvol
  ctPhantom: '113835', // CTDIw Phantom Type
  dlp: '113838', // DLP
} as const;

/** Planes: CID 10003. */
export const planeCodes: Readonly<Record<string, 'single' | 'A' | 'B'>> = {
  '113622': 'single', // Single Plane
  '113620': 'A', // Plane A
  '113621': 'B', // Plane B
};

/** Fluoroscopy as an event type (CID 10002), as SNOMED CT names it now and as SNOMED RT did: from memory. */
export const fluoroscopyCodes: ReadonlySet<string> = new Set(['44491008', 'P5-06000']);
