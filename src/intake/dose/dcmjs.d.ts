/** What is used of dcmjs, which comes without types. */
declare module 'dcmjs' {
  interface Library {
    readonly log: {
      setLevel(level: 'silent', persist: false): void;
      getLoggers(): Readonly<Record<string, { setLevel(level: 'silent', persist: false): void }>>;
    };
    readonly data: {
      readonly DicomMessage: {
        /** @throws Error of any kind for bytes that it cannot read. */
        readFile(buffer: ArrayBuffer): { readonly dict: Readonly<Record<string, { readonly vr: string }>> };
      };
    };
  }
  const library: Library;
  export default library;
}
