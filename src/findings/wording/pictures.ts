import { define, RECORD_FORMAT } from '../define.js';

/** Wording of the findings about pictures that a record names. */
export const pictureWording = define({
  'picture.not-read': {
    severity: 'warning',
    message: 'The picture {file} cannot be read: {why}. The report shows only its name.',
    remedy: 'Put the file in its place in the folder of the case file, or mend its name.',
    basis: RECORD_FORMAT,
  },
  'picture.not-given': {
    severity: 'warning',
    message: 'The case came without the picture {file}. The report shows only its name.',
    remedy: 'Prepare the case where the picture lies beside its file, or leave the name out.',
    basis: RECORD_FORMAT,
  },
  'picture.outside': {
    severity: 'warning',
    message: 'The picture {file} is a link out of the folder of the case file, and was not read.',
    remedy: 'Put a copy of the picture into the folder.',
    basis: RECORD_FORMAT,
  },
  'picture.too-big': {
    severity: 'warning',
    message: 'The picture {file} has {found}; pictures of up to {limit} are read.',
    remedy: 'Export a smaller copy; the report shows at most {longest} pixels on the longer side.',
    basis: RECORD_FORMAT,
  },
  'picture.wrong-type': {
    severity: 'warning',
    message: 'The file {file} holds neither a JPEG nor a PNG picture, whatever its name says.',
    remedy: 'Export the picture as JPEG or PNG.',
    basis: 'ISO/IEC 10918-1, annex B; ISO/IEC 15948, section 5.2 (first bytes of the file)',
  },
  'picture.damaged': {
    severity: 'warning',
    message: 'The picture {file} cannot be decoded: {why}.',
    remedy: 'Export it anew as baseline JPEG of 8 bits, or as PNG that is neither interlaced nor animated.',
    basis: 'ISO/IEC 10918-1; ISO/IEC 15948',
  },
  'picture.too-many': {
    severity: 'warning',
    message: 'The picture {file} is number {number}; a report shows {limit}.',
    remedy: 'Name the pictures that the reader needs, and leave the others to the archive.',
    basis: RECORD_FORMAT,
  },
});
