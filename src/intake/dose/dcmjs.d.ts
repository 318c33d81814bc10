/** What is used of dcmjs, which comes without types. */
declare module 'dcmjs' {
  /** One element: `_rawValue` keeps the text of a string element as it stands, digits included. */
  interface DicomElement {
    readonly vr: string;
    readonly Value?: readonly unknown[];
    readonly _rawValue?: unknown;
  }
  interface Library {
    readonly log: {
      setLevel(level: 'silent', persist: false): void;
      getLoggers(): Readonly<Record<string, { setLevel(level: 'silent', persist: false): void }>>;
    };
    readonly data: {
      readonly DicomMessage: {
        /** @throws Error of any kind for bytes that it cannot read. */
        readFile(buffer: ArrayBuffer): { readonly dict: Readonly<Record<string, DicomElement>> };
      };
    };
  }
  const library: Library;
  export default library;
}
