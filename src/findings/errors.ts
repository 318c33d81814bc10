/** Codes of errors that are not about clinical input: a broken environment or a programmer's mistake. */
export type ErrorCode =
  | 'definitions-missing'
  | 'definitions-unreadable'
  | 'file-unreadable'
  | 'file-unwritable'
  | 'optional-package-missing'
  | 'outbox-away'
  | 'outbox-damaged'
  | 'outbox-full'
  | 'outbox-key'
  | 'outbox-read-only'
  | 'outbox-unreadable'
  | 'port-in-use'
  | 'settings-invalid'
  | 'template-broken'
  | 'template-missing'
  | 'usage';

/**
 * The one error class that Casetally throws. Messages name what, where and how to mend it, and never
 * carry patient data, tokens or headers.
 */
export class CasetallyError extends Error {
  override readonly name = 'CasetallyError';
  readonly code: ErrorCode;

  constructor(code: ErrorCode, message: string, options?: { cause?: unknown }) {
    super(message, options);
    this.code = code;
  }
}

/** Says why a file operation failed, in words. */
export function reason(error: unknown): string {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  return (
    {
      ENOENT: 'there is no such file or folder',
      EACCES: 'permission denied',
      EPERM: 'permission denied',
      EISDIR: 'it is a folder',
      ENOTDIR: 'a part of the path is not a folder',
      ENOSPC: 'the disk is full',
      EROFS: 'the disk is read-only',
      EEXIST: 'it exists already',
      ENOTEMPTY: 'the folder is not empty',
    }[code] ??
    (code || 'unknown reason')
  );
}
