import type { Act, Entry } from './entry.js';

/** Forms of verbs, parted by blanks; a form in -ing tells of something not yet done. Common practice, no source. */
const forms: Readonly<Record<Act, string>> = {
  insert:
    'insert inserted inserts inserting place placed places placing introduce introduced introducing pass passed passing ' +
    'feed fed feeding thread threaded threading put railroad',
  advance:
    'advance advanced advances advancing readvance readvanced push pushed pushing negotiate negotiated positioned parked seated sited',
  withdraw: 'withdraw withdrew withdrawn withdrawing retract retracted retracting',
  remove: 'remove removed removes removing extract extracted extubate',
  pull: 'pull pulled pulling drew draw drawn',
  move: 'take took taken taking bring brought bringing come came comes coming go went gone goes going get got slid',
  exchange:
    'exchange exchanged exchanging swap swapped swapping change changed changing replace replaced replacing upsize ' +
    'upsized upsizing downsize downsized switch switched',
  inflate:
    'inflate inflated inflating inflation dilate dilated dilating dilatation dilation predilate predilated predilatation ' +
    'postdilate postdilated postdilatation ballooned angioplasty angioplastied plastied reinflate reinflated',
  deflate: 'deflate deflated deflating deflation',
  deploy: 'deploy deployed deploying deployment redeployed fired closed',
  release: 'release released releasing',
  detach: 'detach detached detaching',
  capture: 'capture captured capturing catch caught catching snared grabbed engaged',
  retrieve: 'retrieve retrieved retrieving',
  lock: 'lock locked locking relocked',
  unlock: 'unlock unlocked unlocking',
  flush: 'flush flushed flushing irrigate irrigated',
  aspirate: 'aspirate aspirated aspirating asp drained sucked aspiration',
  inject: 'inject injected injecting instilled infused injection',
  sample: 'biopsied sampled',
  puncture: 'puncture punctured puncturing stuck accessed',
  fix: 'fix fixed fixing suture sutured suturing stitch stitched sewn secure secured securing taped glued fixated',
  setting: 'clamp clamped capped spigotted spigoted',
  'peel away': 'peeled peeling',
  measure: 'measure measured measuring measures',
  ablate: 'ablate ablated ablating ablation',
  tunnel: 'tunnel tunnelled tunneled tunnelling',
  compress: 'compress compressed compression pressed pressing',
  cross: 'cross crossed crossing crosses recanalised recanalized',
  discard: 'discard discarded wasted binned',
  open: 'opened',
  cut: 'cut',
  reposition: 'reposition repositioned repositioning',
  image:
    'image imaged run runs dsa angiogram angiography angio cholangiogram nephrostogram fistulogram venogram cavogram ' +
    'tubogram sinogram pyelogram arteriogram aortogram cbct',
  count: 'counted',
  happened:
    'burst ruptured kinked formed coiled fractured broke broken snapped sheared migrated dislodged leaked jammed sent moved transferred',
  lost: 'lost lose dropped',
};

/** Verbs of several words. */
const longForms: Readonly<Record<string, Act>> = {
  'peeled away': 'peel away',
  'peeled off': 'peel away',
  'manual pressure': 'compress',
  'manual compression': 'compress',
  'held pressure': 'compress',
  'pressure held': 'compress',
  'pressure on': 'compress',
  'completion run': 'image',
  'check run': 'image',
  'cone beam ct': 'image',
  'thrown away': 'discard',
  'test injection': 'inject',
  'hand injection': 'inject',
};

export const acts: readonly (readonly [string, Entry])[] = [
  ...Object.entries(forms).flatMap(([act, words]) =>
    words
      .split(' ')
      .map((word): [string, Entry] => [word, { role: 'act', act: act as Act, doing: /ing$/.test(word) }]),
  ),
  ...Object.entries(longForms).map(([words, act]): [string, Entry] => [
    words,
    { role: 'act', act, doing: false },
  ]),
];
