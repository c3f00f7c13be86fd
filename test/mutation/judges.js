/** The steps of the mechanics, and the tests that judge each: soon done, since a change that survives takes them all. */
export const JUDGES = {
  pressure: ["pressure-details"],
  section: ["section-details"],
  forces: ["forces-details"],
  curvature: ["curvature-details", "curved-bar"],
  shape: ["shape-details"],
  elastica: ["elastica-details"],
  ends: ["ends-details"],
  stress: ["stress-details", "curved-bar"],
  proof: ["proof-details"],
  design: ["design-details"],
  assess: ["assess-details"],
  contact: ["contact-details", "contact-bore-details", "contact-ring-details"],
  gauge: ["gauge-details"],
};
