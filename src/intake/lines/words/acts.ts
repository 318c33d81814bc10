import type { Act, Entry } from './entry.js';

/** Forms of verbs, parted by blanks; a form in -ing tells of something not yet done. Common practice, no source. */
const forms: Readonly<Record<Act, string>> = {
  insert:
    'insert inserted inserts inserting insertion place placed places placing placement introduce introduced introducing introduction pass passed passing passes ' +
    'feed fed feeding thread threaded threading put puts railroad railroaded popped pop slipped slip ran slotted mounted floated float',
  advance:
    'advance advanced advances advancing advancement readvance readvanced push pushed pushes pushing negotiate negotiated negotiating positioned parked seated sited ' +
    'followed follows tracked tracks navigated manipulated steered worked directed guided reached reaches nudged progressed adv',
  withdraw:
    'withdraw withdrew withdrawn withdraws withdrawing retract retracted retracting retracts withdrawal',
  remove:
    'remove removed removes removing removal extract extracted extracting extraction explanted explant extubate extubated rem rmvd rmd ditched discontinued',
  pull: 'pull pulled pulls pulling drew draw drawn yanked pullback eased',
  move: 'take took taken takes taking bring brought brings bringing come came comes coming go went gone goes going get got gets gotten slid slides led lead dropped',
  exchange:
    'exchange exchanged exchanges exchanging exch exchd swap swapped swaps swapping swop swopped change changed changes changing replace replaced replaces replacing upsize ' +
    'upsized upsizes upsizing downsize downsized downsizing switch switched switches switching converted convert traded substituted',
  inflate:
    'inflate inflated inflates inflating inflation inflations dilate dilated dilates dilating dilatation dilation predilate predilated predilatation predilation ' +
    'postdilate postdilated postdilatation postdilation ballooned ballooning angioplasty angioplastied plastied plasty pta venoplasty reinflate reinflated reinflation insufflate insufflated insufflation',
  deflate: 'deflate deflated deflates deflating deflation',
  deploy:
    'deploy deployed deploys deploying deployment redeployed fired fire implanted sealed unsheathed stented laid',
  release: 'release released releases releasing',
  detach: 'detach detached detaches detaching detachment',
  capture:
    'capture captured captures capturing catch caught catches catching snared grabbed engaged hooked lassoed grasped',
  retrieve: 'retrieve retrieved retrieves retrieving retrieval',
  lock: 'lock locked locks locking relocked',
  unlock: 'unlock unlocked unlocks unlocking',
  flush: 'flush flushed flushing irrigate irrigated irrigation washed rinsed lavaged lavage washout',
  aspirate: 'aspirate aspirated aspirating asp drained sucked suctioned aspiration decompressed',
  inject: 'inject injected injects injecting instilled instil instill infused infusing injection inj',
  sample: 'biopsied sampled biopsying brushed brushing brushings biopsy biopsies',
  puncture:
    'puncture punctured punctures puncturing punct stuck accessed entered cannulated cannulate cannulation stab stabbed needled stick',
  fix: 'fix fixed fixing suture sutured suturing sutures stitch stitched sewn secure secured securing taped glued fixated anchored stapled tied',
  setting:
    'clamp clamped clamping capped capping spigotted spigoted unclamped unclamp uncapped connected disconnected attached hooked',
  'peel away': 'peeled peeling',
  measure: 'measure measured measuring measures transduced',
  ablate: 'ablate ablated ablating ablation ablations cooked frozen freeze',
  tunnel: 'tunnel tunnelled tunneled tunnelling tunneling',
  compress: 'compress compressed compression compressing pressed pressing haemostasis hemostasis',
  cross: 'cross crossed crossing crosses recanalised recanalized recanalise traversed traverse',
  discard: 'discard discarded wasted binned',
  open: 'opened',
  cut: 'cut trimmed trim transected',
  reposition: 'reposition repositioned repositions repositioning resited adjusted',
  image:
    'image imaged imaging run runs dsa angiogram angiography angio cholangiogram nephrostogram fistulogram fistulography venogram venography cavogram cavography ' +
    'tubogram sinogram pyelogram arteriogram aortogram cbct portogram portography fluoroscoped loopogram lymphangiogram arthrogram myelogram scan scans scanned shuntogram graftogram linogram cystogram hysterosalpingogram urogram phlebogram splenoportogram',
  count: 'counted',
  happened:
    'burst ruptured kinked formed coiled fractured broke broken snapped sheared migrated dislodged leaked jammed sent moved transferred dissected perforated thrombosed unravelled prolapsed',
  lost: 'lost lose',
};

/** Verbs of several words. */
const longForms: Readonly<Record<string, Act>> = {
  'peeled away': 'peel away',
  'peel away and removed': 'peel away',
  'peeled off': 'peel away',
  'peeled and removed': 'peel away',
  'split and removed': 'peel away',
  'peeled away and removed': 'peel away',
  'split and peeled': 'peel away',
  'split away': 'peel away',
  'manual pressure': 'compress',
  'manual compression': 'compress',
  'held pressure': 'compress',
  'pressure held': 'compress',
  'pressure on': 'compress',
  'pressure for': 'compress',
  'digital pressure': 'compress',
  'direct pressure': 'compress',
  'firm pressure': 'compress',
  'held manual pressure': 'compress',
  'pressure applied': 'compress',
  'hand pressure': 'compress',
  'groin pressure': 'compress',
  'leaned on': 'compress',
  'completion run': 'image',
  'completion angiogram': 'image',
  'completion angio': 'image',
  'check ultrasound': 'image',
  'ct scan': 'image',
  'planning ct': 'image',
  'planning scan': 'image',
  'ct planning scan': 'image',
  'check ct': 'image',
  'post ct': 'image',
  'completion ct': 'image',
  'check scan': 'image',
  'chest xray': 'image',
  check: 'image',
  'final run': 'image',
  'check run': 'image',
  'control run': 'image',
  'control angio': 'image',
  'control angiogram': 'image',
  'control angiography': 'image',
  'check angiogram': 'image',
  'final angiogram': 'image',
  'cone beam ct': 'image',
  'cone beam': 'image',
  'thrown away': 'discard',
  'test injection': 'inject',
  'hand injection': 'inject',
  'hand run': 'image',
  'blown up': 'inflate',
  'blew up': 'inflate',
  'washed out': 'flush',
  'wash out': 'flush',
  'sucked out': 'aspirate',
  'drained off': 'aspirate',
  'taken off': 'remove',
  'took off': 'remove',
  'swapped out': 'exchange',
  'changed out': 'exchange',
  'switched out': 'exchange',
  'exchanged out': 'exchange',
  'swap out': 'exchange',
  'changed over': 'exchange',
  'changed up': 'exchange',
  'upsized up': 'exchange',
  'hooked up': 'setting',
  'connected up': 'setting',
  'put in': 'insert',
  'put through': 'insert',
  'went in': 'insert',
  'gone in': 'insert',
  'going in': 'insert',
  'goes in': 'insert',
  'let down': 'deflate',
  'closed with': 'deploy',
  'closed using': 'deploy',
  'sealed with': 'deploy',
};

export const acts: readonly (readonly [string, Entry])[] = [
  ...Object.entries(forms).flatMap(([act, words]) =>
    words
      .split(' ')
      .map((word): [string, Entry] => [
        word,
        { role: 'act', act: act as Act, doing: /ing$|^goes$/.test(word) },
      ]),
  ),
  ...Object.entries(longForms).map(([words, act]): [string, Entry] => [
    words,
    { role: 'act', act, doing: /^(?:\w+ing|goes)\b/.test(words) },
  ]),
];
