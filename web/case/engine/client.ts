import type { Answered, Call } from './thread.js';
import type { Engine, EngineCalls, EngineSettings } from './work.js';

type Waiting = { readonly resolve: (value: never) => void; readonly reject: (error: Error) => void };

/** Starts the thread. Calls that come before it is there wait for it. */
export function startEngine(worker: Worker, settings: EngineSettings): EngineCalls {
  const waiting = new Map<number, Waiting>();
  let calls = 0;
  const ask = <T>(call: Record<string, unknown>): Promise<T> =>
    new Promise<T>((resolve, reject) => {
      calls += 1;
      waiting.set(calls, { resolve, reject });
      worker.postMessage({ id: calls, ...call } as unknown as Call);
    });
  worker.addEventListener('message', ({ data }: MessageEvent<Answered>) => {
    const one = waiting.get(data.id);
    waiting.delete(data.id);
    if ('fault' in data) one?.reject(new Error(data.fault));
    else one?.resolve(data.value as never);
  });
  worker.addEventListener('error', () => {
    for (const one of waiting.values()) one.reject(new Error('the thread of the page ended'));
    waiting.clear();
  });
  void ask({ settings });
  const call =
    <Name extends keyof Engine>(name: Name) =>
    (...given: Parameters<Engine[Name]>) =>
      ask<Awaited<ReturnType<Engine[Name]>>>({ name, with: given });
  return {
    ...{ look: call('look'), check: call('check'), edit: call('edit') },
    ...{ merge: call('merge'), between: call('between'), compare: call('compare') },
    ...{ scan: call('scan'), line: call('line'), fields: call('fields') },
  };
}
