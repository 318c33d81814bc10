import { NameTable } from '../names.js';
import { accessKinds } from './access.js';
import { catheterKinds } from './catheters.js';
import { closingKinds } from './closing.js';
import { drainKinds } from './drains.js';
import type { DeviceKind } from './kind.js';
import { openingKinds } from './opening.js';
import { otherKinds } from './other.js';

/** Kinds of device that need no further word. */
export const deviceKinds: readonly DeviceKind[] = [
  ...accessKinds,
  ...catheterKinds,
  ...openingKinds,
  ...drainKinds,
  ...closingKinds,
  ...otherKinds,
];

/** Words that may stand beside the name of any device: size, shape, material, side, and how it was used. */
export const deviceWords = {
  qualifiers:
    'fr french f ch g gauge cm mm in inch ml percutaneous transcutaneous image guided left right bilateral upper lower ' +
    'proximal distal first second third new old previous existing indwelling replacement spare initial final single ' +
    'use disposable sterile standard regular normal small large big short long thin fine curved angled straight ' +
    'bent shaped j tip tipped floppy soft steerable flexible rigid extra stiff hydrophilic coated uncoated teflon ptfe ' +
    'nitinol steel stainless metal metallic plastic polyurethane silicone braided reinforced echogenic radiopaque ' +
    'tapered end open closed hole sidehole side lumen double triple dual valved nonvalved power injectable cuffed ' +
    'noncuffed pigtail loop locking rapidexchange monorail over wire compliant noncompliant semicompliant high low ' +
    'pressure profile retrievable permanent removable temporary kidney biliary liver transplant native adult ' +
    'paediatric neonatal thinwall regularwall thick wall antegrade retrograde drugcoated drugeluting internal external ' +
    'covered uncovered selfexpanding selfexpandable self expanding expandable mounted set kit system device for x',
  cuts: 'with from using via through by and plus across over at',
} as const;

/** The built-in kinds by every name of theirs. */
export const deviceTable = new NameTable(deviceKinds, deviceWords);

/** Whether two texts name the same kind of device. */
export function sameDeviceKind(a: string, b: string): boolean {
  const row = deviceTable.find(a)?.row;
  return row !== undefined && row === deviceTable.find(b)?.row;
}
