/** JCGM 100:2008, H.1: end gauge of 50 mm against a standard; nm, degrees, 1/K (some inputs from memory). */
export const gauge = ([ls, d, alpha, theta, dAlpha, dTheta]: readonly number[]) =>
  ls + d - ls * (dAlpha * theta + alpha * dTheta);
export const quantities = [
  { value: 50_000_623, sd: 25, degrees: 18 },
  { value: 215, sd: 9.7, degrees: 25.6 },
  { value: 11.5e-6, sd: 1.2e-6 },
  { value: -0.1, sd: 0.41 },
  { value: 0, sd: 0.58e-6, degrees: 50 },
  { value: 0, sd: 0.029, degrees: 2 },
];
