import { suggest } from '../record/issues.js';
import { deviceFamilies } from '../record/schema/devices.js';
import type { DeviceFamily } from './types.js';

/** What the trade means by the French number of a kind: its outside, or what passes through it. */
type FrenchMeans = 'outer' | 'lumen';

/** One kind of device. */
export interface DeviceKind {
  /** As written in a record, lower case. */
  readonly name: string;
  readonly family: DeviceFamily;
  /** Meant to stay for longer than the case, unless the record says otherwise. */
  readonly implant: boolean;
  readonly french: FrenchMeans;
  /** Used by number (coils, vials, swabs); a record usually says how many. */
  readonly counted: boolean;
  /** Stays outside the patient, or on the skin: nothing of it needs a way out. */
  readonly outside: boolean;
  readonly aliases: readonly string[];
}

/** Marks of a row: i implant, l French is the lumen, n counted, o outside the patient. */
function k(name: string, family: DeviceFamily, marks = '', aliases = ''): DeviceKind {
  return {
    name,
    family,
    implant: marks.includes('i'),
    french: marks.includes('l') ? 'lumen' : 'outer',
    counted: marks.includes('n'),
    outside: marks.includes('o'),
    aliases: aliases === '' ? [] : aliases.split('|'),
  };
}

/** Kinds of device that need no further word; a new kind is a row here, or a line in the site configuration. */
// biome-ignore format: a table reads best with one kind a line
export const deviceKinds: readonly DeviceKind[] = [
  k('access needle', 'needle', '', 'puncture needle|needle|introducer needle|fine needle'),
  k('sheathed needle', 'needle', '', 'needle cannula|catheter needle'),
  k('coaxial needle', 'needle', '', 'coaxial introducer needle|coaxial biopsy introducer'),
  k('biopsy needle', 'needle', '', 'core biopsy needle|cutting needle|aspiration needle'),
  k('transjugular needle', 'needle', '', 'transhepatic needle'),
  k('ablation needle', 'needle', '', 'ablation probe|ablation electrode|ablation antenna|cryoprobe'),
  k('suture needle', 'needle', 'n', 'needle with suture'),

  k('guidewire', 'guidewire', '', 'wire|guide wire'),
  k('stiff guidewire', 'guidewire', '', 'stiff wire|support wire'),
  k('hydrophilic guidewire', 'guidewire', '', 'hydrophilic wire'),
  k('exchange guidewire', 'guidewire', '', 'exchange wire|exchange length guidewire'),
  k('safety guidewire', 'guidewire', '', 'safety wire'),
  k('microwire', 'guidewire', '', 'micro guidewire|microguidewire'),
  k('pressure wire', 'guidewire', '', 'pressure guidewire'),

  k('catheter', 'catheter'),
  k('diagnostic catheter', 'catheter', '', 'angiographic catheter|selective catheter|flush catheter'),
  k('guiding catheter', 'catheter', '', 'guide catheter'),
  k('microcatheter', 'catheter', '', 'micro catheter'),
  k('support catheter', 'catheter', '', 'crossing catheter'),
  k('measuring catheter', 'catheter', '', 'ruler catheter'),
  k('infusion catheter', 'catheter', '', 'thrombolysis catheter'),
  k('aspiration catheter', 'catheter', '', 'thrombectomy catheter'),
  k('central venous catheter', 'catheter', 'i', 'tunnelled catheter|dialysis catheter|tunnelled dialysis catheter|central line'),
  k('peripherally inserted central catheter', 'catheter', 'i', 'PICC|midline catheter'),
  k('venous port', 'catheter', 'i', 'port|implantable port|implantable venous port|port catheter|chest port'),
  k('peritoneal dialysis catheter', 'catheter', 'i'),
  k('coaxial introducer set', 'sheath', '', 'coaxial introducer|non-vascular introducer'),

  k('introducer sheath', 'sheath', 'l', 'sheath|vascular sheath'),
  k('long sheath', 'sheath', 'l', 'guiding sheath|transjugular sheath'),
  k('retrieval sheath', 'sheath', 'l', 'filter retrieval sheath'),
  k('peel-away sheath', 'sheath', 'l', 'peel away sheath|peelaway sheath|splittable sheath'),
  k('working sheath', 'sheath', 'l', 'nephrostomy sheath|access sheath'),
  k('dilator', 'dilator', '', 'fascial dilator|vessel dilator|serial dilator'),

  k('balloon catheter', 'balloon', '', 'balloon|angioplasty balloon|high-pressure balloon'),
  k('drug-coated balloon catheter', 'balloon', '', 'drug-coated balloon|drug coated balloon'),
  k('cutting balloon catheter', 'balloon', '', 'cutting balloon|scoring balloon|scoring balloon catheter'),
  k('occlusion balloon catheter', 'balloon', '', 'occlusion balloon'),
  k('tract dilation balloon', 'balloon', '', 'dilation balloon|dilatation balloon'),

  k('stent', 'stent', 'i', 'self-expanding stent|balloon-expandable stent|bare metal stent|vascular stent'),
  k('covered stent', 'stent', 'i', 'stent graft|stent-graft'),
  k('drug-eluting stent', 'stent', 'i'),
  k('ureteric stent', 'stent', 'i', 'ureteral stent|double-J stent|double J stent|JJ stent'),
  k('nephroureteral stent', 'drain', 'i', 'nephroureteral catheter|nephroureterostomy catheter'),
  k('biliary stent', 'stent', 'i'),
  k('plastic biliary stent', 'stent', 'i', 'plastic stent'),
  k('metal biliary stent', 'stent', 'i', 'metal stent'),
  k('enteral stent', 'stent', 'i', 'oesophageal stent|duodenal stent|colonic stent'),
  k('airway stent', 'stent', 'i', 'tracheal stent|bronchial stent'),

  k('nephrostomy catheter', 'drain', '', 'nephrostomy tube|nephrostomy|locking nephrostomy catheter'),
  k('drainage catheter', 'drain', '', 'drain|locking drain|locking drainage catheter|abscess drain|pigtail drain|pigtail catheter'),
  k('biliary drainage catheter', 'drain', '', 'biliary drain|internal-external biliary drain|internal-external biliary drainage catheter|external biliary drain'),
  k('cholecystostomy catheter', 'drain', '', 'cholecystostomy drain|cholecystostomy tube'),
  k('chest drain', 'drain', '', 'pleural drain|pleural drainage catheter'),
  k('tunnelled drain', 'drain', 'i', 'tunnelled pleural drain|tunnelled peritoneal drain'),
  k('suprapubic catheter', 'drain'),
  k('bladder catheter', 'drain', '', 'urinary catheter'),

  k('caval filter', 'filter', 'i', 'vena cava filter|IVC filter|retrievable caval filter|filter'),
  k('embolic protection filter', 'retrieval', '', 'protection filter|distal protection device'),

  k('snare', 'retrieval', '', 'loop snare|three-loop snare'),
  k('retrieval cone', 'retrieval', '', 'filter retrieval cone'),
  k('retrieval hook', 'retrieval', '', 'hook wire'),
  k('retrieval set', 'retrieval', '', 'filter retrieval set'),
  k('forceps', 'retrieval', '', 'grasping forceps|biopsy forceps'),
  k('stone basket', 'retrieval', '', 'basket'),
  k('thrombectomy device', 'retrieval', '', 'rotational thrombectomy device'),

  k('coil', 'embolic', 'in', 'detachable coil|pushable coil|microcoil|embolisation coil|embolization coil'),
  k('vascular plug', 'embolic', 'in', 'plug|occlusion plug'),
  k('particles', 'embolic', 'in', 'embolic particles|microspheres|embolic microspheres|drug-eluting beads'),
  k('gelatin sponge', 'embolic', 'in', 'gelatin foam'),
  k('liquid embolic', 'embolic', 'in', 'embolic glue|glue|liquid embolic agent|sclerosant'),

  k('closure device', 'closure', 'i', 'vascular closure device|suture-mediated closure device'),
  k('tract plug', 'closure', 'i', 'tract sealant'),
  k('marker', 'anchor', 'in', 'tissue marker|fiducial marker|localisation clip'),
  k('gastropexy anchor', 'anchor', 'n', 'T-fastener|gastropexy fastener|gastropexy suture'),

  k('gastrostomy tube', 'tube', '', 'gastrostomy|balloon gastrostomy tube|feeding gastrostomy tube'),
  k('gastrojejunostomy tube', 'tube', '', 'jejunostomy tube'),
  k('nasogastric tube', 'tube', '', 'nasojejunal tube'),

  k('pusher', 'accessory', '', 'stent pusher|positioner'),
  k('delivery system', 'accessory', '', 'delivery wire|delivery cable'),
  k('stiffening cannula', 'accessory', '', 'stiffener|metal stiffener|trocar'),
  k('obturator', 'accessory', '', 'stylet'),
  k('swab', 'accessory', 'n', 'sponge|gauze|gauze swab'),
  k('connecting tube', 'accessory', 'o', 'connector|tubing|extension tube'),
  k('stopcock', 'accessory', 'o', 'three-way stopcock|tap'),
  k('haemostatic valve', 'accessory', 'o', 'haemostasis valve|rotating valve'),
  k('drainage bag', 'accessory', 'o', 'collection bag|drainage chamber'),
  k('inflation device', 'accessory', 'o', 'inflation syringe'),
  k('syringe', 'accessory', 'no'),
  k('torque device', 'accessory', 'o', 'wire torquer'),
  k('scalpel', 'accessory', 'o', 'blade'),
  k('skin fixation device', 'accessory', 'o', 'adhesive fixation|catheter holder'),
  k('suture', 'accessory', 'o', 'skin suture'),
  k('ultrasound probe cover', 'accessory', 'o', 'probe cover'),
];

