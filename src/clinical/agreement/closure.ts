import type { DeviceDetails } from '../../devices/types.js';
import { type Finding, finding } from '../../findings/finding.js';
import type { CaseRecord } from '../../record/schema/record.js';
import { fieldSides, share, sidesOf, sideWordsIn } from './side/words.js';

const byDevice =
  /\bclosure device\b|\bsuture-mediated\b|\bcollagen (?:plug|closure)\b|\bclosure (?:system|clip|plug)\b|\bvascular closure\b/i;
const byHand = /\b(?:manual|by hand|compress\w*|pressure|pressed)\b/i;
const besides = /\b(?:plug|clip|device|suture|stitch|after|then|and|with|plus)\b/i;
const notDevice = /\b(?:no|without|not|failed|instead of)\b/i;
const band = /\b(?:radial|compression|wrist|haemostasis) band\b|\btransradial\b/i;
const arm = /\b(?:radial|ulnar|brachial|wrist|snuffbox|arm|fistula|graft)\b/i;
const groin = /\b(?:femoral|groin|iliac|jugular|neck)\b/i;

/** How each way in was closed, against the devices and where the events used them. */
export function checkClosure(record: CaseRecord, devices: ReadonlyMap<string, DeviceDetails>): Finding[] {
  const closers = [...devices.values()].filter(
    ({ family, row, kind, entry }) =>
      family === 'closure' &&
      !/\b(?:suture|stitch)\b(?!-)/i.test(row ?? kind) &&
      entry.use !== 'unopened' &&
      entry.use !== 'opened unused',
  );
  return (record.access ?? []).flatMap(({ key, site, side, closure }, i) => {
    if (closure === undefined) return [];
    const differs = () => [
      finding('clinical.closure-differs', `access[${i}].closure`, { closure, site: site.text }),
    ];
    if (band.test(closure) && groin.test(site.text) && !arm.test(site.text)) return differs();
    if (byHand.test(closure) && !byDevice.test(closure) && !besides.test(closure)) {
      // A plug that lies in this hole closed it, whatever was pressed beside it.
      const lies = (record.events ?? []).some(
        ({ device, access, do: verb, result, note }) =>
          access === key &&
          (verb === 'deploy' || verb === 'insert' || verb === 'release') &&
          closers.some(closer => closer.key === device) &&
          !/\b(?:fail\w*|not|slipped|pulled out)\b/i.test(`${result ?? ''} ${note ?? ''}`),
      );
      return lies ? differs() : [];
    }
    if (!byDevice.test(closure) || notDevice.test(closure)) return [];
    if (closers.length === 0) return differs();
    const own = new Set([...fieldSides(side), ...sidesOf(sideWordsIn(site.text))]);
    const used = (record.events ?? []).filter(
      event =>
        closers.some(closer => closer.key === event.device) &&
        (event.access !== undefined || event.into !== undefined),
    );
    const here = used.some(event => {
      if (event.access !== undefined) return event.access === key;
      const sides = sidesOf(sideWordsIn(event.into?.text ?? ''));
      return sides.size === 0 || own.size === 0 || share(sides, own);
    });
    return used.length === 0 || here ? [] : differs();
  });
}
