import { listOf, type Named, NameTable } from '../names.js';
import type { DrugFamily } from './drug.js';

/** What an allergy is often written as: a family of drugs, or a substance that devices have. */
export interface Allergen extends Named {
  /** Families of drugs that it speaks of. */
  readonly families: readonly DrugFamily[];
  /** Kinds of device that are of it, by name of their row. */
  readonly kinds: readonly string[];
  /** Materials of a device, as whole phrases. */
  readonly materials: readonly string[];
  /** What notes and events call it, as whole words. */
  readonly noted: readonly string[];
}

function a(
  name: string,
  aliases: string,
  families: string,
  kinds = '',
  materials = '',
  noted = '',
): Allergen {
  return {
    name,
    aliases: listOf(aliases),
    families: listOf(families) as readonly DrugFamily[],
    kinds: listOf(kinds),
    materials: listOf(materials),
    noted: listOf(noted),
  };
}

/** Common practice, no source. */
// biome-ignore format: a table reads best with one allergen a line
export const allergens: readonly Allergen[] = [
  a('iodinated contrast', 'iodinated contrast medium|iodinated contrast media|X-ray dye|x-ray contrast|CT contrast|CT dye|contrast dye|radiocontrast|radiographic contrast|angiographic contrast|iodine contrast|iodine-containing contrast|non-ionic contrast|iodinated dye|dye|IV dye|intravenous dye|intravenous contrast|IV contrast', 'iodinated contrast'),
  a('iodine', 'iodine allergy|iodides', 'iodinated contrast|iodine', '', '', 'povidone iodine|iodophor'),
  a('contrast', 'contrast medium|contrast media|contrast agent', 'iodinated contrast|gadolinium contrast|ultrasound contrast'),
  a('gadolinium', 'gadolinium contrast|gadolinium-based contrast|MR contrast|MRI contrast|MRI dye|MR dye|gadolinium chelate', 'gadolinium contrast'),
  a('ultrasound contrast', 'microbubbles', 'ultrasound contrast'),
  a('penicillin', 'penicillins|penicillin group|penicillin antibiotics', 'penicillin'),
  a('cephalosporins', 'cephalosporin|cefalosporin|cefalosporins', 'cephalosporin'),
  a('beta-lactams', 'beta-lactam antibiotics|betalactam|beta lactam', 'penicillin|cephalosporin|carbapenem|monobactam'),
  a('carbapenems', 'carbapenem', 'carbapenem'),
  a('aminoglycosides', 'aminoglycoside', 'aminoglycoside'),
  a('macrolides', 'macrolide', 'macrolide'),
  a('quinolones', 'quinolone|fluoroquinolone|fluoroquinolones', 'quinolone'),
  a('trimethoprim', 'trimethoprim antibiotics', 'trimethoprim'),
  a('sulphonamides', 'sulfonamide|sulpha drugs|sulfa|sulfa drugs|sulphonamide antibiotics|sulpha', 'sulphonamide'),
  a('local anaesthetics', 'local anaesthetic|amide local anaesthetics|caine anaesthetics|dental anaesthetic|LA', 'amide local anaesthetic|ester local anaesthetic'),
  a('ester local anaesthetics', 'ester local anaesthetic|ester anaesthetics', 'ester local anaesthetic'),
  a('opioids', 'opioid|opiate|opiates|narcotics', 'opioid'),
  a('benzodiazepines', 'benzodiazepine', 'benzodiazepine'),
  a('NSAIDs', 'NSAID|non-steroidal anti-inflammatory drugs|nonsteroidal anti-inflammatory drug|anti-inflammatory drugs|NSAR', 'NSAID'),
  a('salicylates', 'salicylate', 'salicylate|NSAID'),
  a('heparin', 'heparins|heparin products', 'heparin', '', 'heparin-coated|heparin-bonded|heparin coating|heparin-bonded surface|heparin'),
  a('heparin-induced thrombocytopenia', 'heparin-induced thrombocytopaenia|HIT|HITT|heparin HIT|HIT type 2|heparin thrombocytopenia', 'heparin', '', 'heparin-coated|heparin-bonded|heparin coating|heparin-bonded surface|heparin'),
  a('protamine', 'protamine sulphate', 'protamine'),
  a('corticosteroids', 'corticosteroid|steroids|steroid', 'corticosteroid'),
  a('chlorhexidine', 'chlorhexidine gluconate', 'chlorhexidine', '', 'chlorhexidine|chlorhexidine-coated|chlorhexidine coating|chlorhexidine-impregnated|chlorhexidine silver sulfadiazine|chlorhexidine gel', 'chlorhexidine'),
  a('povidone-iodine', 'povidone iodine|iodine antiseptic|topical iodine', 'iodine', '', '', 'povidone iodine|iodophor'),
  a('gelatin', 'gelatine|bovine gelatin', 'gelatin', 'gelatin sponge', 'gelatin'),
  a('bovine protein', 'beef protein|bovine collagen|collagen|bovine products', '', 'collagen plug closure device|thrombin', 'bovine collagen|collagen|collagen plug|bovine pericardium'),
  a('latex', 'natural rubber|natural rubber latex|rubber latex|rubber', '', '', 'latex|natural rubber latex|natural rubber', 'latex|natural rubber'),
  a('dressing adhesives', 'adhesive|adhesives|plaster|plasters|sticking plaster|adhesive plaster|adhesive tape|tape|surgical tape|adhesive dressing|skin adhesive|dressing|dressings|medical adhesive|micropore tape', '', 'skin fixation device|dressing|skin adhesive', 'adhesive|acrylic adhesive|acrylate adhesive|adhesive film', 'adhesive|sticking plaster|adhesive tape|adhesive dressing'),
  a('cyanoacrylate', 'acrylate glue|tissue glue|acrylates|skin glue', '', 'embolic glue|skin adhesive', 'cyanoacrylate'),
  a('bone cement', 'polymethylmethacrylate|methyl methacrylate|methacrylate', '', 'cement', 'polymethylmethacrylate|PMMA'),
  a('nickel', 'nickel allergy|nickel contact allergy|metal allergy to nickel|nickel dermatitis', '', '', 'nitinol|nickel titanium|nickel-titanium|stainless steel|cobalt chromium nickel|nitinol polyester', 'nickel|nitinol'),
  a('paclitaxel', 'taxanes', '', 'drug-coated balloon catheter', 'paclitaxel'),
  a('fish', 'fish protein|fish allergy|finned fish', ''),
];

