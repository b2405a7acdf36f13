/** The part of quadprog 1.6.1 that the tests use; arrays count from 1. */
declare module 'quadprog' {
  const quadprog: {
    readonly solveQP: (
      quadratic: number[][],
      linear: number[],
      constraints: number[][],
      least: number[],
    ) => { readonly solution: number[]; readonly message: string };
  };
  export default quadprog;
}
