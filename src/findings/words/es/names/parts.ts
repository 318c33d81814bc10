import { names } from '../../language.js';

/** Partes de productos. De memoria. */
export const parts = names(`
retention thread: m hilo de retención
locking thread: m hilo de bloqueo
thread: m hilo
tether: m hilo de tracción
hook: m gancho
hub: m conector
peel-away half: f mitad pelable
tip: f punta
fragment: m fragmento
wire tip: f punta de la guía
delivery catheter: m catéter de liberación
delivery balloon: m balón portador
delivery wire: m alambre de liberación
retention balloon: m balón de retención
balloon: m balón
stylet: m estilete
cuff: m manguito
sheath: f vaina
cap: m tapón
`);