/** Finds what an allergy is written as. */
export const allergenTable = new NameTable(allergens, {
  qualifiers:
    'allergy allergic allergie reaction hypersensitivity intolerance anaphylaxis anaphylactic severe mild moderate previous past known ' +
    'suspected history rash urticaria hive itching to drug drugs group antibiotic antibiotics agent product products medication any all class containing contact ' +
    'dermatitis skin glove type confirmed patient immediate delayed',
  cuts: 'with in at since causing cause after during by from',
});

/** How likely a cross-reaction is, as messages say it. */
export type Likelihood =
  | 'likely'
  | 'possible'
  | 'possible (about 16 %, same side chain)'
  | 'possible (by side chain)'
  | 'possible (same side chain)'
  | 'rare'
  | 'rare (under 1 %)'
  | 'uncommon'
  | 'unlikely'
  | 'unlikely (about 2 %)';

/** How likely a reaction is when a drug of one family meets an allergy to another, and where that is from. */
export interface CrossReaction {
  readonly from: DrugFamily | 'fish';
  readonly to: DrugFamily;
  readonly likelihood: Likelihood;
  readonly basis: string;
}

const PICARD = 'Picard et al., J Allergy Clin Immunol Pract 2019;7:2722; from memory';
const ACR = 'ACR Manual on Contrast Media; from memory';
const MEMORY = 'from memory';

/** The first row that applies is said. */
export const crossReactions: readonly CrossReaction[] = [
  {
    from: 'aminopenicillin',
    to: 'aminocephalosporin',
    likelihood: 'possible (about 16 %, same side chain)',
    basis: PICARD,
  },
  {
    from: 'aminocephalosporin',
    to: 'aminopenicillin',
    likelihood: 'possible (same side chain)',
    basis: PICARD,
  },
  { from: 'penicillin', to: 'penicillin', likelihood: 'likely', basis: MEMORY },
  { from: 'penicillin', to: 'cephalosporin', likelihood: 'unlikely (about 2 %)', basis: PICARD },
  { from: 'cephalosporin', to: 'penicillin', likelihood: 'unlikely', basis: MEMORY },
  { from: 'cephalosporin', to: 'cephalosporin', likelihood: 'possible (by side chain)', basis: MEMORY },
  { from: 'penicillin', to: 'carbapenem', likelihood: 'rare (under 1 %)', basis: PICARD },
  { from: 'cephalosporin', to: 'carbapenem', likelihood: 'rare', basis: MEMORY },
  { from: 'carbapenem', to: 'carbapenem', likelihood: 'possible', basis: MEMORY },
  { from: 'iodinated contrast', to: 'iodinated contrast', likelihood: 'possible', basis: ACR },
  { from: 'gadolinium contrast', to: 'gadolinium contrast', likelihood: 'possible', basis: ACR },
  { from: 'amide local anaesthetic', to: 'amide local anaesthetic', likelihood: 'uncommon', basis: MEMORY },
  { from: 'ester local anaesthetic', to: 'ester local anaesthetic', likelihood: 'likely', basis: MEMORY },
  { from: 'phenanthrene opioid', to: 'phenanthrene opioid', likelihood: 'possible', basis: MEMORY },
  {
    from: 'phenylpiperidine opioid',
    to: 'phenylpiperidine opioid',
    likelihood: 'possible',
    basis: MEMORY,
  },
  { from: 'benzodiazepine', to: 'benzodiazepine', likelihood: 'possible', basis: MEMORY },
  { from: 'NSAID', to: 'NSAID', likelihood: 'possible', basis: MEMORY },
  { from: 'heparin', to: 'heparin', likelihood: 'likely', basis: MEMORY },
  { from: 'aminoglycoside', to: 'aminoglycoside', likelihood: 'likely', basis: MEMORY },
  { from: 'macrolide', to: 'macrolide', likelihood: 'possible', basis: MEMORY },
  { from: 'quinolone', to: 'quinolone', likelihood: 'possible', basis: MEMORY },
  { from: 'glycopeptide', to: 'glycopeptide', likelihood: 'possible', basis: MEMORY },
  { from: 'corticosteroid', to: 'corticosteroid', likelihood: 'possible', basis: MEMORY },
  { from: 'fish', to: 'protamine', likelihood: 'rare', basis: MEMORY },
];
