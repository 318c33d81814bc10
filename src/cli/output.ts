import colors from 'picocolors';
import type { Severity } from '../findings/define.js';
import { type Finding, findingRows, messageOf, remedyOf } from '../findings/finding.js';
import { withFollowing } from '../findings/harm.js';

/** Where a command writes: injected, so that tests read what a person would see. */
export interface Output {
  /** Results. */
  out(text: string): void;
  /** Results that are no text; absent where a person looks at a terminal. */
  bytes?(bytes: Uint8Array): void;
  /** Everything else. */
  err(text: string): void;
  readonly color: boolean;
}

/** The process's own streams; colours only where a person looks at a terminal. */
export function processOutput(): Output {
  return {
    out: text => void process.stdout.write(text),
    ...(process.stdout.isTTY !== true && { bytes: (data: Uint8Array) => void process.stdout.write(data) }),
    err: text => void process.stderr.write(text),
    color: process.stdout.isTTY === true && colors.isColorSupported,
  };
}

/** Lines of the findings of one file: `file:line:column severity code`, message, remedy. */
export function findingLines(findings: readonly Finding[], file: string, color: boolean): string {
  const paint = colors.createColors(color);
  const mark: Record<Severity, (text: string) => string> = {
    fatal: text => paint.red(paint.bold(text)),
    error: paint.red,
    warning: paint.yellow,
    information: paint.dim,
  };
  return withFollowing(findings)
    .map(({ finding: f, following }) => {
      const place = f.line === undefined ? file : `${file}:${f.line}:${f.column ?? 1}`;
      const accepted = f.acknowledged ? `\n    accepted: ${f.acknowledged.reason}` : '';
      const path = f.path === '' ? '' : `  ${paint.dim(f.path)}`;
      const more = following.map(({ code, path: at }) => `      ${paint.dim(`${code}  ${at}`)}\n`).join('');
      const folded = more && `    what follows from it, and goes with it:\n${more}`;
      const basis = f.severity === 'information' ? '' : `\n    ${paint.dim(`basis: ${f.basis}`)}`;
      return `${place}  ${mark[f.severity](f.severity)}  ${f.code}${path}\n    ${messageOf(f)}\n    ${paint.cyan('→')} ${remedyOf(f)}${accepted}${basis}\n${folded}`;
    })
    .join('');
}

/** `1 entry`, `2 entries`. */
export const counted = (n: number, one: string, many: string): string => `${n} ${n === 1 ? one : many}`;

/** `2 errors, 1 warning` or `no findings`; what follows from another is counted with it. */
export function countLine(findings: readonly Finding[]): string {
  const count = (severity: Severity[], one: string, many: string) => {
    const n = withFollowing(findings).filter(({ finding: f }) => severity.includes(f.severity)).length;
    return n === 0 ? [] : [counted(n, one, many)];
  };
  const parts = [
    ...count(['fatal', 'error'], 'error', 'errors'),
    ...count(['warning'], 'warning', 'warnings'),
    ...count(['information'], 'note', 'notes'),
  ];
  return parts.length === 0 ? 'no findings' : parts.join(', ');
}

/** Two-space JSON with a final newline; findings have their English text. */
export function jsonText(value: unknown): string {
  return `${JSON.stringify(value, findingRows, 2)}\n`;
}

/** Lays rows out in columns, first row as heading. */
export function table(rows: readonly (readonly string[])[]): string {
  const widths = (rows[0] ?? []).map((_, column) =>
    Math.max(...rows.map(row => [...(row[column] ?? '')].length)),
  );
  return rows
    .map(row =>
      row
        .map((cell, column) =>
          column === row.length - 1 ? cell : cell + ' '.repeat((widths[column] ?? 0) - [...cell].length),
        )
        .join('  ')
        .trimEnd(),
    )
    .map(line => `${line}\n`)
    .join('');
}
