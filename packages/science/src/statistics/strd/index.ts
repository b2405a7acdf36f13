/** Data that any least squares can be held against, with certified values: NIST/ITL StRD. */
export { linearSets } from './linear.ts';
export { nonlinearSets } from './nonlinear.ts';
