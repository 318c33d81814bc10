import './without-eval.js';
import { type Engine, type EngineSettings, engineOf } from './work.js';

/* The thread of the page that works on texts: answers one call after the other. */

/** A call as it comes, and its answer as it goes. */
export type Call = { readonly id: number } & (
  | { readonly settings: EngineSettings }
  | { readonly name: keyof Engine; readonly with: readonly unknown[] }
);
export type Answered = { readonly id: number } & ({ readonly value: unknown } | { readonly fault: string });

let engine: Engine | undefined;

function answer(call: Call): unknown {
  if ('settings' in call) {
    engine = engineOf(call.settings);
    return undefined;
  }
  if (!engine) throw new Error('no settings yet');
  return (engine[call.name] as (...given: readonly unknown[]) => unknown)(...call.with);
}

addEventListener('message', ({ data }: MessageEvent<Call>) => {
  const { id } = data;
  try {
    postMessage({ id, value: answer(data) } satisfies Answered);
  } catch (error) {
    postMessage({ id, fault: error instanceof Error ? error.message : 'a fault' } satisfies Answered);
  }
});