const folded = (name: string) =>
  name
    .normalize('NFC')
    .toLowerCase()
    .replace(/[\s_-]+/g, ' ')
    .trim();

/** A kind that a site adds: its family is enough. */
export interface SiteKind {
  readonly name: string;
  readonly family: DeviceFamily;
  readonly implant?: boolean;
  readonly french?: FrenchMeans;
  readonly counted?: boolean;
  readonly outside?: boolean;
  readonly aliases?: readonly string[];
}

/** Finds a kind by its name or another name; case, hyphens and a plural s are forgiven. The site's kinds come first. */
export function kindNamed(name: string, siteKinds: readonly SiteKind[] = []): DeviceKind | undefined {
  const wanted = folded(name);
  const known = index(siteKinds);
  return known.get(wanted) ?? known.get(wanted.replace(/s$/, ''));
}

/** `Did you mean …?` for a kind that is not in the table; without a near one, the families to choose from. */
export function suggestKind(name: string, siteKinds: readonly SiteKind[] = []): string {
  const near = suggest(name, [...siteKinds.map(kind => kind.name), ...deviceKinds.map(kind => kind.name)]);
  return near.startsWith('Did you mean') ? near : `Add its family: ${deviceFamilies.join(', ')}.`;
}

/** What to assume of a kind that nobody knows: nothing beyond its family. */
export function kindOfFamily(name: string, family: DeviceFamily): DeviceKind {
  const implant = family === 'stent' || family === 'filter' || family === 'embolic' || family === 'closure';
  const french = family === 'sheath' ? 'lumen' : 'outer';
  return { name, family, implant, french, counted: false, outside: false, aliases: [] };
}

function index(siteKinds: readonly SiteKind[]): ReadonlyMap<string, DeviceKind> {
  if (siteKinds.length === 0) return builtIn;
  const own = siteKinds.map(
    (kind): DeviceKind => ({ ...kindOfFamily(kind.name, kind.family), ...kind, aliases: kind.aliases ?? [] }),
  );
  return new Map([...builtIn, ...named(own)]);
}

function named(kinds: readonly DeviceKind[]): Map<string, DeviceKind> {
  return new Map(
    kinds.flatMap(kind => [kind.name, ...kind.aliases].map(name => [folded(name), kind] as const)),
  );
}

const builtIn = named(deviceKinds);
