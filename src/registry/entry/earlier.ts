import type { DeviceSide } from '../../devices/place.js';
import type { DeviceDetails } from '../../devices/types.js';

/** What an earlier case told of a device that was carried in, where it is known for certain that it is the same. */
export interface EarlierDevice {
  /** Its key in that case, and of the part. */
  readonly device: string;
  readonly part?: string;
  readonly di?: string;
  readonly lot?: string;
  readonly serial?: string;
  readonly expires?: string;
  readonly maker?: string;
  readonly model?: string;
  readonly reference?: string;
  readonly side?: DeviceSide;
  /** When it was placed, as precise as it is known. */
  readonly placed?: string;
  /** Number of the case that placed it; absent where that is not known, or is none of the site's own. */
  readonly placedIn?: string;
}

/** A device with what an earlier case told of it. */
export function withEarlier(details: DeviceDetails, earlier: EarlierDevice | undefined): DeviceDetails {
  if (!earlier) return details;
  const known = (['di', 'lot', 'serial', 'expires', 'maker', 'model', 'reference'] as const).flatMap(part =>
    details[part] === undefined && earlier[part] !== undefined ? [[part, earlier[part]] as const] : [],
  );
  return { ...details, ...Object.fromEntries(known) };
}
