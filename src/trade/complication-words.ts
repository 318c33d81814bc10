/** A complication as texts tell of it. */
export interface ComplicationWord {
  readonly name: string;
  readonly words: RegExp;
  /** The same thing where it is why the case was done: then telling of it tells of no complication. */
  readonly reason: RegExp;
}

const row = (name: string, words: string, reason = words): ComplicationWord => ({
  name,
  words: new RegExp(`\\b(?:${words})(?!\\w)`, 'i'),
  reason: new RegExp(`\\b(?:${reason})\\b`, 'i'),
});

/** Whole phrases only. Common practice, no source. */
export const complicationWords: readonly ComplicationWord[] = [
  row(
    'perforation',
    'perforat(?:ion|ed)|lacerat(?:ion|ed)|(?:artery|vein|vessel|duct|capsule|aneurysm|spleen|bladder|ureter|bowel) (?:is |was |has )?ruptured?|rupture of the|(?:went|gone|passed|passes|throw|pass) (?:right )?through the (?:\\w+ )?(?:capsule|wall|bowel|colon|gut)|capsular breach|(?:pierced|breached|transfixed|torn) the (?:\\w+ )?(?:capsule|wall|bowel|colon|gut|artery|vein|bladder|diaphragm)|(?:artery|vein|vessel|duct|bowel|bladder|ureter|intimal|wall) (?:is |was )?(?:tear|torn)|tear (?:of|in) the|(?:wire|tip|needle) (?:is |was |went )?outside the (?:vessel|artery|vein|duct|lumen)',
    'perforat\\w+|lacerat\\w+|ruptur\\w+|trauma|injur\\w+',
  ),
  row(
    'dissection',
    '(?<!blunt |sharp |finger |subintimal )dissection|dissected (?:by|with|in|at|on)|(?:artery|vessel|intima) (?:is |was )?dissected|flow-limiting flap|intimal flap',
    'dissect\\w+',
  ),
  row(
    'pneumothorax',
    '(?:hydro)?pneumothora\\w+|PTX|lung (?:has |is )?(?:collapsed|dropped|down)|collapsed lung|(?:surgical|subcutaneous) emphysema|air in the pleura\\w*|pneumomediastinum',
    'pneumothora\\w+|PTX|lung collapse|collapsed lung|air leak|emphysema',
  ),
  row('haemothorax', 'ha?emothorax', 'ha?emothorax|trauma'),
  row(
    'bleeding',
    'ha?emorrhage|ha?emoptysis|ha?emoperitoneum|ha?emobilia|ha?ematobilia|(?:active|arterial|brisk|major|heavy|profuse|severe|persistent|ongoing) bleeding|(?:artery|vein|vessel|tract|capsule) (?:is )?bleeding|(?:artery|vein|vessel|tract|capsule) bleeds|bleeding (?:into|from|around|along|at|beside)|blood (?:in|into) the (?:peritoneum|peritoneal cavity|pleura|pleural space|retroperitoneum|abdomen|belly)|re-?bled|re-?bleeds|bled (?:again|briskly|heavily|from|into|\\d)|(?:perinephric|perirenal|retroperitoneal|subcapsular|intraperitoneal|perihepatic|psoas|tract|pelvic) (?:bleed|bleeding|blood|collection)|bleed of \\d|(?:a|an|large|small|big|new) (?:\\w+ )?bleed|spurting|frank blood|clot retention',
    'bleed\\w*|ha?emorrhag\\w*|ha?emoptysis|ha?em(?:at)?obilia|epistaxis|ha?ematemesis|mela?ena|varic\\w+|trauma|postpartum|extravasation',
  ),
  row(
    'haematoma',
    'ha?ematomas?|(?:groin|neck|wrist|arm|thigh) (?:is |was )?(?:swelling|swollen|swelled|lump)|(?:swelling|swollen|lump) (?:of|in|at) the (?:\\w+ )?(?:groin|neck|wrist|puncture)|(?:swollen|tense) (?:groin|neck|wrist|thigh)',
    'ha?ematoma\\w*|trauma',
  ),
  row(
    'pseudoaneurysm',
    'pseudo-?aneurysm|false aneurysm|arteriovenous fistula formed',
    'pseudo-?aneurysm|aneurysm|fistula|trauma',
  ),
  row(
    'extravasation',
    'extravasation|extravasates',
    'extravasation|bleed\\w*|ha?emorrhag\\w*|leak\\w*|rupture\\w*|trauma|urinoma',
  ),
  row(
    'organ injury',
    '(?:bowel|colon|colonic|gut|bladder|nerve|duct|splenic|ureteric|vessel|arterial|thermal|skin) injury|(?:bowel|colon|gut|bladder|nerve|duct|spleen|liver) (?:was )?injured|injury (?:of|to) the (?:bowel|colon|bladder|nerve|spleen|liver|duct|ureter)|burn of the (?:bowel|colon|skin|duct)|(?:colon|bowel|gut|spleen|diaphragm) (?:wall )?(?:is |was |were )?(?:burnt|burned|punctured|transfixed|pierced|nicked|hit)|(?:probably|partly|accidentally) burnt',
    'injur\\w+|trauma|burn',
  ),
  row(
    'embolisation of another vessel',
    'non-?target embolisation|(?:oil|lipiodol|glue|cement|particles|spheres|beads) in (?:both|the|one|his|her|the left|the right|left|right) lungs?|(?:artery|arteries|branch|branches|other|others|two|one) (?:\\w+ ){0,2}(?:cut off|lost|blocked|stopped|closed) by (?:\\w+ )?(?:clots?|thrombus|embol\\w+|plaque)|(?:distal|peripheral) embol(?:us|i|isation)|(?:new|fresh|small|large) embol(?:us|i)|embol(?:us|i) (?:in|into|to) the (?:\\w+ ){0,3}(?:artery|arteries|branch|branches|foot|toes|lungs?)|(?:glue|coil|particle|foam|plaque|lipiodol|oil|clot) embol(?:us|i|ism)|embol(?:us|i) (?:in|into|to) a new territory|new territory|coil migrat(?:ed|ion)|(?:stent|coil|filter|plug) (?:has )?migrated|air embol(?:us|ism)|non-?target|(?:reflux|spill|escape) of (?:\\w+ ){0,2}(?:spheres|microspheres|particles|beads|glue|foam|alcohol|ethanol|lipiodol|embolic)|(?:spheres|particles|beads|glue|foam|embolic|alcohol) (?:\\w+ ){0,3}(?:in|into|to) the (?:wrong|lungs?|bladder|rectum|(?:\\w+ )?vesical|cystic|gastroduodenal|profunda|spinal)|(?:coils?|plug) (?:\\w+ ){0,3}(?:in|into|to) the (?:wrong|lungs?|bladder|rectum|profunda|spinal)|(?:coils?|stents?|filter|plug|particles|cement|glue|fragment|piece|tip|wire|balloon|catheter|drain|clip|beads?)(?: of the \\w+(?: \\w+)?)? (?:has |have |had )?(?:moved|went|gone|travelled|traveled|floated|flown|drifted|escaped|migrated|shifted|passed|dropped) (?:\\w+ ){0,2}(?:to|into|in|towards?) (?:a |an |the )?(?:\\w+ ){0,5}(?:artery|arteries|vein|veins|lungs?|heart|atrium|ventricle|duct|aorta|duodenum|bowel|bladder|branch|cava|canal|circulation)|(?:coil|stent|filter|plug|catheter|drain) (?:has |is |was )?(?:slipped|prolapsed|dislodged|displaced|embolised|embolized|misplaced)|wrong (?:artery|vessel|vein|branch|duct)|misplaced (?:coil|stent|plug|filter)',
    'migrat\\w+|air embol\\w+|(?:distal|peripheral) embol\\w+|embol(?:us|i|ic|ism)|dislodg\\w+|displac\\w+|dislocat\\w+|slipped|misplaced',
  ),
  row(
    'cement leak',
    '(?:cement|leak\\w*) (?:\\w+ ){0,3}(?:in|into) the (?:spinal )?(?:canal|disc|foramen|epidural space)|cement (?:embolus|embolism)|cement (?:\\w+ ){0,3}(?:in|into) (?:a|an|the) (?:\\w+ ){0,2}(?:veins?|cava|lungs?|canal|foramen|disc|muscle|artery)|cement leak\\w*|leak(?:age)? of cement',
    'cement (?:leak\\w*|embol\\w*)',
  ),
  row(
    'new weakness',
    "(?:\\w+ )?nerve (?:palsy|paralysis)|horner\\w*|hoarse(?:ness)?|chok(?:es|ed|ing) on|weak (?:left|right|legs?|arms?|foot|hand)|(?:new|sudden) (?:\\w+ ){0,3}(?:weakness|palsy|paralysis|numbness|deficit|aphasia)|(?:weakness|palsy|paralysis) of (?:the|one|his|her|both) (?:\\w+ )?(?:legs?|arms?|hand|face)|(?:legs?|arm|foot|hand) (?:weakness|(?:is |now |gone |went )?weak)|foot drop|numb(?:ness)? (?:of|in) (?:the|his|her|one|both)|dysphasia|aphasi[ac]|slurred speech|facial droop|hemipar\\w+|parapleg\\w+|stroke (?:during|after|on)|new(?:ly)? confus\\w+|seizures?|fitted|convuls\\w+|visual loss|went blind|(?:cannot|can ?not|could not|can\\'t|unable to|does not|no longer) (?:lifts?|moves?|feels?|raises?|bends?|stretch\\w*|grip with) (?:up )?(?:the |his |her |either |one |both )?(?:left |right )?(?:legs?|arms?|foot|feet|hand|fingers?|toes?|side)|(?:cannot|can ?not|could not|unable to) (?:walk|speak|swallow|stand)|(?:numb|tingling|pins and needles|paraly[sz]ed|weaker|heavy|limp|powerless) (?:left |right )?(?:legs?|arms?|hands?|foot|feet|face|fingers|toes|side)|(?:left|right|both) (?:legs?|arms?|hands?|foot|feet|side) (?:is |are |now |gone |went )?(?:weak\\w*|numb|paraly[sz]ed|heavy|limp)|double vision|(?:blurred|lost|loss of) (?:vision|sight)|cannot (?:see|speak|walk|swallow)|sensory level|incontinen(?:t|ce) (?:of|since|after)",
    'seizure|epilep\\w+|confus\\w+|encephalopathy|weakness|palsy|paralysis|paresis|hoarse\\w*|horner\\w*|dysphagia|weak|stroke|deficit|claudication|radiculopathy|cord compression',
  ),
  row(
    'reaction',
    'anaphyla(?:xis|ctic)|urticaria|wheals|hives|bronchospasm|laryngeal oedema|allergic (?:reaction|rash)|contrast reaction|(?:came|broke) (?:up|out) in|blotch\\w*|itch(?:ing|y)|(?:skin )?rash|swollen (?:lips|face|tongue|eyelids)|(?:lips?|face|facial|tongue|throat|eyelid) (?:swelling|swollen|swelled)|wheez\\w+|angio-?o?edema',
    'anaphyla\\w+|urticaria|asthma|itch\\w*|rash|eczema|jaundice|wheez\\w+',
  ),
  row(
    'cardiac arrest',
    'cardiac arrest|PEA arrest|went into arrest|(?<!(?:bleeding|bleeding was|ha?emorrhage) )arrested|resuscitat(?:ed|ion)|CPR|chest compressions|asystole|ventricular fibrillation',
    'cardiac arrest|resuscitat\\w+',
  ),
  row(
    'sepsis',
    'septic shock|rigors?|rigored|shaking chills|shivering and (?:hot|fever\\w*)|septic(?:aemia)? after|became septic|bacteraemia',
    'sep(?:sis|tic)\\w*|rigors|cholangitis|abscess|empyema|infected',
  ),
  row(
    'dural puncture',
    'dural (?:puncture|tear|tap|leak)|dura (?:is |was )?(?:punctured|pierced|torn|nicked)|(?:punctured|pierced|nicked) the dura|(?:CSF|cerebrospinal fluid|spinal fluid) (?:\\w+ )?(?:back|leak\\w*|return\\w*|drip\\w*|in|at|through|from|came|flow\\w*)|(?:clear|spinal) fluid (?:dripped|drips|back|came back|in the hub|from the hub)|intrathecal (?:injection|contrast|spread)|high spinal block',
  ),
  row(
    'faint',
    'fainted|fainting|faints|felt faint|a faint|near-?faint|(?:pre-?)?syncop\\w+|vaso-?vagal\\w*|collapsed (?:on (?:standing|the)|in (?:recovery|the)|when|getting up)|(?:patient|she|he) collapsed|passed out|blacked out|(?:lost|loss of) consciousness|unresponsive',
    'faint\\w*|(?:pre-?)?syncop\\w+|vaso-?vagal|collaps\\w+|unconscious|coma|unresponsive',
  ),
  row(
    'arrhythmia',
    '(?:ventricular|supraventricular|broad complex) tachycardia|VT|SVT|(?:new|fast|rapid) (?:atrial fibrillation|AF)|arrhythmia|heart block|(?:severe |sinus )?bradycardia|brady(?:ed)? down|pulse (?:of |fell to |down to )?[23]\\d(?! ?\\d)|defibrillat\\w+|cardiover\\w+|shocked (?:once|twice|\\d)|run of (?:VT|ectopics|tachycardia)',
    'arrhythmi\\w+|fibrillation|flutter|tachycardia|bradycardia|heart block|pacemaker',
  ),
  row(
    'breathing trouble',
    'respiratory (?:arrest|depression|failure)|apno?ea|apno?eic|stopped breathing|desat(?:s|ted|urat\\w+)?|(?:oxygen )?(?:saturations?|sats|SpO2) (?:of |to |fell to |dropped to |down to |only )?(?:[4-7]\\d|8[0-8]) ?(?:%|percent)?|bagged|bag-?mask\\w*|re-?intubated|emergency intubation|hypoxi(?:a|c)|high[- ]flow oxygen|laryngospasm|over-?sedat\\w+|(?:needed|given) (?:naloxone|flumazenil)|(?:naloxone|flumazenil) (?:was )?(?:needed|given)',
    'hypox\\w+|respiratory failure|pneumonia|ventilated|apno?ea',
  ),
  row(
    'lung oedema',
    're-?expansion (?:pulmonary |lung )?o?edema|pulmonary o?edema|lung o?edema|fluid overload|overloaded',
    'o?edema|heart failure|overload',
  ),
  row(
    'aspiration into the lungs',
    'vomited and aspirated|aspirated (?:vomit\\w*|gastric|stomach|food)|aspiration (?:of (?:vomit|gastric|stomach)|pneumoni\\w+)|pulmonary aspiration',
    'aspiration pneumoni\\w+',
  ),
  row(
    'clot',
    '(?:stent|graft|fistula|shunt|sheath) (?:\\w+ )?(?:thrombosed|clotted|clotted off|occluded)|in-stent thrombosis|(?:acute|fresh|new|sudden) (?:\\w+ ){0,2}(?:thrombus|clot|thrombosis|occlusion)|clot (?:formed|has formed)|(?:thrombus|clot) (?:formed|forms) (?:on|in|at)|(?:radial|brachial|femoral|access) artery (?:is |was )?(?:occluded|thrombosed|blocked)|deep vein thrombosis|DVT|pulmonary embol(?:us|ism)',
    'thromb\\w+|clot\\w*|occlu\\w+|DVT|embolism|embolus',
  ),
  row(
    'cold limb',
    '(?:cold|cool|blue|white|dusky|ischa?emic|mottled) (?:foot|feet|leg|hand|limb|toes|fingers)|(?:foot|leg|hand|limb|toes|fingers) (?:is |are |was |went |turned |gone )?(?:\\w+ and )?(?:cold|blue|white|dusky|pulseless|mottled|ischa?emic|pale)|pulseless|(?:no|absent|lost|loss of) (?:\\w+ ){0,2}pulses?|limb ischa?emia|compartment syndrome|trash(?:ed)? foot|blue toes?|bowel ischa?emia|ischa?emic bowel',
    'ischa?em\\w+|gangrene|rest pain|cold|blue|pulseless|critical limb',
  ),
  row(
    'wrong vessel punctured',
    '(?:pass|needle|stab|puncture|attempt) (?:went |gone |was )?(?:in|into|through) the (?:common )?(?:carotid|subclavian artery|bowel|colon)|(?:carotid|subclavian|artery|aorta) (?:was |is )?(?:hit|punctured by mistake|punctured first|stuck|cannulated by mistake)|(?:hit|stuck|nicked) the (?:carotid|subclavian|femoral|vertebral|\\w+ artery|artery|lung|colon|bowel|gallbladder|kidney|spleen)|(?:accidental|inadvertent|unintended|unintentional|unplanned|mistaken) (?:\\w+ ){0,2}(?:puncture|stick|cannulation|injection)|(?:carotid|subclavian) (?:artery )?(?:puncture|stick)|(?:punctured|cannulated|injected|entered|opened) (?:by mistake|in error|accidentally|inadvertently)',
    'carotid|subclavian artery|ca?ecostomy|colostomy|by mistake',
  ),
  row(
    'leak',
    '(?:bile|biliary|urine|urinary|chyle|chylous|anastomotic) leak\\w*|leak\\w* (?:of (?:\\w+ ){1,2})?(?:through|across) the (?:\\w+ )?(?:capsule|wall|bowel|tract)|(?:contrast|bile|urine|pus|chyle|dye) (?:runs?|ran|spills?|spilt|spilled|escapes?|escaped|leaks?|leaked|leaking|tracks?) (?:\\w+ )?(?:into|in|around|along|outside) the (?:\\w+ )?(?:peritone\\w+|abdomen|belly|pleura\\w*|chest|retroperitone\\w+|tissues?|fat|space|muscle)|(?:contrast|bile|urine|pus|chyle|dye|feed|fluid|water|saline) (?:\\w+ ){0,4}(?:in|into|to|outside|around|beside) the (?:free |open |whole )?(?:belly|abdomen|peritone\\w+|abdominal cavity|retroperitone\\w+|pleura\\w*|chest|mediastinum|scrotum|pelvis|perirenal \\w+)|free (?:contrast|fluid|bile|urine) (?:in|around|under|below)|(?:contrast|bile|urine|feed) (?:is |lies )?(?:free|outside)|biloma|urinoma|peritonitis|pneumoperitoneum|free (?:air|gas) (?:under|in|below)',
    'leak\\w*|biloma|urinoma|peritonitis|fistula|perforat\\w+|trauma|free air',
  ),
  row(
    'low blood pressure',
    'hypotensi(?:on|ve)|(?:blood pressure|BP|systolic|pressure) (?:fell|dropped|down|crashed|sank) to|(?:blood pressure|BP) (?:of )?[4-7]\\d ?/|(?<!pulmonary\\b.{0,60})(?:systolic|BP|blood pressure) (?:of )?[4-7]\\d(?![\\d/])|vasopressors?|pressors (?:started|needed)|noradrenaline (?:started|needed)|norepinephrine (?:started|needed)',
    'hypotens\\w+|shock\\w*|sep(?:sis|tic)|low blood pressure|bleed\\w*|ha?emorrhag\\w*|instab\\w+|unstable|massive',
  ),
  row(
    'infarction',
    '(?:pancrea\\w*|bowel|colon|kidney|renal|liver|gastric|stomach|skin|bladder|rectum|uterus|testis|spinal cord|lobe|tail|pole) (?:\\w+ ){0,2}infarct(?:s|ed|ion)?|infarct(?:s|ion)? (?:of|in) the',
    'infarct\\w*|ischa?em\\w+|necros\\w+|ablat\\w+',
  ),
  row(
    'kidney failure',
    'acute kidney injury|AKI|contrast nephropathy|acute renal failure|became anuric',
    'kidney injury|AKI|(?:renal|kidney) (?:failure|impairment|insufficiency)|anuri\\w+|dialysis|obstruct\\w+|hydronephrosis',
  ),
  row(
    'pancreatitis or cholangitis',
    '(?:acute |new |post-?procedur\\w+ )?pancreatitis|cholangitis',
    'pancreatitis|cholangitis',
  ),
  row(
    'mistake',
    'overdose|wrong (?:drug|dose|patient|side|level|site|syringe|vial|contrast|size)|(?:given|injected|infused|put in) (?:twice )?(?:by mistake|in error)|(?:drug|medication|dosing) error|(?:rib|bone|hip|tooth|teeth) (?:is |was |were )?(?:fractured|broken|broke|cracked|chipped)|(?:fractured|broken|cracked|chipped) (?:a |the |his |her )?(?:rib|tooth|bone)|never event|fell (?:off|from|out of) (?:the |a )?(?:table|bed|trolley|couch)',
    'overdose|ribs?|trauma',
  ),
  row(
    'local anaesthetic toxicity',
    'local ana?esthetic (?:systemic )?toxicity|lipid emulsion (?:was )?given|given (?:20 % )?lipid emulsion|perioral (?:tingling|numbness)|tingling (?:of|around) the (?:lips|mouth)',
  ),
  row(
    'broken or lost piece',
    '(?:torn|sheared|snapped|broken) off|\\d+ ?(?:mm|cm) (?:stays?|stayed|remains?|remained|left) (?:in|inside|behind)|(?:half|part|piece|fragment|tip|end|some|bit) of (?:the )?(?:\\w+ ){0,3}(?:is |was |are |were )?(?:missing(?:,? (?:and )?not (?:found|seen))?|left behind|broken off|broke off|torn off|sheared off|not found|lost|retained|stuck|snapped off)|(?:balloon|catheter|wire|guidewire|tip|needle|sheath|coil|stent|snare|basket|tube|drain|thread|loop|cuff|core) (?:has |is |was |were |had )?(?:torn|broken|broke|snapped|sheared|fractured|ruptured circumferentially|split|burst and|unravel\\w+|stuck|knotted|trapped|entrapped)|(?:broke|snapped|sheared|tore|came) (?:off|apart) (?:in|inside|within)|retained (?:fragment|piece|wire|swab|foreign body)|(?:fragment|piece) (?:\\w+ ){0,3}(?:left|remains|stays) (?:in|behind|inside)|swab count (?:wrong|does not)|needle missing',
    'broken|fractur\\w+|fragment\\w*|retained|torn|ruptur\\w+|split|snapped|stuck|trapped|foreign body|displac\\w+|dislodg\\w+|burst|tear',
  ),
  row(
    'skin damage',
    'skin (?:burn|necrosis|ulcer|blisters?)|blister(?:s|ed|ing)|burns? (?:on|of|to) the (?:skin|back|thigh|leg)|pressure (?:sore|ulcer)',
    'burn\\w*|ulcer\\w*|blister\\w*|necrosis|sore|wound',
  ),
];
