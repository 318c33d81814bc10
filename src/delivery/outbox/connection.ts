/** Values of `$1`, `$2` and so on. */
export type Params = readonly (string | number | null)[];

/** One statement with its parameters. */
export interface Statement {
  readonly sql: string;
  readonly params: Params;
}

/** A transaction as steps: each yields a statement and is given its rows. */
export type Steps<T> = Generator<Statement, T, readonly Readonly<Record<string, unknown>>[]>;

/** A database as the outbox uses it. Whatever is fulfilled is durable. */
export interface Connection {
  /** One statement. With `lock`, those with the same lock run one after the other, in all processes. */
  run<Row>(statement: Statement, lock?: string): Promise<Row[]>;
  /**
   * Reads, and runs the statement that `then` makes of what was read, in one transaction; `then` may be called more
   * than once. @returns the rows of the second statement.
   */
  decide<Row>(
    read: Statement,
    then: (rows: readonly Row[]) => Statement | undefined,
    lock: string,
  ): Promise<Row[]>;
  /**
   * Runs steps in one transaction; `steps` may be called more than once. With the same lock, transactions run one after
   * the other, in all processes.
   */
  transact<T>(steps: () => Steps<T>, lock: string): Promise<T>;
  /** One statement that changes nothing. */
  read<Row>(sql: string, params?: Params): Promise<Row[]>;
  /** All rows of a table, in order, as far as they can be read. */
  rows<Row>(table: string): Promise<Row[]>;
  /** Gives back what was removed from tables, those of items unless others are named, so that its bytes are no longer in the store's files. */
  tidy(tables?: readonly string[]): Promise<void>;
  /** Where it is, in words that may be shown. */
  readonly place: string;
  /** What the database says of its own state; empty when it is whole. */
  integrity(): Promise<string[]>;
  close(): Promise<void>;
}
