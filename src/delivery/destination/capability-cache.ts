import { readFile, rename, writeFile } from 'node:fs/promises';

/** What a server said of itself, and when. */
export interface Statement {
  /** Milliseconds since the epoch. */
  readonly readAt: number;
  /** The CapabilityStatement as JSON text. */
  readonly text: string;
}

/** Keeps what servers say of themselves, by base address. */
export interface StatementStore {
  get(baseUrl: string): Promise<Statement | undefined>;
  put(baseUrl: string, statement: Statement): Promise<void>;
}

/** Keeps statements for the life of the process. */
export function statementsInMemory(): StatementStore {
  const kept = new Map<string, Statement>();
  return {
    get: async baseUrl => kept.get(baseUrl),
    put: async (baseUrl, statement) => void kept.set(baseUrl, statement),
  };
}

/**
 * Keeps statements in a file, replaced as a whole, so that the next process need not ask again. A file that cannot
 * be read or written costs a question to the server and nothing else.
 */
export function statementsInFile(path: string): StatementStore {
  const memory = statementsInMemory();
  const read = async (): Promise<Record<string, Statement>> => {
    try {
      const value: unknown = JSON.parse(await readFile(path, 'utf8'));
      if (typeof value !== 'object' || value === null) return {};
      return Object.fromEntries(Object.entries(value).filter(isStatementEntry));
    } catch {
      return {};
    }
  };
  return {
    get: async baseUrl => (await memory.get(baseUrl)) ?? (await read())[baseUrl],
    put: async (baseUrl, statement) => {
      await memory.put(baseUrl, statement);
      const draft = `${path}.${process.pid}.part`;
      try {
        const all = { ...(await read()), [baseUrl]: statement };
        await writeFile(draft, JSON.stringify(all), { mode: 0o600 });
        await rename(draft, path);
      } catch {
        // The statement is known to this process all the same.
      }
    },
  };
}

function isStatementEntry(entry: [string, unknown]): entry is [string, Statement] {
  const [, value] = entry;
  return (
    typeof value === 'object' &&
    value !== null &&
    'readAt' in value &&
    typeof value.readAt === 'number' &&
    'text' in value &&
    typeof value.text === 'string'
  );
}
