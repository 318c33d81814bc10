import { SaxesParser } from 'saxes';
import { CasetallyError } from '../../findings/errors.js';

/** Elements that pictures of ours are drawn with. */
const ELEMENTS: ReadonlySet<string> = new Set('svg g title desc defs pattern rect path text'.split(' '));

export interface PictureNode {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: PictureNode[];
  text: string;
}

/** A drawing as it goes into a page, and as what it is made of. */
export interface Picture {
  readonly svg: string;
  readonly root: PictureNode;
  readonly width: number;
  readonly height: number;
  /** Its title and description: what stands for it where it cannot be seen. */
  readonly words: string;
}

/**
 * Reads SVG that Casetally drew. Anything but plain shapes and text, and anything that refers to what is outside, is a
 * fault of the program.
 */
export function readPicture(svg: string): Picture {
  const top: PictureNode = { name: '', attributes: {}, children: [], text: '' };
  const open: PictureNode[] = [top];
  const parser = new SaxesParser();
  parser.on('error', error => refusePicture(error.message));
  parser.on('doctype', () => refusePicture('it has a document type'));
  parser.on('processinginstruction', () => refusePicture('it has a processing instruction'));
  parser.on('opentag', tag => {
    const attributes: Record<string, string> = { ...tag.attributes };
    if (open.length === 1 && tag.name !== 'svg') refusePicture('it does not start with an svg element');
    if (!ELEMENTS.has(tag.name)) refusePicture(`it has a ${tag.name} element`);
    for (const [name, value] of Object.entries(attributes)) {
      if (/^on/i.test(name)) refusePicture(`it has a handler ${name}`);
      if (/href$/i.test(name)) refusePicture('it has a link');
      if (/url\s*\(\s*['"]?(?!#)/i.test(value)) refusePicture('it refers to something outside');
    }
    const node: PictureNode = { name: tag.name, attributes, children: [], text: '' };
    open.at(-1)?.children.push(node);
    open.push(node);
  });
  parser.on('text', text => {
    const node = open.at(-1);
    if (node) node.text += text;
  });
  parser.on('closetag', () => open.pop());
  parser.write(svg).close();
  const root = top.children[0] ?? refusePicture('it is empty');
  const words = ['title', 'desc'].flatMap(name =>
    root.children.filter(child => child.name === name).map(child => child.text),
  );
  const { attributes } = root;
  return {
    svg,
    root,
    width: numberOf(attributes, 'width'),
    height: numberOf(attributes, 'height'),
    words: words.join(' '),
  };
}

export function refusePicture(why: string): never {
  throw new CasetallyError('usage', `A picture cannot go into a report: ${why}.`);
}

/** A number among the attributes; 0 where it is not given. */
export function numberOf(attributes: PictureNode['attributes'], name: string): number {
  const value = Number(attributes[name] ?? 0);
  return Number.isFinite(value) ? value : refusePicture(`${name} is no number`);
}
