/** The part of the UCUM library that the tests of units use; the package ships no types. */
declare module '@lhncbc/ucum-lhc' {
  interface Ucum {
    validateUnitString(code: string): { readonly status: string; readonly ucumCode: string | null };
    convertUnitTo(
      from: string,
      value: number,
      to: string,
    ): { readonly status: string; readonly toVal: number | null };
  }
  const library: { readonly UcumLhcUtils: { getInstance(): Ucum } };
  export default library;
}
