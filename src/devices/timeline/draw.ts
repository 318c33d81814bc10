/** Attributes of an element; `false` and `undefined` are left out. */
export type Attributes = Readonly<Record<string, string | number | false | undefined>>;

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text for XML: entities for what has a meaning there, nothing for what XML 1.0 forbids. */
export function escapeXml(words: string): string {
  return (
    words
      // biome-ignore lint/suspicious/noControlCharactersInRegex: XML 1.0 forbids these characters
      .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g, '')
      .replace(/[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g, '')
      .replace(/[&<>"']/g, sign => ENTITIES[sign] ?? '')
  );
}

/** A coordinate: at most one decimal, so that the same input gives the same bytes everywhere. */
export function number(value: number): string {
  return String(Math.round(value * 10) / 10);
}

/** One element. Children are markup already. */
export function element(name: string, attributes: Attributes, children: readonly string[] = []): string {
  const written = Object.entries(attributes)
    .filter(([, value]) => value !== false && value !== undefined)
    .map(
      ([key, value]) => ` ${key}="${typeof value === 'number' ? number(value) : escapeXml(String(value))}"`,
    )
    .join('');
  return children.length === 0 ? `<${name}${written}/>` : `<${name}${written}>${children.join('')}</${name}>`;
}

/** Words at a place. */
export function text(
  x: number,
  y: number,
  words: string,
  style: { size: number; weight?: 'bold' | 'normal'; anchor?: 'start' | 'middle' | 'end' },
): string {
  const weight = style.weight === 'bold' && 'bold';
  const attributes = {
    x,
    y,
    'font-size': style.size,
    'font-weight': weight,
    'text-anchor': style.anchor,
    fill: '#111111',
  };
  return element('text', attributes, [escapeXml(words)]);
}

/** A whole picture on white paper, with title and description for who cannot see it; `defs` come before the paper. */
export function picture(
  about: { id: string; width: number; height: number; title: string; description: string },
  body: readonly string[],
  defs: readonly string[] = [],
): string {
  const { id, width, height, title, description } = about;
  const frame = {
    xmlns: 'http://www.w3.org/2000/svg',
    viewBox: `0 0 ${width} ${number(height)}`,
    width,
    height,
    role: 'img',
    'aria-labelledby': `${id}-title ${id}-desc`,
    'font-family': 'sans-serif',
  };
  return `${element('svg', frame, [
    element('title', { id: `${id}-title` }, [escapeXml(title)]),
    element('desc', { id: `${id}-desc` }, [escapeXml(description)]),
    ...defs,
    element('rect', { x: 0, y: 0, width, height, fill: '#ffffff' }),
    ...body,
  ])}\n`;
}

/** Cut to a number of characters, with a sign that it was. */
export function shortened(words: string, most: number): string {
  const signs = [...words];
  return signs.length <= most ? words : `${signs.slice(0, most - 1).join('')}…`;
}

/** Words in lines of at most so many characters. */
export function lines(words: string, most: number): string[] {
  const made: string[] = [];
  let line = '';
  for (const word of words.split(/\s+/)) {
    if (line !== '' && line.length + 1 + word.length > most) {
      made.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return line === '' ? made : [...made, line];
}
