import { createHash } from 'node:crypto';
import { appendFileSync, existsSync, mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Oracle, Question, Verdict } from './oracle.js';

const folder = join(import.meta.dirname, '../.cache');

/** Answers from verdicts kept on disk where the same text was judged by the same version before. */
export function keeping(oracle: Oracle): Oracle {
  const { version } = oracle;
  if (version === undefined) return oracle;
  const file = join(folder, `${oracle.name.replace(/\W+/g, '-')}-${version}.ndjson`);
  const kept = read(file);
  const ask: Oracle['ask'] = async (questions, progress) => {
    const open = new Map<string, Question>();
    for (const question of questions) {
      const key = keyOf(question);
      if (!kept.has(key)) open.set(key, question);
    }
    const keys = [...open.keys()];
    // In batches, so that an interrupted run keeps what it has.
    for (let from = 0; from < keys.length; from += 200) {
      const batch = keys.slice(from, from + 200);
      const asked = batch.map(key => open.get(key)).filter(question => question !== undefined);
      const verdicts = await oracle.ask(asked, done => progress(from + done));
      mkdirSync(folder, { recursive: true });
      appendFileSync(
        file,
        verdicts.map((verdict, i) => `${JSON.stringify({ key: batch[i], verdict })}\n`).join(''),
      );
      verdicts.forEach((verdict, i) => {
        kept.set(batch[i] ?? '', verdict);
      });
    }
    return questions.map(question => kept.get(keyOf(question)) ?? { issues: [], failure: 'no answer' });
  };
  return { ...oracle, ask };
}

function keyOf(question: Question): string {
  const hash = createHash('sha256')
    .update(JSON.stringify(question.profiles))
    .update('\n')
    .update(question.text);
  return hash.digest('base64url').slice(0, 24);
}

function read(file: string): Map<string, Verdict> {
  const kept = new Map<string, Verdict>();
  if (!existsSync(file)) return kept;
  for (const line of readFileSync(file, 'utf8').split('\n')) {
    if (line === '') continue;
    const { key, verdict } = JSON.parse(line) as { key: string; verdict: Verdict };
    kept.set(key, verdict);
  }
  return kept;
}
