/** Reads what a secret reference points at: `env:NAME` or `file:PATH`; undefined when there is nothing. */
export interface SecretSource {
  (reference: string): string | undefined;
  /** Where a reference leads, in words that may be shown: the whole path of a file. */
  readonly where?: (reference: string) => string;
}

/** A secret is only ever named by where it is. */
export const SECRET_REFERENCE = /^(env:[A-Za-z_][A-Za-z0-9_]*|file:.+)$/;

/**
 * A secret source over an environment and a file reader, both given by the edge. A file's last line break is
 * not part of the secret, for editors put it there. An empty secret counts as absent.
 *
 * @param readFile gives the text of a file, or undefined when it cannot be read.
 * @param whole the whole path of a file.
 */
export function secretSource(
  env: Readonly<Record<string, string | undefined>>,
  readFile: (path: string) => string | undefined,
  whole: (path: string) => string = path => path,
): SecretSource {
  const fileOf = (reference: string) => whole(reference.slice('file:'.length));
  const read = (reference: string) => {
    const text = reference.startsWith('env:')
      ? env[reference.slice('env:'.length)]
      : readFile(fileOf(reference))?.replace(/\r?\n$/, '');
    return text === '' ? undefined : text;
  };
  return Object.assign(read, {
    where: (reference: string) =>
      reference.startsWith('env:') ? `the variable ${reference.slice('env:'.length)}` : fileOf(reference),
  });
}
