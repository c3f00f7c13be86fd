/** The demo ring as a spec to start from. Invented data: a two-person workshop, a heritage river ferry's engine. */
export const EXAMPLE_SPEC = `{
  // Ring for the 118 mm bore of a heritage river ferry's engine. Invented data, for the demo only.
  // A plain number is in mm, N or MPa; a string may carry another unit: "118 mm", "3.5 in", "18 thou", "22 psi".

  // Nominal bore diameter.
  "bore": "118 mm",

  // Gap between the parallel end faces, ring in the bore and cold. It must never close when hot.
  "closedGap": 0.45,

  // Wire section: radial wall thickness and axial height.
  "section": { "shape": "rectangle", "radialThickness": 4.4, "axialHeight": 2.0 },

  // Young's modulus; or a material by name, as in "material": "EN-GJS-500-7".
  // "stressLimit" is optional: a closing stress above it raises a warning.
  "material": { "youngsModulus": "205 GPa", "poissonRatio": 0.3 },

  // Exactly one of tangentialForce, contactPressure, freeGap.
  "load": { "contactPressure": 0.15 },

  // These have defaults: wanted pressure, theory ("curved" or "thin"), stations per half ring.
  "pressure": { "shape": "uniform" },
  "theory": "curved",
  "stations": 180
}
`;
