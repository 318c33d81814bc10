import { say } from '../findings/say.js';
import { parseCase } from '../record/parse.js';
import { pathSegments } from '../record/path.js';
import { readText } from '../record/read.js';
import { sourceLines } from './lines.js';
import { inline } from './write/render.js';
import type { Remark } from './write/splice.js';

/** What a new record is begun with: typed by whoever begins it. */
export interface Beginning {
  /** Number of the case. */
  readonly id?: string | undefined;
  /** Day of the case, `YYYY-MM-DD`. */
  readonly date?: string | undefined;
}

/** The first lines of a new record, in YAML. */
export function beginRecord({ id, date }: Beginning): string {
  const fields = { ...(id !== undefined && { id }), ...(date !== undefined && { date }) };
  const lines = Object.entries(fields).map(([name, value]) => `  ${name}: ${inline(value, 'braces')}\n`);
  return `# What is still open stands behind "open:"; casetally check says whether all is there.\ncasetally: 1\n${
    lines.length > 0 ? `case:\n${lines.join('')}` : ''
  }`;
}

/** What a new record still lacks, as remarks for who fills it in: fields that it cannot do without, devices of kits. */
export function openRemarks(text: string, timeZone?: string): Remark[] {
  const { findings } = parseCase(text, timeZone === undefined ? {} : { timeZone });
  const missing = findings
    .filter(({ code }) => code === 'record.missing')
    .map(({ path, params }): Remark => {
      const [section] = pathSegments(path);
      return { section: String(section), text: `open: ${path}: ${say(params['expected'] ?? '')}` };
    });
  const kits = sourceLines(readText(text).tree).filter(
    line => line.from === 'kit' && line.path[0] === 'devices',
  );
  const device: Remark = {
    section: 'devices',
    text: 'open: each device from a kit: its events, or use: unopened, opened unused or failed',
  };
  return [...missing, ...(kits.length > 0 ? [device] : [])];
}
