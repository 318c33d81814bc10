/** Reads what a secret reference points at: `env:NAME` or `file:PATH`; undefined when there is nothing. */
export type SecretSource = (reference: string) => string | undefined;

/** A secret is only ever named by where it is. */
export const SECRET_REFERENCE = /^(env:[A-Za-z_][A-Za-z0-9_]*|file:.+)$/;

/**
 * A secret source over an environment and a file reader, both given by the edge. A file's last line break is
 * not part of the secret, for editors put it there. An empty secret counts as absent.
 *
 * @param readFile gives the text of a file, or undefined when it cannot be read.
 */
export function secretSource(
  env: Readonly<Record<string, string | undefined>>,
  readFile: (path: string) => string | undefined,
): SecretSource {
  return reference => {
    const text = reference.startsWith('env:')
      ? env[reference.slice('env:'.length)]
      : readFile(reference.slice('file:'.length))?.replace(/\r?\n$/, '');
    return text === '' ? undefined : text;
  };
}
