// Made by npm run docs from scripts/codes/table.yaml, and from nothing else: change it there.
import { f, s } from './sources.js';
import { k } from './types.js';

/** Whole cases by the name of their row in the table of kinds of case. */
// biome-ignore format: a table reads best with one code a line
export const caseKindCodes = {
  angiography: k(s.sct, '77343006', 'Angiography (procedure)', f.gps),
  'pulmonary angiography': k(s.sct, '77343006', 'Angiography (procedure)', f.gps),
  'cerebral angiography': k(s.sct, '77343006', 'Angiography (procedure)', f.gps),
  'peripheral arteriography': k(s.sct, '271993009', 'Peripheral angiography (procedure)', f.gps),
  venography: k(s.sct, '4970003', 'Venography (procedure)', f.gps),
  angioplasty: k(s.sct, '68457009', 'Percutaneous transluminal balloon angioplasty (procedure)', f.gps),
  'limb artery angioplasty': k(s.sct, '68457009', 'Percutaneous transluminal balloon angioplasty (procedure)', f.gps),
  'iliac artery angioplasty': k(s.sct, '68457009', 'Percutaneous transluminal balloon angioplasty (procedure)', f.gps),
  'renal artery angioplasty': k(s.sct, '68457009', 'Percutaneous transluminal balloon angioplasty (procedure)', f.gps),
  'mesenteric artery angioplasty': k(s.sct, '68457009', 'Percutaneous transluminal balloon angioplasty (procedure)', f.gps),
  'dialysis circuit angioplasty': k(s.sct, '68457009', 'Percutaneous transluminal balloon angioplasty (procedure)', f.gps),
  'limb artery atherectomy': k(s.sct, '6832004', 'Atherectomy (procedure)', f.gps),
  'foreign body retrieval': k(s.sct, '10849003', 'Removal of foreign body (procedure)', f.gps),
  thrombolysis: k(s.sct, '426347000', 'Thrombolytic therapy (procedure)', f.gps),
  embolisation: k(s.sct, '16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  'gastrointestinal bleeding embolisation': k(s.sct, '16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  'uterine artery embolisation': k(s.sct, '16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  'prostate artery embolisation': k(s.sct, '16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  'pelvic embolisation': k(s.sct, '16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  'bronchial artery embolisation': k(s.sct, '16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  'splenic artery embolisation': k(s.sct, '16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  'renal artery embolisation': k(s.sct, '16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  'hepatic artery embolisation': k(s.sct, '16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  'visceral aneurysm embolisation': k(s.sct, '16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  'genicular artery embolisation': k(s.sct, '16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  'haemorrhoid embolisation': k(s.sct, '16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  'bariatric embolisation': k(s.sct, '16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  'bone metastasis embolisation': k(s.sct, '16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  'thyroid artery embolisation': k(s.sct, '16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  'epistaxis embolisation': k(s.sct, '16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  'middle meningeal artery embolisation': k(s.sct, '16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  chemoembolisation: k(s.sct, '16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  radioembolisation: k(s.sct, '16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  'varicocele embolisation': k(s.sct, '16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  'pelvic vein embolisation': k(s.sct, '16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  'portal vein embolisation': k(s.sct, '16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  'transjugular portosystemic shunt': k(s.sct, '233445008', 'Transjugular intrahepatic portosystemic shunt (procedure)', f.gps),
  'caval filter insertion': k(s.sct, '398182006', 'Insertion of inferior vena caval filter (procedure)', f.gps),
  'central venous access': k(s.sct, '429446009', 'Insertion of vascular catheter (procedure)', f.gps),
  'peripherally inserted central catheter insertion': k(s.sct, '429446009', 'Insertion of vascular catheter (procedure)', f.gps),
  'tunnelled catheter insertion': k(s.sct, '442309004', 'Insertion of tunneled venous catheter (procedure)', f.gps),
  'dialysis catheter insertion': k(s.sct, '69380006', 'Venous catheterization for renal dialysis (procedure)', f.gps),
  'venous port': k(s.sct, '80402001', 'Insertion of implantable venous access port (procedure)', f.gps),
  nephrostomy: k(s.sct, '313270001', 'Percutaneous insertion of nephrostomy tube (procedure)', f.gps),
  'nephrostomy exchange': k(s.sct, '103713001', 'Replacement of catheter (procedure)', f.gps),
  'biliary drain exchange': k(s.sct, '103713001', 'Replacement of catheter (procedure)', f.gps),
  'abscess drain exchange': k(s.sct, '103713001', 'Replacement of catheter (procedure)', f.gps),
  'suprapubic catheter exchange': k(s.sct, '103713001', 'Replacement of catheter (procedure)', f.gps),
  'dialysis catheter exchange': k(s.sct, '103713001', 'Replacement of catheter (procedure)', f.gps),
  'nephrostomy removal': k(s.sct, '103715008', 'Removal of catheter (procedure)', f.gps),
  'biliary drain removal': k(s.sct, '103715008', 'Removal of catheter (procedure)', f.gps),
  'drain removal': k(s.sct, '103715008', 'Removal of catheter (procedure)', f.gps),
  'tunnelled drain removal': k(s.sct, '103715008', 'Removal of catheter (procedure)', f.gps),
  'tunnelled catheter removal': k(s.sct, '103715008', 'Removal of catheter (procedure)', f.gps),
  'ureteric stent': k(s.sct, '428817001', 'Insertion of stent into ureter (procedure)', f.gps),
  'ureteric stent removal': k(s.sct, '178728009', 'Removal of ureteral stent (procedure)', f.gps),
  'suprapubic catheter insertion': k(s.sct, '129252005', 'Suprapubic cystostomy (procedure)', f.gps),
  'biliary dilatation': k(s.sct, '235570008', 'Dilatation of bile duct (procedure)', f.gps),
  gastrostomy: k(s.sct, '54956002', 'Gastrostomy (procedure)', f.gps),
  'oesophageal dilatation': k(s.sct, '195565004', 'Dilation of esophagus (procedure)', f.gps),
  'abscess drainage': k(s.sct, '118442004', 'Drainage of abscess (procedure)', f.gps),
  thoracentesis: k(s.sct, '91602002', 'Thoracentesis (procedure)', f.gps),
  biopsy: k(s.sct, '86273004', 'Biopsy (procedure)', f.gps),
  'kidney biopsy': k(s.sct, '86273004', 'Biopsy (procedure)', f.gps),
  'spleen biopsy': k(s.sct, '86273004', 'Biopsy (procedure)', f.gps),
  'pancreas biopsy': k(s.sct, '86273004', 'Biopsy (procedure)', f.gps),
  'adrenal biopsy': k(s.sct, '86273004', 'Biopsy (procedure)', f.gps),
  'lung biopsy': k(s.sct, '86273004', 'Biopsy (procedure)', f.gps),
  'mediastinal biopsy': k(s.sct, '86273004', 'Biopsy (procedure)', f.gps),
  'pleural biopsy': k(s.sct, '86273004', 'Biopsy (procedure)', f.gps),
  'retroperitoneal biopsy': k(s.sct, '86273004', 'Biopsy (procedure)', f.gps),
  'bone biopsy': k(s.sct, '86273004', 'Biopsy (procedure)', f.gps),
  'lymph node biopsy': k(s.sct, '86273004', 'Biopsy (procedure)', f.gps),
  'soft tissue biopsy': k(s.sct, '86273004', 'Biopsy (procedure)', f.gps),
  'transjugular kidney biopsy': k(s.sct, '86273004', 'Biopsy (procedure)', f.gps),
  'liver biopsy': k(s.sct, '86259008', 'Biopsy of liver (procedure)', f.gps),
  'transjugular liver biopsy': k(s.sct, '86259008', 'Biopsy of liver (procedure)', f.gps),
  'breast biopsy': k(s.sct, '122548005', 'Biopsy of breast (procedure)', f.gps),
  'prostate biopsy': k(s.sct, '236258004', 'Needle biopsy of prostate (procedure)', f.gps),
  'epidural injection': k(s.sct, '171787008', 'Therapeutic epidural injection (procedure)', f.gps),
};

/** Placement of one device, by the name of its row in the table of kinds of device. */
// biome-ignore format: a table reads best with one code a line
export const placementCodes = {
  'nephrostomy catheter': k(s.sct, '313270001', 'Percutaneous insertion of nephrostomy tube (procedure)', f.gps),
  'locking nephrostomy catheter': k(s.sct, '313270001', 'Percutaneous insertion of nephrostomy tube (procedure)', f.gps),
  'balloon nephrostomy catheter': k(s.sct, '313270001', 'Percutaneous insertion of nephrostomy tube (procedure)', f.gps),
  'ureteric stent': k(s.sct, '428817001', 'Insertion of stent into ureter (procedure)', f.gps),
  'double-J stent': k(s.sct, '428817001', 'Insertion of stent into ureter (procedure)', f.gps),
  'metal ureteric stent': k(s.sct, '428817001', 'Insertion of stent into ureter (procedure)', f.gps),
  'tumour ureteric stent': k(s.sct, '428817001', 'Insertion of stent into ureter (procedure)', f.gps),
  'caval filter': k(s.sct, '398182006', 'Insertion of inferior vena caval filter (procedure)', f.gps),
  'venous port': k(s.sct, '80402001', 'Insertion of implantable venous access port (procedure)', f.gps),
  'suprapubic catheter': k(s.sct, '129252005', 'Suprapubic cystostomy (procedure)', f.gps),
  'peripherally inserted central catheter': k(s.sct, '429446009', 'Insertion of vascular catheter (procedure)', f.gps),
  'central venous catheter': k(s.sct, '429446009', 'Insertion of vascular catheter (procedure)', f.gps),
  'arterial line': k(s.sct, '429446009', 'Insertion of vascular catheter (procedure)', f.gps),
  'tunnelled central venous catheter': k(s.sct, '442309004', 'Insertion of tunneled venous catheter (procedure)', f.gps),
  'tunnelled dialysis catheter': k(s.sct, '442309004', 'Insertion of tunneled venous catheter (procedure)', f.gps),
};

/** Placement of any stent: what current DICOM code lists have in place of 103716009. */
// biome-ignore format: a table reads best with one code a line
export const stentInsertion = k(s.sct, '1296925008', 'stentInsertion', undefined, 'memory');

/** Removal of one device, by the name of its row. */
// biome-ignore format: a table reads best with one code a line
export const removalCodes = {
  'ureteric stent': k(s.sct, '178728009', 'Removal of ureteral stent (procedure)', f.gps),
  'double-J stent': k(s.sct, '178728009', 'Removal of ureteral stent (procedure)', f.gps),
  'metal ureteric stent': k(s.sct, '178728009', 'Removal of ureteral stent (procedure)', f.gps),
  'tumour ureteric stent': k(s.sct, '178728009', 'Removal of ureteral stent (procedure)', f.gps),
};

// biome-ignore format: a table reads best with one code a line
export const componentCodes = {
  exchangeOfCatheter: k(s.sct, '103713001', 'Replacement of catheter (procedure)', f.gps),
  removalOfCatheter: k(s.sct, '103715008', 'Removal of catheter (procedure)', f.gps),
  embolisation: k(s.sct, '16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
};

/** What kind of act the case was. */
// biome-ignore format: a table reads best with one code a line
export const categoryCodes = {
  therapeutic: k(s.sct, '277132007', 'Therapeutic procedure (procedure)', f.gps),
  diagnostic: k(s.sct, '103693007', 'Diagnostic procedure (procedure)', f.gps),
};

/** R4's procedure-outcome value set. */
// biome-ignore format: a table reads best with one code a line
export const outcomeCodes = {
  successful: k(s.sct, '385669000', 'Successful', f.expansions, 'licensed'),
  'partially successful': k(s.sct, '385670004', 'Partially successful', f.expansions, 'licensed'),
  unsuccessful: k(s.sct, '385671000', 'Unsuccessful', f.expansions, 'licensed'),
};

// biome-ignore format: a table reads best with one code a line
export const failedAttempt = k(s.sct, '103709008', 'Failed attempted procedure (situation)', f.gps);

/** Priority of the case. */
// biome-ignore format: a table reads best with one code a line
export const urgencyCodes = {
  elective: k(s.actPriority, 'EL', 'elective', f.expansions),
  urgent: k(s.actPriority, 'UR', 'urgent', f.expansions),
  emergency: k(s.actPriority, 'EM', 'emergency', f.expansions),
};

/** What a Task seeks. */
// biome-ignore format: a table reads best with one code a line
export const taskCodes = {
  fulfil: k(s.taskCode, 'fulfill', 'Fulfill the focal request', f.expansions),
};

/** The codes of the R4 value set that Procedure.followUp is bound to (as an example) and that aftercare may mean. */
// biome-ignore format: a table reads best with one code a line
export const followUpCodes = {
  'removal of drain': k(s.sct, '241031001', 'Removal of drain', f.followUps, 'licensed'),
  'removal of suture': k(s.sct, '30549001', 'Removal of suture', f.followUps),
  'removal of staples': k(s.sct, '35963001', 'Removal of staples', f.followUps),
  'change of dressing': k(s.sct, '18949003', 'Change of dressing', f.followUps),
};
