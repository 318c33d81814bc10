// Made by npm run docs from scripts/codes/table.yaml, and from nothing else: change it there.
import { f, s } from './sources.js';
import { k, sct } from './types.js';

/** Whole cases by the name of their row in the table of kinds of case. */
// biome-ignore format: a table reads best with one code a line
export const caseKindCodes = {
  angiography: sct('77343006', 'Angiography (procedure)', f.gps),
  'pulmonary angiography': sct('77343006', 'Angiography (procedure)', f.gps),
  'cerebral angiography': sct('77343006', 'Angiography (procedure)', f.gps),
  'peripheral arteriography': sct('271993009', 'Peripheral angiography (procedure)', f.gps),
  venography: sct('4970003', 'Venography (procedure)', f.gps),
  angioplasty: sct('68457009', 'Percutaneous transluminal balloon angioplasty (procedure)', f.gps),
  'limb artery angioplasty': sct('68457009', 'Percutaneous transluminal balloon angioplasty (procedure)', f.gps),
  'iliac artery angioplasty': sct('68457009', 'Percutaneous transluminal balloon angioplasty (procedure)', f.gps),
  'renal artery angioplasty': sct('68457009', 'Percutaneous transluminal balloon angioplasty (procedure)', f.gps),
  'mesenteric artery angioplasty': sct('68457009', 'Percutaneous transluminal balloon angioplasty (procedure)', f.gps),
  'dialysis circuit angioplasty': sct('68457009', 'Percutaneous transluminal balloon angioplasty (procedure)', f.gps),
  'limb artery atherectomy': sct('6832004', 'Atherectomy (procedure)', f.gps),
  'foreign body retrieval': sct('10849003', 'Removal of foreign body (procedure)', f.gps),
  thrombolysis: sct('426347000', 'Thrombolytic therapy (procedure)', f.gps),
  embolisation: sct('16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  'gastrointestinal bleeding embolisation': sct('16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  'uterine artery embolisation': sct('16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  'prostate artery embolisation': sct('16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  'pelvic embolisation': sct('16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  'bronchial artery embolisation': sct('16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  'splenic artery embolisation': sct('16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  'renal artery embolisation': sct('16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  'hepatic artery embolisation': sct('16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  'visceral aneurysm embolisation': sct('16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  'genicular artery embolisation': sct('16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  'haemorrhoid embolisation': sct('16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  'bariatric embolisation': sct('16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  'bone metastasis embolisation': sct('16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  'thyroid artery embolisation': sct('16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  'epistaxis embolisation': sct('16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  'middle meningeal artery embolisation': sct('16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  chemoembolisation: sct('16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  radioembolisation: sct('16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  'varicocele embolisation': sct('16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  'pelvic vein embolisation': sct('16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  'portal vein embolisation': sct('16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
  'transjugular portosystemic shunt': sct('233445008', 'Transjugular intrahepatic portosystemic shunt (procedure)', f.gps),
  'caval filter insertion': sct('398182006', 'Insertion of inferior vena caval filter (procedure)', f.gps),
  'central venous access': sct('429446009', 'Insertion of vascular catheter (procedure)', f.gps),
  'peripherally inserted central catheter insertion': sct('429446009', 'Insertion of vascular catheter (procedure)', f.gps),
  'tunnelled catheter insertion': sct('442309004', 'Insertion of tunneled venous catheter (procedure)', f.gps),
  'dialysis catheter insertion': sct('69380006', 'Venous catheterization for renal dialysis (procedure)', f.gps),
  'venous port': sct('80402001', 'Insertion of implantable venous access port (procedure)', f.gps),
  nephrostomy: sct('313270001', 'Percutaneous insertion of nephrostomy tube (procedure)', f.gps),
  'nephrostomy exchange': sct('103713001', 'Replacement of catheter (procedure)', f.gps),
  'biliary drain exchange': sct('103713001', 'Replacement of catheter (procedure)', f.gps),
  'abscess drain exchange': sct('103713001', 'Replacement of catheter (procedure)', f.gps),
  'suprapubic catheter exchange': sct('103713001', 'Replacement of catheter (procedure)', f.gps),
  'dialysis catheter exchange': sct('103713001', 'Replacement of catheter (procedure)', f.gps),
  'nephrostomy removal': sct('103715008', 'Removal of catheter (procedure)', f.gps),
  'biliary drain removal': sct('103715008', 'Removal of catheter (procedure)', f.gps),
  'drain removal': sct('103715008', 'Removal of catheter (procedure)', f.gps),
  'tunnelled drain removal': sct('103715008', 'Removal of catheter (procedure)', f.gps),
  'tunnelled catheter removal': sct('103715008', 'Removal of catheter (procedure)', f.gps),
  'ureteric stent': sct('428817001', 'Insertion of stent into ureter (procedure)', f.gps),
  'ureteric stent removal': sct('178728009', 'Removal of ureteral stent (procedure)', f.gps),
  'suprapubic catheter insertion': sct('129252005', 'Suprapubic cystostomy (procedure)', f.gps),
  'biliary dilatation': sct('235570008', 'Dilatation of bile duct (procedure)', f.gps),
  gastrostomy: sct('54956002', 'Gastrostomy (procedure)', f.gps),
  'oesophageal dilatation': sct('195565004', 'Dilation of esophagus (procedure)', f.gps),
  'abscess drainage': sct('118442004', 'Drainage of abscess (procedure)', f.gps),
  thoracentesis: sct('91602002', 'Thoracentesis (procedure)', f.gps),
  'chest drain insertion': sct('264957007', 'Insertion of pleural tube drain (procedure)', f.gps),
  biopsy: sct('86273004', 'Biopsy (procedure)', f.gps),
  'kidney biopsy': sct('86273004', 'Biopsy (procedure)', f.gps),
  'spleen biopsy': sct('86273004', 'Biopsy (procedure)', f.gps),
  'pancreas biopsy': sct('86273004', 'Biopsy (procedure)', f.gps),
  'adrenal biopsy': sct('86273004', 'Biopsy (procedure)', f.gps),
  'lung biopsy': sct('86273004', 'Biopsy (procedure)', f.gps),
  'mediastinal biopsy': sct('86273004', 'Biopsy (procedure)', f.gps),
  'pleural biopsy': sct('86273004', 'Biopsy (procedure)', f.gps),
  'retroperitoneal biopsy': sct('86273004', 'Biopsy (procedure)', f.gps),
  'bone biopsy': sct('86273004', 'Biopsy (procedure)', f.gps),
  'lymph node biopsy': sct('86273004', 'Biopsy (procedure)', f.gps),
  'soft tissue biopsy': sct('86273004', 'Biopsy (procedure)', f.gps),
  'transjugular kidney biopsy': sct('86273004', 'Biopsy (procedure)', f.gps),
  'liver biopsy': sct('86259008', 'Biopsy of liver (procedure)', f.gps),
  'transjugular liver biopsy': sct('86259008', 'Biopsy of liver (procedure)', f.gps),
  'breast biopsy': sct('122548005', 'Biopsy of breast (procedure)', f.gps),
  'prostate biopsy': sct('236258004', 'Needle biopsy of prostate (procedure)', f.gps),
  'epidural injection': sct('171787008', 'Therapeutic epidural injection (procedure)', f.gps),
};

/** Placement of one device, by the name of its row in the table of kinds of device. */
// biome-ignore format: a table reads best with one code a line
export const placementCodes = {
  'nephrostomy catheter': sct('313270001', 'Percutaneous insertion of nephrostomy tube (procedure)', f.gps),
  'locking nephrostomy catheter': sct('313270001', 'Percutaneous insertion of nephrostomy tube (procedure)', f.gps),
  'balloon nephrostomy catheter': sct('313270001', 'Percutaneous insertion of nephrostomy tube (procedure)', f.gps),
  'ureteric stent': sct('428817001', 'Insertion of stent into ureter (procedure)', f.gps),
  'double-J stent': sct('428817001', 'Insertion of stent into ureter (procedure)', f.gps),
  'metal ureteric stent': sct('428817001', 'Insertion of stent into ureter (procedure)', f.gps),
  'tumour ureteric stent': sct('428817001', 'Insertion of stent into ureter (procedure)', f.gps),
  'caval filter': sct('398182006', 'Insertion of inferior vena caval filter (procedure)', f.gps),
  'venous port': sct('80402001', 'Insertion of implantable venous access port (procedure)', f.gps),
  'suprapubic catheter': sct('129252005', 'Suprapubic cystostomy (procedure)', f.gps),
  'peripherally inserted central catheter': sct('429446009', 'Insertion of vascular catheter (procedure)', f.gps),
  'central venous catheter': sct('429446009', 'Insertion of vascular catheter (procedure)', f.gps),
  'arterial line': sct('429446009', 'Insertion of vascular catheter (procedure)', f.gps),
  'tunnelled central venous catheter': sct('442309004', 'Insertion of tunneled venous catheter (procedure)', f.gps),
  'tunnelled dialysis catheter': sct('442309004', 'Insertion of tunneled venous catheter (procedure)', f.gps),
};

/** Placement of any stent: what current DICOM code lists have in place of 103716009. */
// biome-ignore format: a table reads best with one code a line
export const stentInsertion = sct('1296925008', 'stentInsertion', undefined, 'memory');

/** Removal of one device, by the name of its row. */
// biome-ignore format: a table reads best with one code a line
export const removalCodes = {
  'ureteric stent': sct('178728009', 'Removal of ureteral stent (procedure)', f.gps),
  'double-J stent': sct('178728009', 'Removal of ureteral stent (procedure)', f.gps),
  'metal ureteric stent': sct('178728009', 'Removal of ureteral stent (procedure)', f.gps),
  'tumour ureteric stent': sct('178728009', 'Removal of ureteral stent (procedure)', f.gps),
};

// biome-ignore format: a table reads best with one code a line
export const componentCodes = {
  exchangeOfCatheter: sct('103713001', 'Replacement of catheter (procedure)', f.gps),
  removalOfCatheter: sct('103715008', 'Removal of catheter (procedure)', f.gps),
  embolisation: sct('16736007', 'Transcatheter therapy for embolization (procedure)', f.gps),
};

/** What kind of act the case was. */
// biome-ignore format: a table reads best with one code a line
export const categoryCodes = {
  therapeutic: sct('277132007', 'Therapeutic procedure (procedure)', f.gps),
  diagnostic: sct('103693007', 'Diagnostic procedure (procedure)', f.gps),
};

/** R4's procedure-outcome value set. */
// biome-ignore format: a table reads best with one code a line
export const outcomeCodes = {
  successful: sct('385669000', 'Successful', f.expansions, 'licensed'),
  'partially successful': sct('385670004', 'Partially successful', f.expansions, 'licensed'),
  unsuccessful: sct('385671000', 'Unsuccessful', f.expansions, 'licensed'),
};

// biome-ignore format: a table reads best with one code a line
export const failedAttempt = sct('103709008', 'Failed attempted procedure (situation)', f.gps);

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
  'removal of drain': sct('241031001', 'Removal of drain', f.followUps, 'licensed'),
  'removal of suture': sct('30549001', 'Removal of suture', f.followUps),
  'removal of staples': sct('35963001', 'Removal of staples', f.followUps),
  'change of dressing': sct('18949003', 'Change of dressing', f.followUps),
};
