/** Codes of errors that are not about clinical input: a broken environment or a programmer's mistake. */
export type ErrorCode =
  | 'definitions-missing'
  | 'definitions-unreadable'
  | 'file-unreadable'
  | 'file-unwritable'
  | 'optional-package-missing'
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
