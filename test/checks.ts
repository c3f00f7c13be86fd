/** What others wrote that the product is checked against, in the order of docs/checks.md. */

interface Check {
  readonly title: string;
  /** Author, title, edition, place; how sure it is. */
  readonly source: string;
  /** Test file. */
  readonly test: string;
  /** Unit of the figures where they are no shares. */
  readonly unit?: string;
}

export const CHECKS = {
  "anger-weber": {
    title: "Free shape of the thin ring without a gap, K from 0.001 to 0.3",
    source: "Anger's and Weber's functions, NIST DLMF 11.10.1–2, by mpmath at 40 digits",
    test: "test/anger-weber.test.ts",
  },
  "small openings": {
    title: "Coefficients of the handbook formulas, as limits for small openings",
    source:
      "Handbook formulas p = E·a³·m/[7.07·d·(d − a)³] and Ft (from memory); Timoshenko, Strength of Materials I (from memory); Zeynetdinov, Dyakov & Yarygin, eq. (4.79)",
    test: "test/handbook.test.ts",
  },
  unwin: {
    title: "Unwin's ring of 17e6 psi: the stress of 5000 psi at a = 0.069·r, three digits printed",
    source: "W. C. Unwin, Elements of Machine Design II",
    test: "test/handbook.test.ts",
  },
  "constant curvature": {
    title: "The wall that makes a ring round when free",
    source: "W. C. Unwin, Elements of Machine Design II: a ∝ sin^(2/3)(φ/2)",
    test: "test/varying-wall.test.ts",
  },
  "pear-shaped": {
    title: "A printed table of pressures as samples",
    source: "Zeynetdinov, Dyakov & Yarygin; integrals by scipy",
    test: "test/pressure.test.ts",
  },
  "curved bar": {
    title: "Exact plane-stress solutions of the curved bar, as errors over (a/r)⁴",
    source: "S. Timoshenko & J. N. Goodier, Theory of Elasticity, curved bars (from memory, worked again)",
    test: "test/curved-bar.test.ts",
  },
  hook: {
    title: "Stresses of a crane hook, three digits printed",
    source: "Shigley's Mechanical Engineering Design, 9th ed., Fig. 3–35",
    test: "test/curved-bar.test.ts",
    unit: "kpsi",
  },
  crack: {
    title: "Turning of a cracked bar",
    source: "H. Tada, P. C. Paris & G. R. Irwin, The Stress Analysis of Cracks Handbook (from memory)",
    test: "test/slot-stiffness.test.ts",
  },
  angle: {
    title: "A steel angle L 100 × 100 × 10, without its fillets",
    source: "EN 10056-1 (from memory)",
    test: "test/section-properties.test.ts",
  },
  "split ring": {
    title: "A split ring opened by 0.1 in: force and stresses",
    source: "D. L. Logan, A First Course in the Finite Element Method, problem 5–64",
    test: "test/spread-ring.test.ts",
  },
  "spreading limit": {
    title: "Thin walls spread over a piston: 4, 4/(π/2) and 4/2 by hand, plates and pliers",
    source: "Zeynetdinov, Dyakov & Yarygin, eq. (4.80), its three ways for thin walls; limits worked",
    test: "test/spread-ring.test.ts",
  },
  "hot gap": {
    title: "The gap of a warm ring against the rule of thumb",
    source: "common practice, no source",
    test: "test/hot-ring.test.ts",
    unit: "mm",
  },
  contact: {
    title: "Clearances of the contact programme against another solver",
    source: "scipy, bounded least squares, on the same programme",
    test: "test/contact-scipy.test.ts",
    unit: "mm",
  },
  quantile: {
    title: "Normal quantiles",
    source: "the normal distribution by scipy",
    test: "test/normal-quantile.test.ts",
  },
  spline: {
    title: "Smoothing spline at a given penalty",
    source: "scipy, make_smoothing_spline",
    test: "test/penalized-fit.test.ts",
  },
  sobol: {
    title: "Sobol' indices of functions whose indices are known, 4096 samples",
    source:
      "Ishigami's function, A. Saltelli et al., Global Sensitivity Analysis: The Primer, 2008 (from memory)",
    test: "test/sobol-indices.test.ts",
  },
  closure: {
    title:
      "Closed by finite elements: radius and roundness in µm per 100 mm of bore, gap as a share of the opening",
    source: "CalculiX (G. Dhondt), large displacement, quadratic elements",
    test: "test/finite-element",
    unit: "see the title",
  },
  "slotted cell": {
    title: "Flexibility of slotted walls by finite elements",
    source: "CalculiX",
    test: "test/finite-element/slots.test.ts",
  },
  "contact by finite elements": {
    title: "Contact of a ring that is round when free",
    source: "CalculiX, large displacement, true free shape",
    test: "test/finite-element/contact.test.ts",
    unit: "see the test",
  },
  "spreading by finite elements": {
    title: "The ferry ring spread by hand",
    source: "CalculiX",
    test: "test/finite-element/spread.test.ts",
  },
  dxf: {
    title: "Outlines read from DXF by another program",
    source: "ezdxf",
    test: "test/outside/dxf.test.ts",
    unit: "mm, mm²",
  },
  path: {
    title: "Length of the SVG path, by a browser",
    source: "Chromium, getTotalLength",
    test: "test/outside/browser.test.ts",
  },
  print: {
    title: "Bars of the printed template, in PDF",
    source: "Chromium, poppler",
    test: "test/outside/browser.test.ts",
    unit: "mm",
  },
} satisfies Record<string, Check>;

export type CheckName = keyof typeof CHECKS;
