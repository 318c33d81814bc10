import { CasetallyError } from '../../findings/errors.js';
import { type Finding, finding } from '../../findings/finding.js';
import type { CaseRecord } from '../../record/schema/record.js';
import type { PictureItem, ReportView } from '../view/model.js';

/** A picture made fit for a report: small, and without anything but its pixels. */
export interface StoredPicture {
  /** A JPEG file without metadata. */
  readonly jpeg: Uint8Array;
  /** In pixels. */
  readonly width: number;
  readonly height: number;
}

/** Pictures by the path of the image in the record: `images[0]`. */
export type StoredPictures = ReadonlyMap<string, StoredPicture>;

/** Pictures that were read for a record, and what there is to say of those that were not. */
export interface ReadPictures {
  readonly pictures: StoredPictures;
  readonly findings: readonly Finding[];
}

/** A picture with its words. */
export interface ShownPicture extends PictureItem {
  readonly picture: StoredPicture;
}

/** The pictures that a report shows, in the order of the record. */
export function shownPictures(view: ReportView, pictures: StoredPictures = new Map()): ShownPicture[] {
  return view.pictures.flatMap(item => {
    const picture = pictures.get(item.key);
    return picture ? [{ ...item, picture: checked(picture) }] : [];
  });
}

/** A JPEG begins with SOI and another marker (ISO/IEC 10918-1, annex B.2.1). */
function checked(picture: StoredPicture): StoredPicture {
  const [a, b, c] = picture.jpeg;
  if (a === 0xff && b === 0xd8 && c === 0xff && picture.width > 0 && picture.height > 0) return picture;
  throw new CasetallyError('usage', 'A picture for a report is no JPEG; pictures come from readPictures.');
}

/** What reading said, and which pictures that the record names nobody gave. */
export function pictureFindings(record: CaseRecord, read: ReadPictures | undefined): Finding[] {
  const said = new Set(read?.findings.map(({ path }) => path));
  const missing = (record.images ?? []).flatMap(({ file }, index) => {
    const [key, path] = [`images[${index}]`, `images[${index}].file`];
    const known = file === undefined || said.has(path) || read?.pictures.has(key);
    return known ? [] : [finding('picture.not-given', path, { file })];
  });
  return [...(read?.findings ?? []), ...missing];
}
