declare module 'text-readability' {
  const readability: {
    /** Flesch-Kincaid grade. */
    fleschKincaidGrade(text: string): number;
  };
  export default readability;
}
