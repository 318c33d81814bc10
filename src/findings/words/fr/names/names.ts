import type { Names } from '../../language.js';
import { cases } from './cases.js';
import { closingDevices } from './devices-closing.js';
import { openingDevices } from './devices-opening.js';
import { firstDrugs } from './drugs-first.js';
import { moreDrugs } from './drugs-more.js';
import { parts } from './parts.js';
import { places } from './places.js';
import { values } from './values.js';

/** Names of the trade tables. */
export const names: Names = {
  devices: { ...openingDevices, ...closingDevices },
  parts,
  drugs: { ...firstDrugs, ...moreDrugs },
  values,
  cases,
  places,
};
