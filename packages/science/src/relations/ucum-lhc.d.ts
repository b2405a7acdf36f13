/** What the test of the units uses of it. */
declare module '@lhncbc/ucum-lhc' {
  const ucum: {
    readonly UcumLhcUtils: {
      readonly getInstance: () => {
        readonly convertUnitTo: (
          from: string,
          value: number,
          to: string,
        ) => { readonly status: string; readonly toVal: number | null };
      };
    };
  };
  export default ucum;
}
