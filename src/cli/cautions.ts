/** Printed under every report. */
export const CAUTIONS = `Cautions
  This is design guidance, computed for an ideal elastic ring. The engine maker's limits, local codes and
  qualified practice come first.
  - Ends that butt when hot score the bore and break lands: check the gap for heat at both ends of ring travel,
    and err on the wide side.
  - The stress is that of the closed ring. Spreading it over the piston usually costs more: spread no further
    than needed, and take special care with cast iron.
  - A closed or banded ring stores energy: wear eye protection and hold it in a sleeve or band.
  - Grinding, filing and cutting the gap: guards, eye protection, no loose ring in the hand; file from the outer
    face inwards, keep the ends square, deburr.`;
