/** Reference libraries without types of their own; only what the checks call. */
declare module '@lhncbc/ucum-lhc' {
  interface Conversion {
    readonly status: string;
    readonly toVal: number | null;
    readonly msg: readonly string[];
  }
  const ucum: {
    readonly UcumLhcUtils: {
      getInstance(): { convertUnitTo(from: string, value: number, to: string): Conversion };
    };
  };
  export default ucum;
}
declare module 'jstat' {
  const library: {
    readonly jStat: {
      readonly normal: { inv(p: number, mean: number, sd: number): number };
      readonly beta: { inv(p: number, a: number, b: number): number };
      readonly ibeta: (x: number, a: number, b: number) => number;
    };
  };
  export default library;
}
