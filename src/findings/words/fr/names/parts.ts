import { names } from '../../language.js';

/** Parties de dispositifs. De mémoire. */
export const parts = names(`
retention thread: m fil de rétention
locking thread: m fil de verrouillage
thread: m fil
tether: m fil de traction
hook: m crochet
hub: f embase
peel-away half: f moitié pelable
tip: f extrémité
fragment: m fragment
wire tip: f extrémité du guide
delivery catheter: m cathéter de largage
delivery balloon: m ballonnet porteur
delivery wire: m fil de largage
retention balloon: m ballonnet de rétention
balloon: m ballonnet
stylet: m mandrin
cuff: m manchon
sheath: f gaine
cap: m bouchon
`);
