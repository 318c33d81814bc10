import { remembered } from '../../record/remembered.js';
import { deviceTable } from './table.js';

/** A thing that texts name in a word, and what in a list of devices it can be. */
export interface ToldDevice {
  readonly name: string;
  /** The word in a text, singular or plural. */
  readonly words: RegExp;
  /** Kinds, descriptions and parts that it can be. */
  readonly listed: RegExp;
  /** Families that it can be, whatever their kind is called. */
  readonly families: readonly string[];
}

const row = (name: string, words: string, listed: string, families = ''): ToldDevice => ({
  name,
  words: new RegExp(`\\b(?:${words})\\b`, 'gi'),
  listed: new RegExp(listed, 'i'),
  families: families === '' ? [] : families.split(' '),
});

const DET =
  '(?:an?|the|new|second|third|each|both|another|one|two|three|four|fr|french|mm|pigtail|locking|chest|pleural|biliary|' +
  'internal-external|external|percutaneous|abscess|tunnelled|ascites|surgical|left|right|wound)';

/**
 * Words that stand for a device in a text. A word that is a verb or a part of the body as well (`drains`, `graft`,
 * `clip`) counts only in a phrase that makes it a thing. Common practice, no source.
 */
export const toldDevices: readonly ToldDevice[] = [
  row('coil', 'coils?|micro-?coils?', 'coil'),
  row(
    'stent',
    '(?<!in-|in )(?:stents?|stent-?grafts?|endoprosthes[ie]s|scaffolds?)(?! retriever|ed|-retriever)',
    'stent(?!.*retriever)|stent-?graft|endograft|prosthes|scaffold|diverter',
    'stent',
  ),
  row('filter', '(?:caval |retrievable |permanent )?filters?', 'filter', 'filter'),
  row('plug', '(?<!mucus |fibrin |clot |gelatin |cement )(?:vascular )?plugs?', 'plug|occluder|collagen'),
  row(
    'drain',
    `${DET} (?:[\\w.-]+ ){0,3}(?:drains?|drainage (?:catheters?|tubes?))|chest tubes?|drain (?:left|placed|in place|inserted)`,
    'drain|pigtail|nephrostomy|catheter|chest tube',
    'drain tube',
  ),
  row('balloon', 'balloons?(?!-expand| expand|-mounted|ed)', 'balloon|valvulo', 'balloon'),
  row('glue', 'glue|cyanoacrylate|histoacryl', 'glue|cyanoacrylate|adhesive'),
  row('particles', 'particles|microspheres|beads|spheres|PVA', 'particle|sphere|bead|PVA|polyvinyl'),
  row('cement', '(?<!bone )cement(?:ed)?', 'cement|methacrylate|PMMA'),
  row(
    'gelatin sponge',
    'gelatin sponge|gelfoam|gelatin foam|gelatin torpedo(?:es)?',
    'gelatin|gelfoam|sponge',
  ),
  row('liquid embolic', 'liquid embolic|copolymer|EVOH', 'liquid|copolymer|EVOH|embolic'),
  row(
    'marker',
    'fiducials?|fiducial markers?|marker clips?|tissue markers?|gold markers?|localisation wires?',
    'fiducial|marker|localis|clip|seed',
  ),
  row(
    'port',
    '(?:chest |arm |venous |implanted )ports?|port (?:placed|implanted|in place|catheter|chamber)',
    '\\bport\\b',
  ),
  row('PICC', 'PICCs?|midline catheters?', 'PICC|peripherally|midline'),
  row('dialysis catheter', 'dialysis catheters?|permcaths?', 'dialysis'),
  row(
    'nephrostomy',
    'nephrostomy (?:tubes?|catheters?|drains?)',
    'nephrostomy|drain|pigtail|nephroureter',
    'drain tube',
  ),
  row(
    'gastrostomy tube',
    'gastrostomy tubes?|feeding tubes?|PEG tubes?',
    'gastrostomy|jejun|feeding|nasogastric|button',
    'tube',
  ),
  row('snare', 'snares?', 'snare|retrieval|retriever|basket|forceps', 'retrieval'),
  row('microcatheter', 'micro-?catheters?', 'micro'),
  row(
    'closure device',
    '(?:vascular |arterial )?closure devices?|suture-mediated closure|collagen plugs?',
    'clos|collagen|plug|suture',
    'closure',
  ),
  row('screw', '(?:cannulated )?screws?', 'screw', 'anchor'),
  row('guiding catheter', 'guiding catheters?|guide catheters?', 'guid|long sheath'),
  row('needle', 'needles', 'needle|antenna|probe|electrode|gun|trocar', 'needle'),
  row(
    'ablation probe',
    '(?:microwave )?antenn(?:as?|ae)|(?:cryo|ablation |cryoablation )probes?|(?:radiofrequency |ablation )electrodes?',
    'antenna|probe|electrode|applicator|ablation',
  ),
  row('anchor', '(?:gastropexy |T-)?(?:anchors|fasteners)', 'anchor|fastener', 'anchor'),
  row(
    'embolic',
    'vials? of (?:particles|beads|microspheres|spheres)',
    'particle|sphere|bead|embol',
    'embolic',
  ),
  row('lead', '(?:pacing|pacemaker) (?:leads?|wires?)', 'pac'),
  row(
    'thrombectomy device',
    'thrombectomy (?:device|catheter)s?|stent retrievers?',
    'thrombectomy|retriever|aspiration|fragment|rheolytic',
  ),
  row(
    'atherectomy device',
    'atherectomy (?:device|catheter)s?|lithotripsy balloons?',
    'atherectomy|lithotripsy',
  ),
];

/** Things that an entry of the list can be by its words. */
const listedAs = remembered((words): ReadonlySet<ToldDevice> => {
  const name = deviceTable.find(words)?.row.name ?? '';
  return new Set(toldDevices.filter(({ listed }) => listed.test(words) || listed.test(name)));
});

/** Whether an entry of the list, by its words and family, can be what a text names. */
export const canBe = (told: ToldDevice, words: string, family: string): boolean =>
  told.families.includes(family) || listedAs(words).has(told);
