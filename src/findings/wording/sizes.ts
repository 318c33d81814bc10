import { COMMON_PRACTICE, define } from '../define.js';

const LUMEN = 'geometry; sizes as stated (1 Fr = 1/3 mm, 1 in = 25.4 mm), needles by the gauge chart';
const EXCHANGE = 'textbook rule, from memory: device length, length inside and a length to hold by';

/** Wording of the findings about sizes; each can be acknowledged with a reason. */
export const sizeWording = define({
  'size.wire-too-big': {
    severity: 'warning',
    message: 'At {time} {wire} is {wireSize} thick; {device} takes {lumen}.',
    remedy: 'Mend the size that is wrong or name the wire that was used; acknowledge it if it did pass.',
    basis: LUMEN,
  },
  'size.wire-undersized': {
    severity: 'warning',
    message: 'At {time} {device}, made for {lumen}, goes over {wire} of {wireSize}: it is little supported.',
    remedy: 'Record the inner catheter or the other wire if there was one, or acknowledge.',
    basis: 'common practice, no source: below two thirds of the lumen the tip leaves a step',
  },
  'size.wire-system': {
    severity: 'warning',
    message:
      'At {time} {device}, made for wires of {lumen}, goes over {wire} of {wireSize}: another wire system.',
    remedy:
      'Record the change of wire, or the inner catheter that fits it; acknowledge if it went as written.',
    basis: COMMON_PRACTICE,
  },
  'size.device-too-big': {
    severity: 'warning',
    message: 'At {time} {device} is {size} thick; {host} takes {lumen}.',
    remedy: 'Mend the size that is wrong or name what it went through; acknowledge if it did pass.',
    basis: LUMEN,
  },
  'size.inner-short': {
    severity: 'warning',
    message:
      'At {time} {device}, {length} long, goes through {host}, which is {hostLength} long: it cannot come out at its end.',
    remedy: 'Mend the length that is wrong or name what it went through; acknowledge if it did come out.',
    basis: 'geometry',
  },
  'size.tract-small': {
    severity: 'information',
    message:
      'At {time} {device} of {size} goes over {wire}; the widest dilator recorded before it, {dilator}, has {dilated}.',
    remedy: 'Record the wider dilator if there was one, or mend the size that is wrong.',
    basis: 'common practice, no source: the last dilator is as wide as the drain, or at most 2 Fr less',
  },
  'size.wire-too-short': {
    severity: 'warning',
    message:
      'At {time} {device} {way} over {wire}: {sum} makes {needed}, the wire has {length}, {short} too short to keep its place.',
    remedy: 'Use or record a longer wire or an extension; acknowledge if the position was kept or given up.',
    basis: EXCHANGE,
  },
  'size.wire-perhaps-short': {
    severity: 'information',
    message:
      'At {time} {device} {way} over {wire}. How far it lay inside is not recorded; by an estimate from usual lengths {needed} are needed to keep the place, and the wire has {length}.',
    remedy: 'Add depth to the event that put the wire in; use or record a longer wire if it is too short.',
    basis: 'from memory: about half of a device lies inside; confirm against local policy',
  },
  'size.sheath-trapped': {
    severity: 'warning',
    message:
      'At {time} {sheath} comes out while {device} stays inside it; it does not peel away and cannot pass the hub.',
    remedy:
      'Record the peel-away sheath, or that the two came out together; acknowledge if the hub comes off.',
    basis: COMMON_PRACTICE,
  },
  'size.wire-occupied': {
    severity: 'warning',
    message: 'At {time} {device} goes over {wire} while {other} is still on it.',
    remedy: 'Add the removal of {other} before that, or say that the other goes through it.',
    basis: COMMON_PRACTICE,
  },
  'size.over-pressure': {
    severity: 'warning',
    message: '{device} is inflated to {pressure} at {time}; it is rated for {rated}.',
    remedy: 'Mend the pressure, or acknowledge with the reason.',
    basis: 'the rated burst pressure on the label',
  },
  'size.deeper-than-long': {
    severity: 'warning',
    message: 'At {time} {device} is recorded {depth} inside; it is {length} long.',
    remedy: 'Mend the depth or the length.',
    basis: 'geometry',
  },
  'size.oversize': {
    severity: 'warning',
    message: '{device} opened to {open} in {target}, which is {diameter} beside it: {percent} of it.',
    remedy: 'Mend the size or the measurement, or acknowledge with the reason.',
    basis:
      'common practice, no source: balloons up to 120 %, stents up to 130 % of the diameter beside; in a carotid artery self-expanding stents up to 200 %',
  },
  'size.undersize': {
    severity: 'warning',
    message: '{device} opened to {open} in {target}, which is {diameter} beside it: {percent} of it.',
    remedy: 'Mend the size or the measurement, or acknowledge with the reason.',
    basis:
      'common practice, no source: the largest balloon at least 80 %, a stent at least 100 % of the diameter beside; balloons in a carotid artery are not judged',
  },
  'size.stent-short': {
    severity: 'warning',
    message:
      'With {device} {covered} of stent lie in {target}, whose lesion is {length} long: it is not covered.',
    remedy: 'Mend a length, record the second stent, or acknowledge with the reason.',
    basis: COMMON_PRACTICE,
  },
  'size.balloon-short': {
    severity: 'warning',
    message: 'With {device} {covered} of balloon were inflated in {target}, whose lesion is {length} long.',
    remedy: 'Record each inflation, mend a length, or acknowledge with the reason.',
    basis: COMMON_PRACTICE,
  },
  'size.ureteric-short': {
    severity: 'warning',
    message: '{device} is {length} long; the ureter measured {measured}.',
    remedy: 'Mend the length or the measurement, or acknowledge with the reason.',
    basis: COMMON_PRACTICE,
  },
  'size.ureteric-long': {
    severity: 'warning',
    message: '{device} is {length} long; the ureter measured {measured}, more than 4 cm less.',
    remedy: 'Mend the length or the measurement, or acknowledge with the reason.',
    basis: COMMON_PRACTICE,
  },
  'size.shaft-short': {
    severity: 'warning',
    message: 'The shaft of {device} is {shaft} long; the way from access to {target} is {way}, {short} more.',
    remedy: 'Mend the length or the distance, or name the balloon that reached it.',
    basis: 'geometry',
  },
});
