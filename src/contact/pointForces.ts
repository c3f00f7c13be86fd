/** A force that stands on a point rather than being spread as a pressure. */
export interface PointForce {
  /** Radians from the back. */
  readonly theta: number;
  /** N, inward positive. */
  readonly force: number;
}

/** A contact edge spreads over so many nodes at least, by the mesh alone. */
const FEWEST = 3;
/** And over so many lengths of the shear layer. */
const LAYERS = 3;
/** Share of the mean nodal force times the nodes of the ring below which an excess is none. */
const WORTH_TELLING = 0.005;

/**
 * Forces at the edges of contact zones: what the first nodes of a zone carry over the pressure further in. Where a ring
 * lifts off, bending theory puts a force there, which shear spreads over a short layer; a lone contact is a force as a
 * whole.
 *
 * @param angle of the nodes, radians
 * @param force of each node, N
 * @param clearance mm
 * @param share of the outer face that belongs to each node, mm
 * @param layer length of the shear layer over the nodes' distance; 0 without shear
 * @param sensitivity clearance from which a node counts as lifted, mm
 */
export function pointForces(
  angle: readonly number[],
  force: readonly number[],
  clearance: readonly number[],
  share: (i: number) => number,
  layer: number,
  sensitivity: number,
): PointForce[] {
  const edge = Math.max(FEWEST, Math.ceil(LAYERS * layer));
  const total = force.reduce((sum, one) => sum + one, 0);
  const touches = (i: number) => force[i] > 1e-6 * total || clearance[i] < 1e-6 * sensitivity;
  const found: PointForce[] = [];
  const add = (nodes: readonly number[], line: number) => {
    const excess = nodes.map((i) => force[i] - line * share(i));
    const sum = excess.reduce((all, one) => all + one, 0);
    if (!(sum > WORTH_TELLING * total)) return;
    const theta = excess.reduce((all, one, k) => all + one * angle[nodes[k]], 0) / sum;
    found.push({ theta, force: sum });
  };
  for (let i = 0; i < force.length; ) {
    if (!touches(i)) {
      i++;
      continue;
    }
    let end = i;
    while (end + 1 < force.length && touches(end + 1)) end++;
    const zone = Array.from({ length: end - i + 1 }, (_, k) => i + k);
    if (zone.length <= 2 * edge + 1) add(zone, 0);
    else {
      const inner = (k: number) => force[k] / share(k);
      add(zone.slice(0, edge), inner(i + edge));
      add(zone.slice(-edge), inner(end - edge));
    }
    i = end + 1;
  }
  return found;
}
