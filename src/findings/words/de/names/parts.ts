import { names } from '../../language.js';

/** Teile von Medizinprodukten. Aus dem Gedächtnis. */
export const parts = names(`
retention thread: m Haltefaden
locking thread: m Haltefaden
thread: m Faden
tether: m Zugfaden
hook: m Haken
hub: m Ansatz
peel-away half: f Schleusenhälfte
tip: f Spitze
fragment: n Fragment
wire tip: f Drahtspitze
delivery catheter: m Einführkatheter
delivery balloon: m Trägerballon
delivery wire: m Einführdraht
retention balloon: m Halteballon
balloon: m Ballon
stylet: m Mandrin
cuff: f Muffe
sheath: f Hülle
cap: f Kappe
`);
